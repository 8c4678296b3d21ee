"""What kind of plant this is, in the closed lists that every later rule asks about."""

from __future__ import annotations

from enum import StrEnum
from typing import Self

from hub.words import Words, say


_WORDLESS = Words("")


class Worded(StrEnum):
    """A closed list whose members are stored as text and carry plain words for people."""

    words: Words

    def __new__(cls, value: str, words: Words = _WORDLESS) -> Self:
        """Keep the words beside the value; the default only lets ``FruitType("nut")`` type-check."""
        member = str.__new__(cls, value)
        member._value_ = value
        member.words = words
        return member


def label(member: Worded) -> Words:
    """The plain words for one member of a closed list, for screens and sheets."""
    return member.words


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
