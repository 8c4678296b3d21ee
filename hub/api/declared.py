"""Every operation of the API, each declared by the file of its resource."""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules

from hub.api import resources
from hub.api.blueprint import api
from hub.api.operation import Operation


def operations() -> list[Operation]:
    """All of them; the files of the resources are imported when they were not yet."""
    for found in iter_modules(resources.__path__):
        import_module(f"{resources.__name__}.{found.name}")
    return api.operations
