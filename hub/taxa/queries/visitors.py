"""What visitors are not told: from which district a species is wanted whose places are kept back.

Of a species in the most sensitive category no place is published but a large region (Chapman 2020, doi
10.15468/doc-5jp4-5g10, category 1); its ecoregion is told, its district is not. The more careful of its care
class and the category that a curator gave it decides.
"""

from __future__ import annotations

from sqlalchemy import ColumnElement, or_

from hub.db.work import Work
from hub.science.localities import Sensitivity
from hub.taxa.models import Taxon
from hub.taxa.rules import CareClass, category_for

GUARDED = [care for care in CareClass if category_for(care) is Sensitivity.EXTREME]
KEPT_BACK: ColumnElement[bool] = or_(
    Taxon.care_class.in_(GUARDED), Taxon.sensitivity.is_not_distinct_from(int(Sensitivity.EXTREME))
)


def is_visitor(work: Work) -> bool:
    """Whether nobody with a seat reads: anybody may open an account, and it tells no more than none."""
    return work.scope.role is None and not work.scope.spans_tenants
