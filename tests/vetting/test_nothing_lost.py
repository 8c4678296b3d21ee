"""What the hub has said yes to is on the disk: the process is killed the moment after the answer."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from hub.accounts.actions import begin_session
from hub.vetting import queries
from hub.vetting.rules import SubmissionState
from tests.vetting.scene import begun, collection, set_scene, stands
from tests.vetting.typing import typed

LONG_AGO = collection(collected_on=date(2021, 7, 12))  # the other process lives by the real clock
ROOT = Path(__file__).resolve().parents[2]
# A hub of its own process answers one request after the other over its pipe, until it is killed.
ANSWERER = """
import json, sys
from flask import Flask
from hub.config import Settings
from hub.wiring import create_app
from pathlib import Path
data_dir, url, token = sys.argv[1:]
app = create_app(Settings(Path(data_dir), url, "for tests alone", quick_passwords=True))
app.config["WTF_CSRF_ENABLED"] = False
client = app.test_client()
with client.session_transaction() as session:
    session["_user_id"], session["_fresh"] = token, True
for line in sys.stdin:
    path, fields = json.loads(line)
    print(client.post(path, data=fields).status_code, flush=True)
"""


def token_of(cast, name):
    with cast.house.work(cast.scope(name), now=None) as work:
        token = begin_session(work, person=cast.people[name], device="a test")
        work.db.commit()
    return token


@pytest.fixture
def doomed(cast, settings):
    """A running hub over the same store; it never gets to say goodbye."""
    arguments = [str(settings.data_dir), settings.database_url, token_of(cast, "alice")]
    process = subprocess.Popen(
        [sys.executable, "-c", ANSWERER, *arguments],
        cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    yield process
    process.kill()
    process.communicate()


def asked(process, path, fields):
    process.stdin.write(json.dumps([path, fields]) + "\n")
    process.stdin.flush()
    return int(process.stdout.readline())


def test_an_acknowledged_draft_and_hand_in_survive_kill_9(cast, doomed):
    submission_id = begun(cast, set_scene(cast))
    path = f"/hand-ins/{submission_id}"
    version = stands(cast, submission_id).version
    assert asked(doomed, f"{path}/write", {**typed(LONG_AGO), "version": version, "do": "keep"}) == 303
    version = stands(cast, submission_id).version
    assert asked(doomed, f"{path}/hand-in", {"version": version}) == 303
    doomed.send_signal(signal.SIGKILL)
    assert doomed.wait() == -signal.SIGKILL
    found = stands(cast, submission_id)
    assert (found.state, found.revision) == (SubmissionState.HANDED_IN, 1)
    with cast.work("alice") as work:
        assert queries.collection_of(queries.newest_revision(work, found)) == LONG_AGO
