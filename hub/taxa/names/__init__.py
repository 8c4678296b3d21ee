"""Scientific names of plants: read from what people type, by the rules of the botanical code.

The code is the International Code of Nomenclature for algae, fungi, and plants (Shenzhen 2018):
Art. 23 and 24 on names of species and below, Art. 26 on autonyms, Art. H.1 to H.3 on hybrids.
"""

from hub.taxa.names.grammar import parse_name
from hub.taxa.names.parts import Hybrid, NameUnreadable, ParsedName

__all__ = ["Hybrid", "NameUnreadable", "ParsedName", "parse_name"]
