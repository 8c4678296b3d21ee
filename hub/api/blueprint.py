"""The blueprint that every resource declares its operations on."""

from __future__ import annotations

from hub.api.answering import answering
from hub.api.operation import Api

api = Api("v1", __name__, answering=answering)
