"""Verbs of vetting: write, hand in, photograph, receive, settle, return, decline."""

from hub.vetting.actions.arriving import seed_arrived, undo_arrival
from hub.vetting.actions.drafts import begin, save_draft, withdraw
from hub.vetting.actions.handing_in import check_collection, hand_in
from hub.vetting.actions.moves import move, remark
from hub.vetting.actions.photographs import (
    add_photograph,
    describe_photograph,
    remove_photograph,
    restore_photograph,
)
from hub.vetting.actions.verdicts import decline, send_back, settle

__all__ = [
    "add_photograph", "begin", "check_collection", "decline", "describe_photograph", "hand_in", "move",
    "remark", "remove_photograph", "restore_photograph", "save_draft", "seed_arrived", "send_back", "settle",
    "undo_arrival", "withdraw",
]  # fmt: skip
