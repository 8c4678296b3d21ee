"""Count tries across processes."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

import hub.db.base

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "rate_count",
        sa.Column("key", sa.String(length=64), nullable=False),
        sa.Column("until", hub.db.base.Moment(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_rate_count")),
    )


def downgrade() -> None:
    op.drop_table("rate_count")
