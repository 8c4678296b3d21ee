"""The one blueprint of all these pages."""

from __future__ import annotations

from hub.web.guard import Pages

pages = Pages("accounts", __name__)
