"""The letter of thanks that goes to a group when its collection has become an accession."""

from __future__ import annotations

from hub.accessions.models import Accession
from hub.accounts.letters import address, post
from hub.db.work import Work
from hub.groups.models import Bank, Group
from hub.taxa.queries import get as get_taxon
from hub.vetting.models import Submission
from hub.words import say, say_n


def thank(work: Work, accession: Accession, submission: Submission, remark: str = "") -> None:
    """Tell the group what became of its seed, and thank it. No locality is named in a letter."""
    group = work.db.get_one(Group, accession.group_id)
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
    body.append(say("What becomes of it: {address}", address=address(work, f"/accessions/{accession.id}")))
    post(
        work,
        to=group.contact_email,
        subject=say(
            "{taxon}: thank you for accession {number}", taxon=taxon.canonical, number=accession.number
        ),
        body=body,
    )
