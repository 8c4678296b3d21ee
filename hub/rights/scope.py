"""Who is asking, and for which group, bank or region: fixed for the whole of one request."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from uuid import UUID


class Role(StrEnum):
    """What a person does in one seat."""

    LEAD = "lead"
    MEMBER = "member"
    CURATOR = "curator"
    TECHNICIAN = "technician"
    COORDINATOR = "coordinator"
    STEWARD = "steward"


GROUP_ROLES = frozenset({Role.LEAD, Role.MEMBER})
BANK_ROLES = frozenset({Role.CURATOR, Role.TECHNICIAN})


@dataclass(frozen=True)
class Scope:
    """One seat: a person in one role. A person with several seats works in one of them at a time.

    ``group_id`` is set for group seats alone; ``bank_id`` for group and bank seats (a group's own bank);
    ``region_id`` for group, bank and coordinator seats. ``because`` is set only where work reads across all
    tenants, and says why.
    """

    person_id: UUID | None = None
    role: Role | None = None
    group_id: UUID | None = None
    bank_id: UUID | None = None
    region_id: UUID | None = None
    because: str = ""

    @classmethod
    def nobody(cls) -> Scope:
        """A visitor who is not signed in."""
        return cls()

    @classmethod
    def everyone(cls, *, because: str) -> Scope:
        """Work across all tenants: signing in, the steward's commands, summaries. Loud on purpose."""
        return cls(because=because)

    @property
    def spans_tenants(self) -> bool:
        return bool(self.because)

    @property
    def own_group_id(self) -> UUID | None:
        """The group whose rows this seat sees, if it is a group seat."""
        return self.group_id if self.role in GROUP_ROLES else None

    @property
    def own_bank_id(self) -> UUID | None:
        """The bank whose rows this seat sees, if it is a bank seat."""
        return self.bank_id if self.role in BANK_ROLES else None

    @property
    def own_region_id(self) -> UUID | None:
        """The region whose summaries this seat sees, if it is a coordinator's."""
        return self.region_id if self.role is Role.COORDINATOR else None
