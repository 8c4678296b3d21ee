"""Small yes/no questions about a scope; the policy is built from them alone."""

from __future__ import annotations

from hub.rights.scope import Role, Scope


def anybody(scope: Scope) -> bool:
    return True


def signed_in(scope: Scope) -> bool:
    return scope.person_id is not None


def has_a_seat(scope: Scope) -> bool:
    return scope.role is not None


def leads_a_group(scope: Scope) -> bool:
    return scope.role is Role.LEAD


def belongs_to_a_group(scope: Scope) -> bool:
    return scope.role in (Role.LEAD, Role.MEMBER)


def curates(scope: Scope) -> bool:
    return scope.role is Role.CURATOR


def works_in_the_bank(scope: Scope) -> bool:
    return scope.role in (Role.CURATOR, Role.TECHNICIAN)


def coordinates(scope: Scope) -> bool:
    return scope.role is Role.COORDINATOR


def runs_the_hub(scope: Scope) -> bool:
    return scope.role is Role.STEWARD
