"""The letter of thanks to a group whose collection has become an accession: by mail, and on paper."""

from __future__ import annotations

from dataclasses import dataclass

from hub.accessions.handed_in import collection_of
from hub.accessions.models import Accession
from hub.accounts.letters import address, post
from hub.db.work import Work
from hub.groups.models import Bank, Group
from hub.groups.queries import get_group
from hub.taxa.models import Taxon
from hub.taxa.queries import get as get_taxon
from hub.vetting import queries as submissions
from hub.vetting.collection import Handling
from hub.vetting.models import Submission
from hub.vetting.rules import RemarkKind
from hub.words import Words, say, say_n


@dataclass(frozen=True)
class Thanks:
    """All that the letter on paper says. It names no place and nothing of the bank's own keeping."""

    accession: Accession
    submission: Submission
    group: Group
    bank: Bank
    taxon: Taxon
    seeds: int
    people: int
    handling: Handling
    remark: str

    @property
    def opening(self) -> list[Words]:
        """What the group did, and what came of it."""
        return [
            say_n(
                "On {day}, {n} person of {group} collected seed of this plant for {bank}.",
                "On {day}, {n} people of {group} collected seed of this plant for {bank}.",
                n=self.people,
                day=self.accession.collected_on,
                group=self.group.name,
                bank=self.bank.name,
            ),
            say(
                "The collection was checked and passed. It now has a number of its own, which it keeps for "
                "good: whoever works with this seed will know that it came from you.",
            ),
            KEPT[self.handling],
        ]


KEPT = {
    Handling.BY_MOTHER: say(
        "You kept the seed of each mother plant apart. So does the bank: one day it can tell which seed "
        "came from which plant, and that makes the collection worth more than its number of seeds."
    ),
    Handling.BULK: say(
        "You took a little from many plants. That way the seed holds much of what makes the population "
        "what it is."
    ),
}


def thanks_for(work: Work, accession: Accession) -> Thanks:
    """The letter for an accession."""
    submission = submissions.get(work, accession.submission_id)
    collection = collection_of(work, submission)
    said = [each.text for each in submissions.remarks(work, submission.id) if each.kind is RemarkKind.APPROVE]
    return Thanks(
        accession=accession,
        submission=submission,
        group=get_group(work, accession.group_id),
        bank=work.db.get_one(Bank, accession.bank_id),
        taxon=get_taxon(work, accession.taxon_id),
        seeds=collection.total_seeds,
        people=collection.people,
        handling=collection.handling,
        remark="\n".join(said),
    )


def thank(work: Work, accession: Accession, submission: Submission, remark: str = "") -> None:
    """Tell the group what became of its seed, and thank it. No locality is named in a letter."""
    group = get_group(work, accession.group_id)
    bank = work.db.get_one(Bank, accession.bank_id)
    taxon = get_taxon(work, accession.taxon_id)
    body = [
        say("To {group}, with thanks.", group=group.name),
        say(
            "Your collection {number} of {taxon} was checked and is now accession {accession} of {bank}.",
            number=submission.number,
            taxon=taxon.canonical,
            accession=accession.number,
            bank=bank.name,
        ),
        say_n(
            "It carries the seed of {n} mother plant.",
            "It carries the seed of {n} mother plants.",
            n=accession.mothers,
        ),
        say("The bank now cleans, tests and keeps the seed alive in the way that its kind asks for."),
    ]
    if remark.strip():
        body.append(say("The curator writes: {remark}", remark=remark.strip()))
    body.append(
        say(
            "What becomes of it, and this letter to print: {address}",
            address=address(work, f"/accessions/{accession.id}"),
        )
    )
    post(
        work,
        to=group.contact_email,
        subject=say(
            "{taxon}: thank you for accession {number}", taxon=taxon.canonical, number=accession.number
        ),
        body=body,
    )
