"""Names of plant families, with the eight that bear an older name as well."""

from __future__ import annotations

import re

from hub.words import Refused, say

# International Code of Nomenclature (Shenzhen 2018), Art. 18.5 and 18.6.
_OLDER_NAMES = {
    "Compositae": "Asteraceae",
    "Cruciferae": "Brassicaceae",
    "Gramineae": "Poaceae",
    "Guttiferae": "Clusiaceae",
    "Labiatae": "Lamiaceae",
    "Leguminosae": "Fabaceae",
    "Palmae": "Arecaceae",
    "Papilionaceae": "Fabaceae",
    "Umbelliferae": "Apiaceae",
}
_FAMILY = re.compile(r"[A-Z][a-zë]+aceae")


def standard_family(name: str) -> str:
    """The family's name in *-aceae*, where it also has an older one; any other name as it is."""
    return _OLDER_NAMES.get(name, name)


def read_family(text: str) -> str:
    """The family's name in its one form, or nothing when nothing was given. Raises ``Refused``."""
    name = standard_family(text.strip().capitalize())
    if name and not _FAMILY.fullmatch(name):
        raise Refused(say("A plant family ends in -aceae, as in Asteraceae."), field="family")
    return name
