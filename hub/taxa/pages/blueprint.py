"""The blueprint that all these pages belong to."""

from __future__ import annotations

from hub.web.guard import Pages

pages = Pages("taxa", __name__)
