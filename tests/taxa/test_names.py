"""Scientific names: every form that is read, set right or refused.

The rules are those of the International Code of Nomenclature for algae, fungi, and plants
(Shenzhen 2018); articles are named beside the checks, letters and authors' customs from memory.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.taxa.names import Hybrid, NameUnreadable, ParsedName, parse_name


def warned(name: ParsedName) -> str:
    return " ".join(str(words) for words in name.warnings)


def test_a_whole_name_is_taken_apart() -> None:
    name = parse_name("Silene acaulis subsp. bryoides (Jord.) Nyman")
    assert (name.genus, name.specific_epithet, name.marker, name.infraspecific_epithet) == (
        "Silene",
        "acaulis",
        "subsp.",
        "bryoides",
    )
    assert (name.authorship, name.qualifier, name.hybrid, name.warnings) == (
        "(Jord.) Nyman",
        "",
        Hybrid.NONE,
        (),
    )
    assert (name.canonical, name.search_key) == ("Silene acaulis subsp. bryoides", "silene acaulis bryoides")


@pytest.mark.parametrize(
    ("text", "canonical", "key"),
    [
        ("Agrostis L.", "Agrostis", "agrostis"),
        ("Isoëtes lacustris L.", "Isoëtes lacustris", "isoetes lacustris"),
        ("Capsella bursa-pastoris", "Capsella bursa-pastoris", "capsella bursa-pastoris"),
        ("×Agropogon lutosus", "×Agropogon lutosus", "agropogon lutosus"),
        ("Salix ×capreola", "Salix ×capreola", "salix capreola"),
        ("Aus ×bus nothovar. cus", "Aus ×bus nothovar. cus", "aus bus cus"),
        ("Salix aurita × S. caprea", "Salix aurita × Salix caprea", "salix aurita salix caprea"),
    ],
)
def test_search_keys_have_no_signs_markers_or_marks(text: str, canonical: str, key: str) -> None:
    name = parse_name(text)
    assert (name.canonical, name.search_key) == (canonical, key)


@pytest.mark.parametrize(
    ("text", "rank"),
    [
        ("Viola", "genus"),
        ("Viola sp.", "genus"),
        ("Viola riviniana", "species"),
        ("Rosa canina agg.", "aggregate"),
        ("Aus bus ssp. cus", "subspecies"),
        ("Aus bus nothossp. cus", "subspecies"),
        ("Aus bus variety cus", "variety"),
        ("Aus bus subvar. cus", "subvariety"),
        ("Aus bus forma cus", "form"),
        ("Aus bus subf. cus", "subform"),
        ("Aus bus convar. cus", "infraspecific"),
        ("Aus bus × Aus cus", "formula"),
    ],
)
def test_rank_of_a_name(text: str, rank: str) -> None:
    assert parse_name(text).rank == rank


def test_only_the_lowest_rank_stays_in_the_name() -> None:
    """Art. 24.1, with its own Saxifraga example."""
    full = "Saxifraga aizoon var. aizoon subvar. brevifolia f. multicaulis subf. surculosa Engl. & Irmsch."
    name = parse_name(full)
    assert name.canonical == "Saxifraga aizoon subf. surculosa"
    assert name.authorship == "Engl. & Irmsch."
    assert "“multicaulis” was left out" in warned(name)


def test_an_autonym_bears_no_author() -> None:
    """Art. 26: a final epithet that repeats the epithet of the species has no author behind it."""
    assert parse_name("Trifolium pratense L. var. pratense").warnings == ()
    signed = parse_name("Trifolium pratense var. pratense L.")
    assert signed.authorship == ""
    assert "no author" in warned(signed)


@pytest.mark.parametrize(
    ("text", "hybrid"),
    [
        ("×Agropogon lutosus", Hybrid.NOTHOGENUS),
        ("xAgropogon lutosus", Hybrid.NOTHOGENUS),
        ("Salix x capreola", Hybrid.NOTHOSPECIES),
        ("X Abacopterella x altifrons", Hybrid.NOTHOSPECIES),
        ("Polypodium vulgare nothosubsp. mantoniae", Hybrid.NOTHOSUBSPECIES),
        ("Crataegus curvisepala nvar. naviculiformis", Hybrid.NOTHOSUBSPECIES),
        ("Xanthium strumarium", Hybrid.NONE),
    ],
)
def test_hybrid_signs_show_where_the_hybrid_is(text: str, hybrid: Hybrid) -> None:
    """Art. H.1 and H.3, with the letter x for people without the sign."""
    assert parse_name(text).hybrid is hybrid


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("Salix aurita L. × S. caprea L.", "Salix aurita × Salix caprea"),
        ("Viola riviniana × reichenbachiana", "Viola riviniana × Viola reichenbachiana"),
        ("Viola riviniana ×reichenbachiana", "Viola riviniana × Viola reichenbachiana"),
        ("Agrostis L. × Polypogon Desf.", "Agrostis × Polypogon"),
        ("Aus bus X Cus dus subsp. eus", "Aus bus × Cus dus subsp. eus"),
        ("Aus bus × A. cus × A. dus", "Aus bus × Aus cus × Aus dus"),
        ("Abies × Picea", "Abies × Picea"),
    ],
)
def test_formulae_name_every_parent_in_full(text: str, canonical: str) -> None:
    """Art. H.2: a formula joins the names of the parents with the sign ×."""
    name = parse_name(text)
    assert (name.hybrid, name.canonical) == (Hybrid.FORMULA, canonical)
    assert name.genus == canonical.split()[0]


@pytest.mark.parametrize(
    ("text", "authorship"),
    [
        ("Dryas octopetala L.f.", "L.f."),
        ("Dryas octopetala L. f.", "L.f."),
        ("Aus bus (Choisy) Hall. fil.", "(Choisy) Hall.f."),
        ("Aus bus Schedl filius 1935", "Schedl f."),
        ("Aus bus (Mull.Arg.) Benth. & Hook. f. ex Drake", "(Mull.Arg.) Benth. & Hook.f. ex Drake"),
        ("Aus bus L. f., Rosenst.", "L.f., Rosenst."),
        ("Aus bus Nyl. ex. Banker and Duby et Fr.", "Nyl. ex Banker & Duby & Fr."),
        ("Aus bus Souv., in Souv. and Mont., 1864", "Souv."),
        ("Aus bus(H.C. Burnett 1873)U. Braun (2003)", "(H.C. Burnett) U. Braun"),
        ("Aus bus Horn af Rantzien", "Horn af Rantzien"),
        ("Aus bus d'Urv. & 't Hart", "d'Urv. & 't Hart"),
    ],
)
def test_authors_are_brought_into_one_form(text: str, authorship: str) -> None:
    """Art. 46: ``ex`` stays and ``in`` goes; the spelling of f. (son) and & is common practice."""
    assert parse_name(text).authorship == authorship


def test_f_is_a_form_before_an_epithet_and_a_son_elsewhere() -> None:
    assert parse_name("Dryas octopetala f. alpina").canonical == "Dryas octopetala f. alpina"
    both = parse_name("Aus bus Rchb. f. var. cus Hook. f.")
    assert (both.canonical, both.authorship) == ("Aus bus var. cus", "Hook.f.")


@pytest.mark.parametrize(
    ("text", "canonical", "qualifier"),
    [
        ("Cypripedium cf. calceolus", "Cypripedium calceolus", "cf."),
        ("cf. Cypripedium calceolus", "Cypripedium calceolus", "cf."),
        ("Aesculus cf × hybrida", "Aesculus ×hybrida", "cf."),
        ("Rosa canina L. aggr.", "Rosa canina", "agg."),
        ("Aus bus s. str.", "Aus bus", "s.str."),
        ("Aus aff. bus s.l.", "Aus bus", "aff. s.l."),
        ("Viola spp.", "Viola", "sp."),
        ("Aus cf. bus × A. cus agg.", "Aus bus × Aus cus", "cf. agg."),
    ],
)
def test_doubt_and_width_are_kept_beside_the_name(text: str, canonical: str, qualifier: str) -> None:
    name = parse_name(text)
    assert (name.canonical, name.qualifier) == (canonical, qualifier)


@pytest.mark.parametrize(
    ("text", "canonical", "warning"),
    [
        (" Silene  acaulis", "Silene acaulis", "Extra spaces"),
        ("Silene\u00a0acaulis", "Silene acaulis", "Extra spaces"),
        ("silene acaulis", "Silene acaulis", "one capital"),
        ("Uva-Ursi cinerea", "Uva-ursi cinerea", "one capital"),
        ("Silene aCaulis", "Silene acaulis", "written small"),
        ("Salix x capreola", "Salix ×capreola", "letter x"),
        ("Silene acaulis L. 1753", "Silene acaulis", "year"),
        ("Aus bus ssp. cus", "Aus bus subsp. cus", "“ssp.” is written subsp."),
        ("Aus bus var.cus", "Aus bus var. cus", ""),
        ("Aus bus convar. cus", "Aus bus convar. cus", "out of use"),
        ("Cotoneaster (Pyracantha) rogersiana", "Cotoneaster rogersiana", "subgenus"),
        ("Daphnia (Daphnia) x krausi", "Daphnia ×krausi", "subgenus"),
        ("Polypodium pectinatum (L. f.) typica Rosent", "Polypodium pectinatum typica", "no rank before it"),
    ],
)
def test_what_is_set_right_is_told(text: str, canonical: str, warning: str) -> None:
    name = parse_name(text)
    assert name.canonical == canonical
    assert warning in warned(name)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("  ", "Write a scientific name"),
        ("Silene " * 50, "too long"),
        ("SILENE ACAULIS", "all in capitals"),
        ("Pulsatilla vernalis 'Alba'", "cultivar"),
        ("Pulsatilla vernalis cv. Alba", "cultivar"),
        ("+Crataegomespilus dardarii", "graft"),
        ("Festuca ×", "a name is missing"),
        ("Festuca × ex", "a name is missing"),
        ("Silene acaulis123", "no digits"),
        ("Viola sp. 2", "no digits"),
        ("Viola sp. nova", "must come last"),
        ("Viola riviniana sp.", "must come last"),
        ("Silene acaulis?", "“?” has no place"),
        ("Silene acaulis_alba", "“_” has no place"),
        ("Silene acaulis (L.", "brackets"),
        ("Silene acaulis L.)", "brackets"),
        ("Silene acaulis ((L.) Jacq.)", "brackets"),
        ("S. acaulis", "genus in full"),
        ("Salix aurita × R. caprea", "genus in full"),
        ("cf.", "genus is missing"),
        ("1753", "genus is missing"),
        ("Silene mâle", "“mâle” has “â”"),
        ("Silene o'donelli", "“o'donelli” has “'”"),
        ("Viola-", "no whole word"),
        ("Silene acaulis morph. alba", "“morph.” does not fit"),
        ("Silene acaulis subsp.", "“subsp.” does not fit"),
        ("Silene var. alba", "“var.” does not fit"),
        ("Silene L. acaulis", "“acaulis” does not fit"),
        ("Silene acaulis f. wila-k'oyu", "“wila-k'oyu” has"),
    ],
)
def test_refusals_say_what_is_wrong(text: str, reason: str) -> None:
    with pytest.raises(NameUnreadable) as refused:
        parse_name(text)
    assert reason in str(refused.value.words)


NAME_PARTS = st.sampled_from(
    [
        "Silene",
        "acaulis",
        "subsp.",
        "f.",
        "×",
        "x",
        "X",
        "(L.)",
        "L.",
        "S.",
        "cf.",
        "sp.",
        "agg.",
        "ex",
        "ë",
        "&",
    ]
)


@given(st.text(max_size=40) | st.lists(NAME_PARTS, max_size=8).map(" ".join))
def test_any_text_is_read_or_refused_and_a_canonical_name_reads_as_itself(text: str) -> None:
    try:
        name = parse_name(text)
    except NameUnreadable:
        return
    again = parse_name(name.canonical)
    assert (again.canonical, again.search_key) == (name.canonical, name.search_key)
