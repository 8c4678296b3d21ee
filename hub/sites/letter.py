"""The letter that asks an owner: who asks, for which plants and why, how much, when, how many, what for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from hub.accounts.letters import Paragraph, post
from hub.db.work import Work
from hub.groups.models import Bank, Group
from hub.groups.queries import get_group, there
from hub.sites import queries
from hub.sites.models import Site
from hub.taxa.models import Taxon
from hub.taxa.rules import CareClass
from hub.words import Refused, Words, say, say_n

USUAL_ONE_IN = 10
CAREFUL_ONE_IN = 20  # half of the usual share, where any of the plants is critical
USUAL_PEOPLE = 6

WHY: dict[CareClass, Words] = {
    CareClass.SECURE: say("still common, and worth keeping so: seed banked now holds all its variety"),
    CareClass.WATCH: say("getting scarcer: seed banked now is a safeguard"),
    CareClass.RARE: say("rare: each population that is banked may be the one that saves it"),
    CareClass.CRITICAL: say("in danger of being lost: without seed in a bank, a loss would be for good"),
    CareClass.GONE: say("thought to be gone: we would look and photograph, and take nothing"),
    CareClass.UNKNOWN: say("little known, and so handled as carefully as a rare plant"),
}


@dataclass(frozen=True)
class Letter:
    """Everything that the letter says which is not the same in each."""

    site: Site
    taxa: list[Taxon]
    bank: Bank
    group: Group | None
    written_on: date
    starts_on: date
    ends_on: date
    people: int
    one_in: int
    wish: str

    @property
    def share(self) -> float:
        """The most that is taken, as a part of one."""
        return 1 / self.one_in

    @property
    def asker(self) -> str:
        return self.group.name if self.group else self.bank.name

    @property
    def species(self) -> list[tuple[Taxon, Words]]:
        return [(taxon, WHY[taxon.care_class]) for taxon in self.taxa]

    @property
    def promises(self) -> list[Words]:
        """What the owner can hold us to, each in one sentence."""
        amount = say(
            "At most 1 seed in every {n} that ripen in a year ({percent}%) leaves your land, all groups "
            "taken together. For small or struggling populations it is less, or nothing.",
            n=self.one_in,
            percent=f"{100 / self.one_in:.3g}",
        )
        visitors = say_n(
            "{n} person at most comes at one time.", "{n} people at most come at one time.", n=self.people
        )
        return [
            amount,
            say("Only seed is taken: no plant is dug up, and each species only with the papers it needs."),
            say(
                "We come between {first} and {last}, when seed is ripe.",
                first=self.starts_on,
                last=self.ends_on,
            ),
            visitors,
            say(
                "Pupils come only with their teachers. Every group follows a written sheet for each species."
            ),
            say("We tell nobody outside this work where rare plants grow on your land."),
        ]

    @property
    def uses(self) -> Words:
        return say(
            "{bank} cleans the seed, tests it and keeps it alive, as a safeguard against loss. Some may "
            "later be used for research, or to bring plants back where they were lost. You may ask what "
            "became of the seed from your land, and you may ask for a part of it to come back there.",
            bank=self.bank.name,
        )

    @property
    def law(self) -> Words:
        return say(
            "Your answer does not take the place of any permit that the law asks for: local law and the "
            "conditions of such permits come first. You may take your permission back at any time."
        )


def letter_about(
    work: Work,
    site: Site,
    *,
    starts_on: date | None = None,
    ends_on: date | None = None,
    people: int | None = None,
    one_in: int | None = None,
    wish: str = "",
) -> Letter:
    """The letter for a site and all that is known to grow there. Raises Refused for dates that cross."""
    taxa = {taxon.id: taxon for each, taxon in queries.populations_at(work, site.id) if not each.retired_at}
    group = get_group(work, work.scope.own_group_id) if work.scope.own_group_id else None
    first = starts_on or work.today
    last = ends_on or max(first, date(first.year, 12, 31))
    if last < first:
        raise Refused(say("The last day comes before the first."), field="ends_on")
    return Letter(
        site=site,
        taxa=list(taxa.values()),
        bank=there(work.db.get(Bank, site.bank_id), site.bank_id),
        group=group,
        written_on=work.today,
        starts_on=first,
        ends_on=last,
        people=people or USUAL_PEOPLE,
        one_in=one_in or usual_one_in(list(taxa.values())),
        wish=wish,
    )


def usual_one_in(taxa: Sequence[Taxon]) -> int:
    """One seed in ten; in twenty where any plant is critical. Our own default, which sheets only lower."""
    critical = any(taxon.care_class is CareClass.CRITICAL for taxon in taxa)
    return CAREFUL_ONE_IN if critical else USUAL_ONE_IN


def mail(work: Work, letter: Letter) -> None:
    """Send the letter to the owner by mail. Raises Refused where no address is known."""
    if not letter.site.owner_email:
        raise Refused(say("The owner’s e-mail address is not known here."))
    post(
        work,
        to=letter.site.owner_email,
        subject=say("May we collect some seed at {site}?", site=letter.site.name),
        body=[*opening(letter), *letter.promises, letter.uses, letter.law, answer_to(letter)],
    )


def opening(letter: Letter) -> list[Paragraph]:
    """Who asks, where, and for which plants."""
    asks = say("To {owner}: dear owner or manager,", owner=letter.site.owner_label)
    if letter.group:
        who = say(
            "{group} collects wild seed for {bank}. We ask for your permission to do so at {site}.",
            group=letter.group.name,
            bank=letter.bank.name,
            site=letter.site.name,
        )
    else:
        who = say(
            "{bank} keeps seed of wild plants. We ask for your permission to collect at {site}.",
            bank=letter.bank.name,
            site=letter.site.name,
        )
    plants = [
        say("{name} ({vernacular}) is {why}.", name=taxon.canonical, vernacular=taxon.vernacular, why=why)
        if taxon.vernacular
        else say("{name} is {why}.", name=taxon.canonical, why=why)
        for taxon, why in letter.species
    ]
    wish = [letter.wish] if letter.wish else []
    return [asks, who, *plants, *wish]


def answer_to(letter: Letter) -> Words:
    """Where a yes, a no or a question goes."""
    email = letter.group.contact_email if letter.group else letter.bank.email
    return say(
        "Please answer {asker} at {email}: yes, yes with conditions, or no. A written yes with its first and "
        "last day is enough.",
        asker=letter.asker,
        email=email,
    )
