"""A rulebook that cannot be trusted is refused when it is read, with the rule at fault."""

from __future__ import annotations

from datetime import date

import pytest

from hub.protocols.conditions import BadCondition, conditions
from hub.protocols.facts import kinds
from hub.protocols.figures import FIGURES
from hub.protocols.rulebook_reader import RULEBOOK, BadRulebook, base_name, names_in, read_rulebook
from hub.protocols.sheet import Evidence

RULE = """
[[rule]]
id = "{id}"
title = "T"
topic = "take"
section = "collect"
since = 2020-01-01
when = {when}
gives = {gives}
says = "{says}"
plain = "P"
why = "W"
evidence = "{evidence}"
{more}
"""
GOOD = {"id": "a", "when": "{}", "gives": "{}", "says": "S", "evidence": "default", "more": ""}


def _read(tmp_path, *rules, questions=""):
    (tmp_path / "sources.toml").write_text('[book]\nauthor = "A"\nyear = "2001"\ntitle = "T"\n')
    (tmp_path / "questions.toml").write_text(questions)
    (tmp_path / "rules.toml").write_text("".join(RULE.format(**{**GOOD, **rule}) for rule in rules))
    return read_rulebook(tmp_path)


def test_a_good_rule_is_read(tmp_path):
    (rule,) = _read(tmp_path, {}).rules
    assert (rule.id, rule.evidence, rule.stage) == ("a", Evidence.DEFAULT, 0)


@pytest.mark.parametrize(
    "fault",
    [
        {"when": '{ colour = "red" }'},
        {"when": '{ care_class = "vanished" }'},
        {"when": '{ care_class = "not vanished" }'},
        {"when": '{ fruiting_plants = "many" }'},
        {"when": '{ fruiting_plants = "below 20" }'},
        {"when": "{ fruiting_plants = true }"},
        {"when": '{ poor_year = "yes" }'},
        {"when": "{ care_class = 3 }"},
        {"gives": "{ season_share = 1.1 }"},
        {"gives": "{ season_share = -0.1 }"},
        {"gives": '{ season_share = "trend" }'},
        {"gives": "{ colour = 1 }"},
        {"gives": '{ handling = "mixed" }'},
        {"gives": "{ mothers_goal = true }"},
        {"says": "At most {season_share_percent} of it."},
        {"says": "{plants} plants.", "when": '{ plants = ["< 20", "unknown"] }'},
        {"evidence": "rumour"},
        {"evidence": "published"},
        {"evidence": "default", "more": 'source = ["book"]'},
        {"evidence": "memory", "more": 'source = ["book"]'},
        {"evidence": "published", "more": 'source = ["no-such-book"]'},
        {"more": "colour = 1"},
    ],
    ids=str,
)
def test_a_faulty_rule_is_refused(fault, tmp_path):
    with pytest.raises(BadRulebook):
        _read(tmp_path, fault)


def test_a_rule_holds_from_its_first_day_to_its_last(tmp_path):
    (rule,) = _read(tmp_path, {"more": "until = 2025-12-31"}).rules
    days = [date(2019, 12, 31), date(2020, 1, 1), date(2025, 12, 31), date(2026, 1, 1)]
    assert [rule.holds_on(day) for day in days] == [False, True, True, False]


def test_two_rules_of_one_id_are_refused(tmp_path):
    with pytest.raises(BadRulebook, match="share an id: a"):
        _read(tmp_path, {}, {})


def test_a_question_about_no_fact_is_refused(tmp_path):
    with pytest.raises(BadRulebook, match="colour"):
        _read(tmp_path, {}, questions='[colour]\nsays = "Which?"\nplain = "Which?"\n')


def test_the_digest_follows_every_letter(tmp_path):
    assert _read(tmp_path, {}).digest != _read(tmp_path, {"says": "S!"}).digest


@pytest.mark.parametrize(
    ("wanted", "value", "fits"),
    [
        ("< 20", 19, True),
        ("< 20", 20, False),
        (">= 20", 20, True),
        ("20 to 49", 49, True),
        ("20 to 49", 50, False),
        ("< 20", None, None),
        (["< 20", "unknown"], None, True),
        ("known", None, False),
        ("known", 3, True),
    ],
)
def test_conditions_on_numbers(wanted, value, fits):
    (condition,) = conditions({"fruiting_plants": wanted}, kinds())
    assert condition.fits({"fruiting_plants": value}) is fits


@pytest.mark.parametrize(
    ("wanted", "value", "fits"),
    [
        ("nut", "nut", True),
        ("not nut, samara", "samara", False),
        ("not nut, samara", "legume", True),
        ("not nut", None, None),
        (["nut", "samara"], "legume", False),
    ],
)
def test_conditions_on_words(wanted, value, fits):
    (condition,) = conditions({"fruit_type": wanted}, kinds())
    assert condition.fits({"fruit_type": value}) is fits


def test_a_condition_on_a_fact_with_several_answers_fits_any_of_them():
    (condition,) = conditions({"hazards": "thorns"}, kinds())
    assert condition.fits({"hazards": ("toxic", "thorns")}) is True
    assert condition.fits({"hazards": ()}) is False


def test_a_number_that_is_no_number_is_refused():
    with pytest.raises((BadCondition, ValueError)):
        conditions({"fruiting_plants": "< twenty"}, kinds())


def test_every_source_is_cited_and_every_rule_has_its_ground(rulebook):
    cited = {key for rule in rulebook.rules for key in (*rule.source, *rule.see)}
    assert set(rulebook.sources) - cited == set()


def test_numbers_of_our_own_say_so(rulebook):
    """A default never looks like a citation: its reason says that the figure is ours."""
    unowned = [
        rule.id
        for rule in rulebook.rules
        if rule.evidence is Evidence.DEFAULT
        and any(isinstance(value, int | float) and value for value in rule.gives.values())
        and "own default" not in rule.why
    ]
    assert unowned == []


def test_a_number_that_a_bank_may_change_is_never_written_out_in_the_text(rulebook):
    """Else the sheet would go on telling the old number."""
    fixed = [
        (rule.id, name)
        for rule in rulebook.rules
        for name, value in rule.gives.items()
        if FIGURES[name].careful and name != "season_factor" and value
        for text in (rule.says, rule.plain)
        if name not in {base_name(each) for each in names_in(text)}
    ]
    # A salvage tells all its shares together; its plain words name one, for all are the same.
    assert [each for each in fixed if each[0] != "take.salvage"] == []


def test_remembered_rules_say_that_nobody_looked_them_up(rulebook):
    admissions = ("memory", "not checked", "no publication", "no authority", "general", "practice")
    silent = [
        rule.id
        for rule in rulebook.rules
        if rule.evidence is Evidence.MEMORY and not any(each in rule.why.lower() for each in admissions)
    ]
    assert silent == []


def test_texts_are_whole_sentences_with_typographic_marks(rulebook):
    for rule in rulebook.rules:
        for text in (rule.says, rule.plain, rule.why):
            assert not text[0].islower(), rule.id
            assert text[-1] in ".!?", rule.id
            assert "'" not in text, rule.id


def test_plain_words_are_short(rulebook):
    """Our own bar for pupils: at most 30 words, none longer than 14 letters."""
    for rule in rulebook.rules:
        words = rule.plain.replace("{", " ").replace("}", " ").split()
        assert len(words) <= 30, rule.id
        assert max(len(word.strip(".,:;!?_")) for word in words if "_" not in word) <= 14, rule.id


def test_the_rulebook_is_read_from_its_own_folder(rulebook):
    assert read_rulebook(RULEBOOK).digest == rulebook.digest
