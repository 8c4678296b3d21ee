"""The rulebook as people read it: every rule with when it speaks, what it says, why, and who says so."""

from __future__ import annotations

from flask import request
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.protocols import rule_words, sheet_words
from hub.protocols.figures import FIGURES
from hub.protocols.pages.blueprint import pages
from hub.protocols.rulebook_reader import Rule, standard_rulebook
from hub.protocols.sheet import Section
from hub.rights.policy import may
from hub.rights.right import Right
from hub.web.render import render

LONGEST_SEARCH = 100


@pages.get("/rules", needs=Right.SPECIES_READ)
def rules(work: Work) -> Response:
    search = request.args.get("search", "").strip()[:LONGEST_SEARCH]
    topic = request.args.get("topic", "")
    book = standard_rulebook()
    found = [rule for rule in book.rules if fits(rule, search, topic)]
    return render(
        "protocols/rules.html",
        book=book,
        parts=[(section, [rule for rule in found if rule.section is section]) for section in Section],
        found=len(found),
        search=search,
        topic=topic,
        topics=sorted({rule.topic for rule in book.rules}),
        words=sheet_words,
        rule_words=rule_words,
        figures=FIGURES,
        may_change=may(work.scope, Right.RULE_OVERRIDE),
    )


def fits(rule: Rule, search: str, topic: str) -> bool:
    """Every word of the search stands somewhere in the rule’s texts or its id."""
    text = " ".join((rule.id, rule.title, rule.says, rule.plain, rule.why, rule.topic)).casefold()
    return topic in ("", rule.topic) and all(word in text for word in search.casefold().split())
