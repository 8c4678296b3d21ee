"""What kind of plant this is, and how carefully it must be handled."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from hub.science.localities import Sensitivity
from hub.taxa.closed_lists import Worded, label
from hub.taxa.ranks import Rank
from hub.taxa.red_list import RedListCategory
from hub.words import Words, say


class CareClass(Worded):
    """How carefully a taxon must be handled, read from its ranks and lists."""

    SECURE = "secure", say("secure")
    WATCH = "watch", say("watch")
    RARE = "rare", say("rare")
    CRITICAL = "critical", say("critical")
    GONE = "gone", say("thought to be gone")
    UNKNOWN = "unknown", say("not known, so treated as rare")


class LifeForm(Worded):
    """How long the plant lives and what shape it takes."""

    ANNUAL = "annual", say("annual: lives one season")
    BIENNIAL = "biennial", say("biennial: flowers in its second year, then dies")
    MONOCARPIC_PERENNIAL = "monocarpic_perennial", say("lives for years, flowers once, then dies")
    PERENNIAL_HERB = "perennial_herb", say("perennial herb")
    BULB = "bulb", say("bulb or corm")
    DWARF_SHRUB = "dwarf_shrub", say("dwarf shrub")
    SHRUB = "shrub", say("shrub")
    TREE = "tree", say("tree")
    FERN = "fern", say("fern or fern ally")
    AQUATIC = "aquatic", say("water plant")
    UNKNOWN = "unknown", say("life form not known")


class FruitType(Worded):
    """What carries the seed, which decides how and when it can be collected."""

    DRY_CAPSULE = "dry_capsule", say("dry capsule that splits open")
    PORE_CAPSULE = "pore_capsule", say("capsule that shakes seed out through pores")
    FOLLICLE = "follicle", say("follicle that splits along one side")
    LEGUME = "legume", say("pod")
    EXPLOSIVE = "explosive", say("fruit that throws its seed")
    ACHENE_PLAIN = "achene_plain", say("achene without a plume")
    ACHENE_PLUMED = "achene_plumed", say("achene with a plume for the wind")
    NUTLET_SCHIZOCARP = "nutlet_schizocarp", say("fruit that breaks into nutlets")
    SAMARA = "samara", say("winged fruit")
    NUT = "nut", say("nut")
    FLESHY = "fleshy", say("fleshy fruit")
    FLESHY_CONE = "fleshy_cone", say("fleshy cone")
    WOODY_CONE = "woody_cone", say("woody cone")
    GRAIN = "grain", say("grain of a grass, sedge or rush")
    CATKIN_CAPSULE = "catkin_capsule", say("catkin with cottony seed")
    ANT_DISPERSED = "ant_dispersed", say("seed that ants carry away")
    DUST_SEED = "dust_seed", say("seed as fine as dust")
    SPORE = "spore", say("spores")
    UNKNOWN = "unknown", say("fruit type not known")


class StorageBehaviour(Worded):
    """What the seed bears of drying and cold (HANDBOOK §5.1)."""

    ORTHODOX = "orthodox", say("can be dried and frozen")
    ORTHODOX_HARD = "orthodox_hard", say("can be dried and frozen, with a hard coat that keeps water out")
    SHORT_LIVED = "short_lived", say("can be dried and frozen, but lasts only some years")
    INTERMEDIATE = "intermediate", say("bears some drying, but is harmed by more, or by cold when dry")
    RECALCITRANT = "recalcitrant", say("dies when dried")
    UNRESOLVED = "unresolved", say("its relatives differ, so treat it as if drying kills it")
    EXCEPTIONAL = "exceptional", say("cannot be kept by usual seed banking")
    UNKNOWN = "unknown", say("not known, so treat it as if drying kills it")


class Hazard(Worded):
    """What on the plant can hurt the person who collects it."""

    TOXIC = "toxic", say("poisonous if eaten")
    IRRITANT_SAP = "irritant_sap", say("sap that irritates the skin and eyes")
    ALLERGEN = "allergen", say("can set off an allergy")
    THORNS = "thorns", say("thorns or prickles")
    BURNING_HAIRS = "burning_hairs", say("hairs that sting or burn")


class LegalList(Worded):
    """How a taxon stands on a legal list: the last says that somebody looked and did not find it."""

    SPECIAL_CONCERN = "special_concern", say("of special concern")
    THREATENED = "threatened", say("threatened")
    ENDANGERED = "endangered", say("endangered")
    NOT_LISTED = "not_listed", say("not on the list")


# How careful each class asks us to be: what is not known is handled as if it were rare.
_CAREFULNESS = {
    CareClass.SECURE: 0,
    CareClass.WATCH: 1,
    CareClass.UNKNOWN: 2,
    CareClass.RARE: 2,
    CareClass.CRITICAL: 3,
    CareClass.GONE: 4,
}

# The crosswalk from ranks, categories and lists to care is our own default: none is published.
_CARE_OF_LEVEL = {
    "X": CareClass.GONE,
    "H": CareClass.CRITICAL,
    "1": CareClass.CRITICAL,
    "2": CareClass.RARE,
    "3": CareClass.WATCH,
    "4": CareClass.SECURE,
    "5": CareClass.SECURE,
}

_CARE_OF_CATEGORY = {
    RedListCategory.EX: CareClass.GONE,
    RedListCategory.EW: CareClass.GONE,
    RedListCategory.RE: CareClass.GONE,
    RedListCategory.CR: CareClass.CRITICAL,
    RedListCategory.EN: CareClass.CRITICAL,
    RedListCategory.VU: CareClass.RARE,
    RedListCategory.NT: CareClass.WATCH,
    RedListCategory.LC: CareClass.SECURE,
}

_CARE_OF_LIST = {
    LegalList.SPECIAL_CONCERN: CareClass.RARE,
    LegalList.THREATENED: CareClass.CRITICAL,
    LegalList.ENDANGERED: CareClass.CRITICAL,
}

_CATEGORY_FOR = {
    CareClass.SECURE: Sensitivity.LOW,
    CareClass.WATCH: Sensitivity.MEDIUM,
    CareClass.RARE: Sensitivity.HIGH,
    CareClass.UNKNOWN: Sensitivity.HIGH,
    CareClass.CRITICAL: Sensitivity.EXTREME,
    CareClass.GONE: Sensitivity.EXTREME,
}


@dataclass(frozen=True)
class CareReading:
    """The care class, and the one rank, category or list that decided it."""

    care: CareClass
    because: Words


def care_of_rank(rank: Rank) -> CareClass:
    """The most careful reading of one rank: the rarer end of a range, the rarest season.

    The T part governs where there is one. Where the T part tells nothing, the species still
    sets the least care, since no subspecies or variety is commoner than its species.
    """
    species = _most_careful(_CARE_OF_LEVEL.get(part.rarer, CareClass.UNKNOWN) for part in rank.parts)
    if rank.infraspecific is None:
        return species
    own = _CARE_OF_LEVEL.get(rank.infraspecific.rarer, CareClass.UNKNOWN)
    return _most_careful((own, species)) if own is CareClass.UNKNOWN else own


def care_of_category(category: RedListCategory) -> CareClass:
    """The care a Red List category asks for; too few data are no sign of safety."""
    return _CARE_OF_CATEGORY.get(category, CareClass.UNKNOWN)


def care_of_list(kind: LegalList) -> CareClass:
    """The care a legal list asks for that names the taxon."""
    return _CARE_OF_LIST[kind]


def care_class(
    ranks: Iterable[Rank], categories: Iterable[RedListCategory], legal_lists: Iterable[LegalList]
) -> CareReading:
    """The most careful of everything said about a taxon, and what said it.

    *Unknown* is weighed as rare, whether somebody looked and could not tell (U, DD) or nobody
    has judged (NR, NA, NE, a hybrid): neither is a sign of safety, so both outweigh secure and
    watch. They give way to rare, which says the same and says more. Of equal readings a legal
    list is named before a rank, and a rank before a category.
    """
    readings = [
        *(_reading_of_list(kind) for kind in legal_lists if kind is not LegalList.NOT_LISTED),
        *(_reading_of_rank(rank) for rank in ranks),
        *(_reading_of_category(category) for category in categories),
    ]
    nobody = CareReading(CareClass.UNKNOWN, say("No rank, Red List category or legal list is recorded."))
    return max(readings, key=lambda reading: _care_weight(reading.care), default=nobody)


def category_for(care: CareClass) -> Sensitivity:
    """The sensitivity category a locality of this care class gets until a curator decides (our default)."""
    return _CATEGORY_FOR[care]


def _reading_of_list(kind: LegalList) -> CareReading:
    care = care_of_list(kind)
    return CareReading(
        care, say("A legal list names it as {kind}: {care}.", kind=label(kind), care=label(care))
    )


def _reading_of_rank(rank: Rank) -> CareReading:
    care = care_of_rank(rank)
    return CareReading(care, say("Its rank is {rank}: {care}.", rank=str(rank), care=label(care)))


def _reading_of_category(category: RedListCategory) -> CareReading:
    care = care_of_category(category)
    words = say("Its Red List category is {category}: {care}.", category=str(category), care=label(care))
    return CareReading(care, words)


def _care_weight(care: CareClass) -> tuple[int, bool]:
    return _CAREFULNESS[care], care is not CareClass.UNKNOWN


def _most_careful(classes: Iterable[CareClass]) -> CareClass:
    return max(classes, key=_care_weight, default=CareClass.UNKNOWN)
