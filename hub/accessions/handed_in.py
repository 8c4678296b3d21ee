"""What an accession was made from: the collection as it was handed in last."""

from __future__ import annotations

from hub.db.work import Work
from hub.vetting import queries as submissions
from hub.vetting.collection import Collection
from hub.vetting.models import Submission
from hub.words import NotFound


def collection_of(work: Work, submission: Submission) -> Collection:
    """The newest revision of a submission. Raises NotFound for one that was never handed in."""
    revision = submissions.newest_revision(work, submission)
    if revision is None:
        raise NotFound("revision")
    return submissions.collection_of(revision)
