"""What somebody types into the form of a collection: every box, as a browser sends it."""

from __future__ import annotations

from typing import Any

from hub.vetting.collection import Collection
from hub.vetting.schemas import CollectionSchema
from hub.web.forms import Form
from tests.vetting.scene import collection


def typed(whole: Collection | None = None, **boxes: Any) -> dict[str, Any]:
    """A whole form, with single boxes typed otherwise: ``typed(people="many")``."""
    form = Form(CollectionSchema(), whole or collection())
    return {**form.typed.to_dict(), **{name.replace("__", "-"): text for name, text in boxes.items()}}
