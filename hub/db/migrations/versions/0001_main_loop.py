"""The tables of the main loop."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

import hub.db.base

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "answered_request",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("key", sa.String(length=255), nullable=False),
        sa.Column("what", sa.String(length=64), nullable=False),
        sa.Column("status", sa.Integer(), nullable=False),
        sa.Column("body", hub.db.base.Document, nullable=False),
        sa.Column("at", hub.db.base.Moment(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_answered_request")),
        sa.UniqueConstraint("person_id", "key", name=op.f("uq_answered_request_person_id_key")),
    )
    with op.batch_alter_table("answered_request", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_answered_request_at"), ["at"], unique=False)

    op.create_table(
        "audit_entry",
        sa.Column("serial", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("at", hub.db.base.Moment(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=True),
        sa.Column("role", sa.String(length=40), nullable=False),
        sa.Column("group_id", sa.Uuid(), nullable=True),
        sa.Column("bank_id", sa.Uuid(), nullable=True),
        sa.Column("event", sa.String(length=60), nullable=False),
        sa.Column("thing_kind", sa.String(length=40), nullable=False),
        sa.Column("thing_id", sa.String(length=40), nullable=False),
        sa.Column("before", hub.db.base.Document, nullable=False),
        sa.Column("after", hub.db.base.Document, nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("previous_digest", sa.String(length=64), nullable=False),
        sa.Column("digest", sa.String(length=64), nullable=False),
        sa.PrimaryKeyConstraint("serial", name=op.f("pk_audit_entry")),
        sa.UniqueConstraint("digest", name=op.f("uq_audit_entry_digest")),
    )
    with op.batch_alter_table("audit_entry", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_audit_entry_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_audit_entry_group_id"), ["group_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_audit_entry_person_id"), ["person_id"], unique=False)
        batch_op.create_index("ix_audit_entry_thing", ["thing_kind", "thing_id"], unique=False)

    op.create_table(
        "audit_head",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("serial", sa.Integer(), nullable=False),
        sa.Column("digest", sa.String(length=64), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_audit_head")),
    )
    op.create_table(
        "invitation",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("email", sa.String(length=254), nullable=False),
        sa.Column(
            "role",
            sa.Enum(
                "lead",
                "member",
                "curator",
                "technician",
                "coordinator",
                "steward",
                name="role",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("group_id", sa.Uuid(), nullable=True),
        sa.Column("bank_id", sa.Uuid(), nullable=True),
        sa.Column("region_id", sa.Uuid(), nullable=True),
        sa.Column("token_digest", sa.String(length=64), nullable=False),
        sa.Column("sent_at", hub.db.base.Moment(), nullable=False),
        sa.Column("ends_at", hub.db.base.Moment(), nullable=False),
        sa.Column("taken_at", hub.db.base.Moment(), nullable=True),
        sa.Column("withdrawn_at", hub.db.base.Moment(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_invitation")),
        sa.UniqueConstraint("token_digest", name=op.f("uq_invitation_token_digest")),
    )
    with op.batch_alter_table("invitation", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_invitation_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_invitation_group_id"), ["group_id"], unique=False)

    op.create_table(
        "letter",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("to", sa.String(length=254), nullable=False),
        sa.Column("subject", sa.String(length=200), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column(
            "state",
            sa.Enum(
                "waiting",
                "sent",
                "failed",
                name="letterstate",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("written_at", hub.db.base.Moment(), nullable=False),
        sa.Column("due_at", hub.db.base.Moment(), nullable=False),
        sa.Column("tries", sa.Integer(), nullable=False),
        sa.Column("trouble", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_letter")),
    )
    with op.batch_alter_table("letter", schema=None) as batch_op:
        batch_op.create_index("ix_letter_due", ["state", "due_at"], unique=False)

    op.create_table(
        "person",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("email", sa.String(length=254), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("password_hash", sa.String(length=200), nullable=False),
        sa.Column("created_at", hub.db.base.Moment(), nullable=False),
        sa.Column("closed_at", hub.db.base.Moment(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_person")),
        sa.UniqueConstraint("email", name=op.f("uq_person_email")),
    )
    op.create_table(
        "rate_count",
        sa.Column("key", sa.String(length=64), nullable=False),
        sa.Column("until", hub.db.base.Moment(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_rate_count")),
    )
    op.create_table(
        "region",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("code", sa.String(length=20), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("outline", hub.db.base.Document, nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_region")),
        sa.UniqueConstraint("code", name=op.f("uq_region_code")),
    )
    op.create_table(
        "serial",
        sa.Column("series", sa.String(length=80), nullable=False),
        sa.Column("last", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("series", name=op.f("pk_serial")),
    )
    op.create_table(
        "sheet_renewal",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("at", hub.db.base.Moment(), nullable=False),
        sa.Column("reason", hub.db.base.Document, nullable=False),
        sa.Column("population_id", sa.Uuid(), nullable=True),
        sa.Column("site_id", sa.Uuid(), nullable=True),
        sa.Column("taxon_id", sa.Uuid(), nullable=True),
        sa.Column("bank_id", sa.Uuid(), nullable=True),
        sa.Column("turn", sa.String(length=60), nullable=True),
        sa.Column("tries", sa.Integer(), nullable=False),
        sa.Column("done_at", hub.db.base.Moment(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sheet_renewal")),
        sa.UniqueConstraint("turn", name=op.f("uq_sheet_renewal_turn")),
    )
    with op.batch_alter_table("sheet_renewal", schema=None) as batch_op:
        batch_op.create_index("ix_sheet_renewal_due", ["done_at", "at"], unique=False)

    op.create_table(
        "taxon",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("scientific_name", sa.String(length=200), nullable=False),
        sa.Column("canonical", sa.String(length=200), nullable=False),
        sa.Column("search_key", sa.String(length=200), nullable=False),
        sa.Column("family", sa.String(length=200), nullable=False),
        sa.Column("vernacular", sa.String(length=200), nullable=False),
        sa.Column(
            "care_class",
            sa.Enum(
                "secure",
                "watch",
                "rare",
                "critical",
                "gone",
                "unknown",
                name="careclass",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column(
            "life_form",
            sa.Enum(
                "annual",
                "biennial",
                "monocarpic_perennial",
                "perennial_herb",
                "bulb",
                "dwarf_shrub",
                "shrub",
                "tree",
                "fern",
                "aquatic",
                "unknown",
                name="lifeform",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column(
            "fruit_type",
            sa.Enum(
                "dry_capsule",
                "pore_capsule",
                "follicle",
                "legume",
                "explosive",
                "achene_plain",
                "achene_plumed",
                "nutlet_schizocarp",
                "samara",
                "nut",
                "fleshy",
                "fleshy_cone",
                "woody_cone",
                "grain",
                "catkin_capsule",
                "ant_dispersed",
                "dust_seed",
                "spore",
                "unknown",
                name="fruittype",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column(
            "storage",
            sa.Enum(
                "orthodox",
                "orthodox_hard",
                "short_lived",
                "intermediate",
                "recalcitrant",
                "unresolved",
                "exceptional",
                "unknown",
                name="storagebehaviour",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("storage_source", sa.Text(), nullable=False),
        sa.Column(
            "storage_evidence",
            sa.Enum(
                "published",
                "secondary",
                "memory",
                "default",
                name="evidence",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("hazards", hub.db.base.Document, nullable=True),
        sa.Column("native", sa.Boolean(), nullable=True),
        sa.Column("dioecious", sa.Boolean(), nullable=True),
        sa.Column("clonal", sa.Boolean(), nullable=True),
        sa.Column("two_year_ripening", sa.Boolean(), nullable=True),
        sa.Column("masting", sa.Boolean(), nullable=True),
        sa.Column("persistent_seed_bank", sa.Boolean(), nullable=True),
        sa.Column("international_trade_listed", sa.Boolean(), nullable=True),
        sa.Column("seed_mass_mg", sa.Double(), nullable=True),
        sa.Column("seeds_per_fruit", sa.Double(), nullable=True),
        sa.Column("collect_from_bbch", sa.String(length=2), nullable=True),
        sa.Column("flowers_from", sa.Integer(), nullable=True),
        sa.Column("ripens_from", sa.Integer(), nullable=True),
        sa.Column("ripens_to", sa.Integer(), nullable=True),
        sa.Column("ripeness_note", sa.Text(), nullable=False),
        sa.Column("diagnostic_parts", sa.Text(), nullable=False),
        sa.Column("lookalikes", sa.Text(), nullable=False),
        sa.Column(
            "difficulty",
            sa.Enum(
                "easy",
                "medium",
                "hard",
                name="difficulty",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("suits_school", sa.Boolean(), nullable=False),
        sa.Column("sensitivity", sa.Integer(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_taxon")),
        sa.UniqueConstraint("scientific_name", name=op.f("uq_taxon_scientific_name")),
    )
    with op.batch_alter_table("taxon", schema=None) as batch_op:
        batch_op.create_index("ix_taxon_search", ["search_key"], unique=False)

    op.create_table(
        "tries_in_a_row",
        sa.Column("key", sa.String(length=64), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("last_at", hub.db.base.Moment(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_tries_in_a_row")),
    )
    op.create_table(
        "api_token",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("seat_id", sa.Uuid(), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("token_digest", sa.String(length=64), nullable=False),
        sa.Column("created_at", hub.db.base.Moment(), nullable=False),
        sa.Column("used_at", hub.db.base.Moment(), nullable=True),
        sa.Column("ends_at", hub.db.base.Moment(), nullable=False),
        sa.Column("ended_at", hub.db.base.Moment(), nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_api_token_person_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_api_token")),
        sa.UniqueConstraint("token_digest", name=op.f("uq_api_token_token_digest")),
    )
    with op.batch_alter_table("api_token", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_api_token_person_id"), ["person_id"], unique=False)

    op.create_table(
        "bank",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("region_id", sa.Uuid(), nullable=False),
        sa.Column("code", sa.String(length=12), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("email", sa.String(length=254), nullable=False),
        sa.Column("zone", sa.String(length=60), nullable=False),
        sa.Column(
            "adoption_mode",
            sa.Enum(
                "curator",
                "automatic",
                name="adoptionmode",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("groups_per_species", sa.Integer(), nullable=False),
        sa.Column("adoptions_per_group", sa.Integer(), nullable=False),
        sa.Column("home_freezing", sa.Boolean(), nullable=False),
        sa.Column("law_note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["region_id"], ["region.id"], name=op.f("fk_bank_region_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bank")),
        sa.UniqueConstraint("code", name=op.f("uq_bank_code")),
    )
    with op.batch_alter_table("bank", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_bank_region_id"), ["region_id"], unique=False)

    op.create_table(
        "district",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("region_id", sa.Uuid(), nullable=False),
        sa.Column("code", sa.String(length=20), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("geometry", hub.db.base.Document, nullable=False),
        sa.ForeignKeyConstraint(["region_id"], ["region.id"], name=op.f("fk_district_region_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_district")),
        sa.UniqueConstraint("region_id", "code", name=op.f("uq_district_region_id_code")),
    )
    with op.batch_alter_table("district", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_district_region_id"), ["region_id"], unique=False)

    op.create_table(
        "ecoregion",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("region_id", sa.Uuid(), nullable=False),
        sa.Column("scheme", sa.String(length=40), nullable=False),
        sa.Column("code", sa.String(length=20), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("geometry", hub.db.base.Document, nullable=False),
        sa.ForeignKeyConstraint(["region_id"], ["region.id"], name=op.f("fk_ecoregion_region_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_ecoregion")),
        sa.UniqueConstraint("scheme", "code", name=op.f("uq_ecoregion_scheme_code")),
    )
    with op.batch_alter_table("ecoregion", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_ecoregion_region_id"), ["region_id"], unique=False)

    op.create_table(
        "recovery_code",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("digest", sa.String(length=64), nullable=False),
        sa.Column("used_at", hub.db.base.Moment(), nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_recovery_code_person_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_recovery_code")),
        sa.UniqueConstraint("digest", name=op.f("uq_recovery_code_digest")),
    )
    with op.batch_alter_table("recovery_code", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_recovery_code_person_id"), ["person_id"], unique=False)

    op.create_table(
        "reset_link",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("token_digest", sa.String(length=64), nullable=False),
        sa.Column("ends_at", hub.db.base.Moment(), nullable=False),
        sa.Column("used_at", hub.db.base.Moment(), nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_reset_link_person_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reset_link")),
        sa.UniqueConstraint("token_digest", name=op.f("uq_reset_link_token_digest")),
    )
    with op.batch_alter_table("reset_link", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_reset_link_person_id"), ["person_id"], unique=False)

    op.create_table(
        "second_factor",
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("sealed_secret", sa.String(length=400), nullable=False),
        sa.Column("confirmed_at", hub.db.base.Moment(), nullable=True),
        sa.Column("last_step", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_second_factor_person_id")),
        sa.PrimaryKeyConstraint("person_id", name=op.f("pk_second_factor")),
    )
    op.create_table(
        "sign_in",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("token_digest", sa.String(length=64), nullable=False),
        sa.Column("seat_id", sa.Uuid(), nullable=True),
        sa.Column("device", sa.String(length=200), nullable=False),
        sa.Column("started_at", hub.db.base.Moment(), nullable=False),
        sa.Column("seen_at", hub.db.base.Moment(), nullable=False),
        sa.Column("ends_at", hub.db.base.Moment(), nullable=False),
        sa.Column("ended_at", hub.db.base.Moment(), nullable=True),
        sa.Column("factor_at", hub.db.base.Moment(), nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_sign_in_person_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sign_in")),
        sa.UniqueConstraint("token_digest", name=op.f("uq_sign_in_token_digest")),
    )
    with op.batch_alter_table("sign_in", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_sign_in_person_id"), ["person_id"], unique=False)

    op.create_table(
        "standing",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("taxon_id", sa.Uuid(), nullable=False),
        sa.Column(
            "kind",
            sa.Enum(
                "rank",
                "category",
                "listing",
                name="standingkind",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("text", sa.String(length=200), nullable=False),
        sa.Column("place", sa.String(length=200), nullable=False),
        sa.Column("authority", sa.String(length=200), nullable=False),
        sa.Column("as_of", sa.Date(), nullable=True),
        sa.Column("permit_needed", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["taxon_id"], ["taxon.id"], name=op.f("fk_standing_taxon_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_standing")),
    )
    with op.batch_alter_table("standing", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_standing_taxon_id"), ["taxon_id"], unique=False)

    op.create_table(
        "groups",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.Column("region_id", sa.Uuid(), nullable=False),
        sa.Column("district_id", sa.Uuid(), nullable=True),
        sa.Column(
            "kind",
            sa.Enum("club", "school", name="groupkind", native_enum=False, create_constraint=True, length=40),
            nullable=False,
        ),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column(
            "state",
            sa.Enum(
                "asked",
                "active",
                "declined",
                "closed",
                name="groupstate",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("about", sa.Text(), nullable=False),
        sa.Column("experienced", sa.Boolean(), nullable=False),
        sa.Column("code", sa.String(length=12), nullable=False),
        sa.Column("asked_at", hub.db.base.Moment(), nullable=False),
        sa.Column("contact_name", sa.String(length=200), nullable=False),
        sa.Column("contact_email", sa.String(length=254), nullable=False),
        sa.ForeignKeyConstraint(["bank_id"], ["bank.id"], name=op.f("fk_groups_bank_id")),
        sa.ForeignKeyConstraint(["district_id"], ["district.id"], name=op.f("fk_groups_district_id")),
        sa.ForeignKeyConstraint(["region_id"], ["region.id"], name=op.f("fk_groups_region_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_groups")),
        sa.UniqueConstraint("bank_id", "id", name=op.f("uq_groups_bank_id_id")),
        sa.UniqueConstraint("code", name=op.f("uq_groups_code")),
        sa.UniqueConstraint("name", name=op.f("uq_groups_name")),
    )
    with op.batch_alter_table("groups", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_groups_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_groups_region_id"), ["region_id"], unique=False)

    op.create_table(
        "season",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("opens_on", sa.Date(), nullable=False),
        sa.Column("closes_on", sa.Date(), nullable=False),
        sa.Column("lapses_on", sa.Date(), nullable=False),
        sa.ForeignKeyConstraint(["bank_id"], ["bank.id"], name=op.f("fk_season_bank_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_season")),
        sa.UniqueConstraint("bank_id", "year", name=op.f("uq_season_bank_id_year")),
    )
    with op.batch_alter_table("season", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_season_bank_id"), ["bank_id"], unique=False)

    op.create_table(
        "site",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.Column("opened_by_group_id", sa.Uuid(), nullable=True),
        sa.Column("district_id", sa.Uuid(), nullable=False),
        sa.Column("ecoregion_id", sa.Uuid(), nullable=True),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("locality", sa.Text(), nullable=False),
        sa.Column("owner_label", sa.String(length=200), nullable=False),
        sa.Column("owner_email", sa.String(length=200), nullable=False),
        sa.Column("habitat", sa.String(length=200), nullable=False),
        sa.Column("latitude", sa.Double(), nullable=False),
        sa.Column("longitude", sa.Double(), nullable=False),
        sa.Column("radius_m", sa.Double(), nullable=False),
        sa.Column("outline", hub.db.base.Document, nullable=True),
        sa.Column("risks", hub.db.base.Document, nullable=True),
        sa.Column("risk_note", sa.Text(), nullable=False),
        sa.Column("protected_area", sa.Boolean(), nullable=True),
        sa.Column("own_consent_needed", sa.Boolean(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.CheckConstraint("radius_m > 0", name=op.f("ck_site_radius")),
        sa.ForeignKeyConstraint(["bank_id"], ["bank.id"], name=op.f("fk_site_bank_id")),
        sa.ForeignKeyConstraint(["district_id"], ["district.id"], name=op.f("fk_site_district_id")),
        sa.ForeignKeyConstraint(["ecoregion_id"], ["ecoregion.id"], name=op.f("fk_site_ecoregion_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_site")),
        sa.UniqueConstraint("bank_id", "id", name=op.f("uq_site_bank_id_id")),
    )
    with op.batch_alter_table("site", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_site_bank_id"), ["bank_id"], unique=False)

    op.create_table(
        "taxon_ecoregion",
        sa.Column("taxon_id", sa.Uuid(), nullable=False),
        sa.Column("ecoregion_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["ecoregion_id"], ["ecoregion.id"], name=op.f("fk_taxon_ecoregion_ecoregion_id")
        ),
        sa.ForeignKeyConstraint(["taxon_id"], ["taxon.id"], name=op.f("fk_taxon_ecoregion_taxon_id")),
        sa.PrimaryKeyConstraint("taxon_id", "ecoregion_id", name=op.f("pk_taxon_ecoregion")),
    )
    op.create_table(
        "adoption",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("season_id", sa.Uuid(), nullable=False),
        sa.Column("taxon_id", sa.Uuid(), nullable=False),
        sa.Column("region_id", sa.Uuid(), nullable=False),
        sa.Column("district_id", sa.Uuid(), nullable=False),
        sa.Column(
            "state",
            sa.Enum(
                "requested",
                "active",
                "fulfilled",
                "declined",
                "released",
                "lapsed",
                "suspended",
                name="adoptionstate",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column(
            "stage",
            sa.Enum(
                "asked",
                "adopted",
                "permitted",
                "ready",
                "handed in",
                "accessioned",
                "banked",
                name="stage",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("holding_key", sa.String(length=80), nullable=True),
        sa.Column("wish", sa.Text(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("asked_at", hub.db.base.Moment(), nullable=False),
        sa.Column("moved_at", hub.db.base.Moment(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"],
            ["groups.bank_id", "groups.id"],
            name=op.f("fk_adoption_bank_id_group_id"),
        ),
        sa.ForeignKeyConstraint(["district_id"], ["district.id"], name=op.f("fk_adoption_district_id")),
        sa.ForeignKeyConstraint(["region_id"], ["region.id"], name=op.f("fk_adoption_region_id")),
        sa.ForeignKeyConstraint(["season_id"], ["season.id"], name=op.f("fk_adoption_season_id")),
        sa.ForeignKeyConstraint(["taxon_id"], ["taxon.id"], name=op.f("fk_adoption_taxon_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_adoption")),
        sa.UniqueConstraint("group_id", "id", name=op.f("uq_adoption_group_id_id")),
        sa.UniqueConstraint("holding_key", name=op.f("uq_adoption_holding_key")),
    )
    with op.batch_alter_table("adoption", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_adoption_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_adoption_group_id"), ["group_id"], unique=False)
        batch_op.create_index("ix_adoption_queue", ["bank_id", "state", "asked_at", "id"], unique=False)
        batch_op.create_index("ix_adoption_region", ["region_id", "season_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_adoption_season_id"), ["season_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_adoption_taxon_id"), ["taxon_id"], unique=False)

    op.create_table(
        "permission",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column(
            "state",
            sa.Enum(
                "to ask",
                "asked",
                "granted",
                "refused",
                "expired",
                "withdrawn",
                name="permissionstate",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("asked_on", sa.Date(), nullable=True),
        sa.Column("asked_by_group_id", sa.Uuid(), nullable=True),
        sa.Column("answered_on", sa.Date(), nullable=True),
        sa.Column("withdrawn_on", sa.Date(), nullable=True),
        sa.Column("starts_on", sa.Date(), nullable=True),
        sa.Column("ends_on", sa.Date(), nullable=True),
        sa.Column("conditions", sa.Text(), nullable=False),
        sa.Column("signed_file", sa.String(length=200), nullable=False),
        sa.Column("noted_at", hub.db.base.Moment(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.Column("site_id", sa.Uuid(), nullable=False),
        sa.CheckConstraint("ends_on >= starts_on", name=op.f("ck_permission_dates")),
        sa.ForeignKeyConstraint(
            ["bank_id", "site_id"], ["site.bank_id", "site.id"], name=op.f("fk_permission_bank_id_site_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_permission")),
    )
    with op.batch_alter_table("permission", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_permission_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_permission_site_id"), ["site_id"], unique=False)

    op.create_table(
        "permit",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.Column("taxon_id", sa.Uuid(), nullable=True),
        sa.Column("site_id", sa.Uuid(), nullable=True),
        sa.Column("authority", sa.String(length=200), nullable=False),
        sa.Column("number", sa.String(length=200), nullable=False),
        sa.Column("starts_on", sa.Date(), nullable=False),
        sa.Column("ends_on", sa.Date(), nullable=False),
        sa.Column("cap_seeds", sa.Integer(), nullable=True),
        sa.Column("conditions", sa.Text(), nullable=False),
        sa.Column("ended_on", sa.Date(), nullable=True),
        sa.CheckConstraint("ends_on >= starts_on", name=op.f("ck_permit_dates")),
        sa.ForeignKeyConstraint(
            ["bank_id", "site_id"], ["site.bank_id", "site.id"], name=op.f("fk_permit_bank_id_site_id")
        ),
        sa.ForeignKeyConstraint(["taxon_id"], ["taxon.id"], name=op.f("fk_permit_taxon_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_permit")),
    )
    with op.batch_alter_table("permit", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_permit_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_permit_site_id"), ["site_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_permit_taxon_id"), ["taxon_id"], unique=False)

    op.create_table(
        "population",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("taxon_id", sa.Uuid(), nullable=False),
        sa.Column("code", sa.String(length=200), nullable=False),
        sa.Column("label", sa.String(length=200), nullable=False),
        sa.Column("latitude", sa.Double(), nullable=False),
        sa.Column("longitude", sa.Double(), nullable=False),
        sa.Column("uncertainty_m", sa.Double(), nullable=False),
        sa.Column(
            "origin",
            sa.Enum(
                "wild",
                "sown or planted",
                "unknown",
                name="origin",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("identity_verified", sa.Boolean(), nullable=False),
        sa.Column(
            "trend",
            sa.Enum(
                "rising",
                "stable",
                "falling",
                "unknown",
                name="trend",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column(
            "threat",
            sa.Enum(
                "none",
                "slight",
                "severe",
                "imminent loss",
                "unknown",
                name="threat",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("threat_note", sa.Text(), nullable=False),
        sa.Column("years_collected_before", hub.db.base.Document, nullable=True),
        sa.Column("retired_at", hub.db.base.Moment(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.Column("site_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "site_id"], ["site.bank_id", "site.id"], name=op.f("fk_population_bank_id_site_id")
        ),
        sa.ForeignKeyConstraint(["taxon_id"], ["taxon.id"], name=op.f("fk_population_taxon_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_population")),
        sa.UniqueConstraint("bank_id", "code", name=op.f("uq_population_bank_id_code")),
        sa.UniqueConstraint("bank_id", "id", name=op.f("uq_population_bank_id_id")),
    )
    with op.batch_alter_table("population", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_population_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_population_site_id"), ["site_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_population_taxon_id"), ["taxon_id"], unique=False)

    op.create_table(
        "seat",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column(
            "role",
            sa.Enum(
                "lead",
                "member",
                "curator",
                "technician",
                "coordinator",
                "steward",
                name="role",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("group_id", sa.Uuid(), nullable=True),
        sa.Column("bank_id", sa.Uuid(), nullable=True),
        sa.Column("region_id", sa.Uuid(), nullable=True),
        sa.Column("since", hub.db.base.Moment(), nullable=False),
        sa.Column("ended_at", hub.db.base.Moment(), nullable=True),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"], ["groups.bank_id", "groups.id"], name=op.f("fk_seat_bank_id_group_id")
        ),
        sa.ForeignKeyConstraint(["bank_id"], ["bank.id"], name=op.f("fk_seat_bank_id")),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_seat_person_id")),
        sa.ForeignKeyConstraint(["region_id"], ["region.id"], name=op.f("fk_seat_region_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_seat")),
        sa.UniqueConstraint(
            "person_id",
            "role",
            "group_id",
            "bank_id",
            "region_id",
            name=op.f("uq_seat_person_id_role_group_id_bank_id_region_id"),
        ),
    )
    with op.batch_alter_table("seat", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_seat_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_seat_group_id"), ["group_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_seat_person_id"), ["person_id"], unique=False)

    op.create_table(
        "site_grant",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("site_id", sa.Uuid(), nullable=False),
        sa.Column("since", hub.db.base.Moment(), nullable=False),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"],
            ["groups.bank_id", "groups.id"],
            name=op.f("fk_site_grant_bank_id_group_id"),
        ),
        sa.ForeignKeyConstraint(
            ["bank_id", "site_id"], ["site.bank_id", "site.id"], name=op.f("fk_site_grant_bank_id_site_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_site_grant")),
        sa.UniqueConstraint("group_id", "site_id", name=op.f("uq_site_grant_group_id_site_id")),
    )
    with op.batch_alter_table("site_grant", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_site_grant_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_site_grant_group_id"), ["group_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_site_grant_site_id"), ["site_id"], unique=False)

    op.create_table(
        "stage_count",
        sa.Column("season_id", sa.Uuid(), nullable=False),
        sa.Column("taxon_id", sa.Uuid(), nullable=False),
        sa.Column("district_id", sa.Uuid(), nullable=False),
        sa.Column(
            "stage",
            sa.Enum(
                "asked",
                "adopted",
                "permitted",
                "ready",
                "handed in",
                "accessioned",
                "banked",
                name="stage",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("adoptions", sa.Integer(), nullable=False),
        sa.CheckConstraint("adoptions >= 0", name=op.f("ck_stage_count_adoptions")),
        sa.ForeignKeyConstraint(["district_id"], ["district.id"], name=op.f("fk_stage_count_district_id")),
        sa.ForeignKeyConstraint(["season_id"], ["season.id"], name=op.f("fk_stage_count_season_id")),
        sa.ForeignKeyConstraint(["taxon_id"], ["taxon.id"], name=op.f("fk_stage_count_taxon_id")),
        sa.PrimaryKeyConstraint("season_id", "taxon_id", "district_id", "stage", name=op.f("pk_stage_count")),
    )
    op.create_table(
        "wanted",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("season_id", sa.Uuid(), nullable=False),
        sa.Column("taxon_id", sa.Uuid(), nullable=False),
        sa.Column("priority", sa.Integer(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint("priority between 1 and 3", name=op.f("ck_wanted_priority")),
        sa.ForeignKeyConstraint(["season_id"], ["season.id"], name=op.f("fk_wanted_season_id")),
        sa.ForeignKeyConstraint(["taxon_id"], ["taxon.id"], name=op.f("fk_wanted_taxon_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_wanted")),
        sa.UniqueConstraint("season_id", "taxon_id", name=op.f("uq_wanted_season_id_taxon_id")),
    )
    with op.batch_alter_table("wanted", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_wanted_season_id"), ["season_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_wanted_taxon_id"), ["taxon_id"], unique=False)

    op.create_table(
        "adopted_population",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("adoption_id", sa.Uuid(), nullable=False),
        sa.Column("population_id", sa.Uuid(), nullable=False),
        sa.Column("sole_key", sa.String(length=80), nullable=True),
        sa.Column("since", hub.db.base.Moment(), nullable=False),
        sa.Column("accessioned_at", hub.db.base.Moment(), nullable=True),
        sa.Column("banked", sa.Integer(), nullable=False),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"],
            ["groups.bank_id", "groups.id"],
            name=op.f("fk_adopted_population_bank_id_group_id"),
        ),
        sa.ForeignKeyConstraint(
            ["bank_id", "population_id"],
            ["population.bank_id", "population.id"],
            name=op.f("fk_adopted_population_bank_id_population_id"),
        ),
        sa.ForeignKeyConstraint(
            ["group_id", "adoption_id"],
            ["adoption.group_id", "adoption.id"],
            name=op.f("fk_adopted_population_group_id_adoption_id"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_adopted_population")),
        sa.UniqueConstraint(
            "adoption_id", "population_id", name=op.f("uq_adopted_population_adoption_id_population_id")
        ),
        sa.UniqueConstraint("sole_key", name=op.f("uq_adopted_population_sole_key")),
    )
    with op.batch_alter_table("adopted_population", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_adopted_population_adoption_id"), ["adoption_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_adopted_population_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_adopted_population_group_id"), ["group_id"], unique=False)
        batch_op.create_index(
            batch_op.f("ix_adopted_population_population_id"), ["population_id"], unique=False
        )

    op.create_table(
        "census",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("population_id", sa.Uuid(), nullable=False),
        sa.Column("counted_on", sa.Date(), nullable=False),
        sa.Column(
            "method",
            sa.Enum(
                "counted one by one",
                "plots",
                "walked estimate",
                name="censusmethod",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("plants", sa.Integer(), nullable=False),
        sa.Column("plants_low", sa.Integer(), nullable=True),
        sa.Column("plants_high", sa.Integer(), nullable=True),
        sa.Column("fruiting_plants", sa.Integer(), nullable=True),
        sa.Column("fruits_per_plant", sa.Double(), nullable=True),
        sa.Column("fruits_per_plant_se", sa.Double(), nullable=True),
        sa.Column("plants_counted", sa.Integer(), nullable=True),
        sa.Column("seeds_per_fruit", sa.Double(), nullable=True),
        sa.Column("seeds_per_fruit_se", sa.Double(), nullable=True),
        sa.Column("poor_year", sa.Boolean(), nullable=True),
        sa.Column("empty_share", sa.Double(), nullable=True),
        sa.Column("immature_share", sa.Double(), nullable=True),
        sa.Column("disease_seen", sa.Boolean(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("noted_at", hub.db.base.Moment(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.Column("site_id", sa.Uuid(), nullable=False),
        sa.CheckConstraint("empty_share between 0 and 1", name=op.f("ck_census_empty_share")),
        sa.CheckConstraint("immature_share between 0 and 1", name=op.f("ck_census_immature_share")),
        sa.CheckConstraint("plants >= 0", name=op.f("ck_census_plants")),
        sa.ForeignKeyConstraint(
            ["bank_id", "population_id"],
            ["population.bank_id", "population.id"],
            name=op.f("fk_census_bank_id_population_id"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_census")),
    )
    with op.batch_alter_table("census", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_census_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_census_population_id"), ["population_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_census_site_id"), ["site_id"], unique=False)

    op.create_table(
        "crew",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("nickname", sa.String(length=200), nullable=False),
        sa.Column("headcount", sa.Integer(), nullable=False),
        sa.Column("age_band", sa.String(length=20), nullable=False),
        sa.Column("teacher_seat_id", sa.Uuid(), nullable=False),
        sa.Column("retired_at", hub.db.base.Moment(), nullable=True),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"], ["groups.bank_id", "groups.id"], name=op.f("fk_crew_bank_id_group_id")
        ),
        sa.ForeignKeyConstraint(["teacher_seat_id"], ["seat.id"], name=op.f("fk_crew_teacher_seat_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_crew")),
        sa.UniqueConstraint("group_id", "id", name=op.f("uq_crew_group_id_id")),
        sa.UniqueConstraint("group_id", "nickname", name=op.f("uq_crew_group_id_nickname")),
    )
    with op.batch_alter_table("crew", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_crew_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_crew_group_id"), ["group_id"], unique=False)

    op.create_table(
        "need",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("wanted_id", sa.Uuid(), nullable=False),
        sa.Column("populations", sa.Integer(), nullable=False),
        sa.Column("ecoregion_id", sa.Uuid(), nullable=True),
        sa.Column("district_id", sa.Uuid(), nullable=True),
        sa.CheckConstraint("populations >= 1", name=op.f("ck_need_populations")),
        sa.ForeignKeyConstraint(["district_id"], ["district.id"], name=op.f("fk_need_district_id")),
        sa.ForeignKeyConstraint(["ecoregion_id"], ["ecoregion.id"], name=op.f("fk_need_ecoregion_id")),
        sa.ForeignKeyConstraint(
            ["wanted_id"], ["wanted.id"], name=op.f("fk_need_wanted_id"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_need")),
    )
    with op.batch_alter_table("need", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_need_wanted_id"), ["wanted_id"], unique=False)

    op.create_table(
        "rule_override",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("rule_id", sa.String(length=200), nullable=False),
        sa.Column("figure", sa.String(length=200), nullable=False),
        sa.Column("taxon_id", sa.Uuid(), nullable=True),
        sa.Column("population_id", sa.Uuid(), nullable=True),
        sa.Column("old_value", hub.db.base.Document, nullable=False),
        sa.Column("new_value", hub.db.base.Document, nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("evidence", sa.Text(), nullable=False),
        sa.Column("made_by", sa.Uuid(), nullable=False),
        sa.Column("made_by_name", sa.String(length=200), nullable=False),
        sa.Column("made_at", hub.db.base.Moment(), nullable=False),
        sa.Column("ends_on", sa.Date(), nullable=False),
        sa.Column("ended_at", hub.db.base.Moment(), nullable=True),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "population_id"],
            ["population.bank_id", "population.id"],
            name=op.f("fk_rule_override_bank_id_population_id"),
        ),
        sa.ForeignKeyConstraint(["taxon_id"], ["taxon.id"], name=op.f("fk_rule_override_taxon_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_rule_override")),
    )
    with op.batch_alter_table("rule_override", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_rule_override_bank_id"), ["bank_id"], unique=False)

    op.create_table(
        "salvage",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("population_id", sa.Uuid(), nullable=False),
        sa.Column(
            "state",
            sa.Enum(
                "asked",
                "approved",
                "refused",
                name="salvagestate",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("evidence", sa.Text(), nullable=False),
        sa.Column("evidence_on", sa.Date(), nullable=False),
        sa.Column("evidence_file", sa.String(length=200), nullable=False),
        sa.Column("loss_expected_on", sa.Date(), nullable=True),
        sa.Column("owner_agreed_on", sa.Date(), nullable=True),
        sa.Column("decided_at", hub.db.base.Moment(), nullable=True),
        sa.Column("decided_by", sa.Uuid(), nullable=True),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("asked_at", hub.db.base.Moment(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.Column("site_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "population_id"],
            ["population.bank_id", "population.id"],
            name=op.f("fk_salvage_bank_id_population_id"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_salvage")),
    )
    with op.batch_alter_table("salvage", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_salvage_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_salvage_population_id"), ["population_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_salvage_site_id"), ["site_id"], unique=False)

    op.create_table(
        "sheet",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("number", sa.String(length=40), nullable=False),
        sa.Column("adoption_id", sa.Uuid(), nullable=False),
        sa.Column("population_id", sa.Uuid(), nullable=False),
        sa.Column("taxon_id", sa.Uuid(), nullable=False),
        sa.Column("season_id", sa.Uuid(), nullable=False),
        sa.Column(
            "state",
            sa.Enum(
                "current",
                "superseded",
                "withdrawn",
                name="sheetstate",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("status", sa.String(length=20), nullable=False),
        sa.Column("case", hub.db.base.Document, nullable=False),
        sa.Column("body", hub.db.base.Document, nullable=False),
        sa.Column("rulebook", sa.String(length=64), nullable=False),
        sa.Column("digest", sa.String(length=64), nullable=False),
        sa.Column("reserved_seeds", sa.Integer(), nullable=False),
        sa.Column("taken_seeds", sa.Integer(), nullable=False),
        sa.Column("issued_at", hub.db.base.Moment(), nullable=False),
        sa.Column("issued_by", sa.Uuid(), nullable=True),
        sa.Column("replaced_by_id", sa.Uuid(), nullable=True),
        sa.Column("ended_at", hub.db.base.Moment(), nullable=True),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"], ["groups.bank_id", "groups.id"], name=op.f("fk_sheet_bank_id_group_id")
        ),
        sa.ForeignKeyConstraint(
            ["bank_id", "population_id"],
            ["population.bank_id", "population.id"],
            name=op.f("fk_sheet_bank_id_population_id"),
        ),
        sa.ForeignKeyConstraint(
            ["group_id", "adoption_id"],
            ["adoption.group_id", "adoption.id"],
            name=op.f("fk_sheet_group_id_adoption_id"),
        ),
        sa.ForeignKeyConstraint(["season_id"], ["season.id"], name=op.f("fk_sheet_season_id")),
        sa.ForeignKeyConstraint(["taxon_id"], ["taxon.id"], name=op.f("fk_sheet_taxon_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sheet")),
        sa.UniqueConstraint("group_id", "id", name=op.f("uq_sheet_group_id_id")),
        sa.UniqueConstraint("number", name=op.f("uq_sheet_number")),
    )
    with op.batch_alter_table("sheet", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_sheet_adoption_id"), ["adoption_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_sheet_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index("ix_sheet_current", ["population_id", "state"], unique=False)
        batch_op.create_index(batch_op.f("ix_sheet_group_id"), ["group_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_sheet_population_id"), ["population_id"], unique=False)
        batch_op.create_index(
            "uq_sheet_current",
            ["adoption_id", "population_id"],
            unique=True,
            sqlite_where=sa.text("state = 'current'"),
            postgresql_where=sa.text("state = 'current'"),
        )

    op.create_table(
        "sign_off",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("adoption_id", sa.Uuid(), nullable=False),
        sa.Column("population_id", sa.Uuid(), nullable=False),
        sa.Column("share", sa.Double(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("by", sa.Uuid(), nullable=False),
        sa.Column("by_name", sa.String(length=200), nullable=False),
        sa.Column("at", hub.db.base.Moment(), nullable=False),
        sa.Column("ended_at", hub.db.base.Moment(), nullable=True),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.CheckConstraint("share > 0 and share <= 1", name=op.f("ck_sign_off_share")),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"],
            ["groups.bank_id", "groups.id"],
            name=op.f("fk_sign_off_bank_id_group_id"),
        ),
        sa.ForeignKeyConstraint(
            ["bank_id", "population_id"],
            ["population.bank_id", "population.id"],
            name=op.f("fk_sign_off_bank_id_population_id"),
        ),
        sa.ForeignKeyConstraint(
            ["group_id", "adoption_id"],
            ["adoption.group_id", "adoption.id"],
            name=op.f("fk_sign_off_group_id_adoption_id"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sign_off")),
    )
    with op.batch_alter_table("sign_off", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_sign_off_adoption_id"), ["adoption_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_sign_off_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_sign_off_group_id"), ["group_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_sign_off_population_id"), ["population_id"], unique=False)

    op.create_table(
        "take_account",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("population_id", sa.Uuid(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("allowance_seeds", sa.Integer(), nullable=False),
        sa.Column("reserved_seeds", sa.Integer(), nullable=False),
        sa.Column("taken_seeds", sa.Integer(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.Column("site_id", sa.Uuid(), nullable=False),
        sa.CheckConstraint(
            "reserved_seeds >= 0 and taken_seeds >= 0", name=op.f("ck_take_account_not_negative")
        ),
        sa.ForeignKeyConstraint(
            ["bank_id", "population_id"],
            ["population.bank_id", "population.id"],
            name=op.f("fk_take_account_bank_id_population_id"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_take_account")),
        sa.UniqueConstraint("bank_id", "id", name=op.f("uq_take_account_bank_id_id")),
        sa.UniqueConstraint("population_id", "year", name=op.f("uq_take_account_population_id_year")),
    )
    with op.batch_alter_table("take_account", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_take_account_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_take_account_site_id"), ["site_id"], unique=False)

    op.create_table(
        "submission",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("number", sa.String(length=40), nullable=False),
        sa.Column("sheet_id", sa.Uuid(), nullable=False),
        sa.Column("adoption_id", sa.Uuid(), nullable=False),
        sa.Column("population_id", sa.Uuid(), nullable=False),
        sa.Column("taxon_id", sa.Uuid(), nullable=False),
        sa.Column(
            "state",
            sa.Enum(
                "draft",
                "handed in",
                "returned",
                "approved",
                "declined",
                "withdrawn",
                name="submissionstate",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("sent_key", sa.String(length=80), nullable=False),
        sa.Column("draft", hub.db.base.Document, nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column(
            "urgency",
            sa.Enum(
                "alive", "damp", "dry", name="urgency", native_enum=False, create_constraint=True, length=40
            ),
            nullable=False,
        ),
        sa.Column("urgency_rank", sa.Integer(), nullable=False),
        sa.Column("said_arrived_on", sa.Date(), nullable=True),
        sa.Column("arrived_at", hub.db.base.Moment(), nullable=True),
        sa.Column("arrived_by", sa.Uuid(), nullable=True),
        sa.Column("arrival_note", sa.Text(), nullable=False),
        sa.Column("deadline_at", hub.db.base.Moment(), nullable=True),
        sa.Column("queue_at", hub.db.base.Moment(), nullable=False),
        sa.Column("open_stops", sa.Integer(), nullable=False),
        sa.Column("open_queries", sa.Integer(), nullable=False),
        sa.Column("begun_at", hub.db.base.Moment(), nullable=False),
        sa.Column("handed_in_at", hub.db.base.Moment(), nullable=True),
        sa.Column("decided_at", hub.db.base.Moment(), nullable=True),
        sa.Column("decided_by", sa.Uuid(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"],
            ["groups.bank_id", "groups.id"],
            name=op.f("fk_submission_bank_id_group_id"),
        ),
        sa.ForeignKeyConstraint(
            ["bank_id", "population_id"],
            ["population.bank_id", "population.id"],
            name=op.f("fk_submission_bank_id_population_id"),
        ),
        sa.ForeignKeyConstraint(
            ["group_id", "adoption_id"],
            ["adoption.group_id", "adoption.id"],
            name=op.f("fk_submission_group_id_adoption_id"),
        ),
        sa.ForeignKeyConstraint(
            ["group_id", "sheet_id"],
            ["sheet.group_id", "sheet.id"],
            name=op.f("fk_submission_group_id_sheet_id"),
        ),
        sa.ForeignKeyConstraint(["taxon_id"], ["taxon.id"], name=op.f("fk_submission_taxon_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_submission")),
        sa.UniqueConstraint("group_id", "id", name=op.f("uq_submission_group_id_id")),
        sa.UniqueConstraint("group_id", "sent_key", name=op.f("uq_submission_group_id_sent_key")),
        sa.UniqueConstraint("number", name=op.f("uq_submission_number")),
    )
    with op.batch_alter_table("submission", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_submission_adoption_id"), ["adoption_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_submission_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_submission_group_id"), ["group_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_submission_population_id"), ["population_id"], unique=False)
        batch_op.create_index(
            "ix_submission_queue", ["bank_id", "state", "urgency_rank", "queue_at", "id"], unique=False
        )
        batch_op.create_index("ix_submission_queue_group", ["bank_id", "state", "group_id"], unique=False)
        batch_op.create_index("ix_submission_queue_taxon", ["bank_id", "state", "taxon_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_submission_sheet_id"), ["sheet_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_submission_taxon_id"), ["taxon_id"], unique=False)

    op.create_table(
        "take_entry",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("account_id", sa.Uuid(), nullable=False),
        sa.Column("sheet_id", sa.Uuid(), nullable=False),
        sa.Column(
            "kind",
            sa.Enum(
                "reserve",
                "release",
                "take",
                "give back",
                name="takekind",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("seeds", sa.Integer(), nullable=False),
        sa.Column("at", hub.db.base.Moment(), nullable=False),
        sa.Column("by", sa.Uuid(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.CheckConstraint("seeds > 0", name=op.f("ck_take_entry_seeds")),
        sa.ForeignKeyConstraint(
            ["bank_id", "account_id"],
            ["take_account.bank_id", "take_account.id"],
            name=op.f("fk_take_entry_bank_id_account_id"),
        ),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"],
            ["groups.bank_id", "groups.id"],
            name=op.f("fk_take_entry_bank_id_group_id"),
        ),
        sa.ForeignKeyConstraint(
            ["group_id", "sheet_id"],
            ["sheet.group_id", "sheet.id"],
            name=op.f("fk_take_entry_group_id_sheet_id"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_take_entry")),
    )
    with op.batch_alter_table("take_entry", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_take_entry_account_id"), ["account_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_take_entry_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_take_entry_group_id"), ["group_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_take_entry_sheet_id"), ["sheet_id"], unique=False)

    op.create_table(
        "accession",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("number", sa.String(length=40), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("serial", sa.Integer(), nullable=False),
        sa.Column("submission_id", sa.Uuid(), nullable=False),
        sa.Column("taxon_id", sa.Uuid(), nullable=False),
        sa.Column("population_id", sa.Uuid(), nullable=False),
        sa.Column(
            "state",
            sa.Enum(
                "processing",
                "stored",
                "living",
                "exhausted",
                "deaccessioned",
                name="accessionstate",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("collected_on", sa.Date(), nullable=False),
        sa.Column("mothers", sa.Integer(), nullable=False),
        sa.Column("accessioned_at", hub.db.base.Moment(), nullable=False),
        sa.Column("accessioned_by", sa.Uuid(), nullable=True),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"],
            ["groups.bank_id", "groups.id"],
            name=op.f("fk_accession_bank_id_group_id"),
        ),
        sa.ForeignKeyConstraint(
            ["bank_id", "population_id"],
            ["population.bank_id", "population.id"],
            name=op.f("fk_accession_bank_id_population_id"),
        ),
        sa.ForeignKeyConstraint(
            ["group_id", "submission_id"],
            ["submission.group_id", "submission.id"],
            name=op.f("fk_accession_group_id_submission_id"),
        ),
        sa.ForeignKeyConstraint(["taxon_id"], ["taxon.id"], name=op.f("fk_accession_taxon_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_accession")),
        sa.UniqueConstraint("bank_id", "id", name=op.f("uq_accession_bank_id_id")),
        sa.UniqueConstraint("bank_id", "year", "serial", name=op.f("uq_accession_bank_id_year_serial")),
        sa.UniqueConstraint("number", name=op.f("uq_accession_number")),
        sa.UniqueConstraint("submission_id", name=op.f("uq_accession_submission_id")),
    )
    with op.batch_alter_table("accession", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_accession_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index("ix_accession_book", ["bank_id", "accessioned_at", "id"], unique=False)
        batch_op.create_index(batch_op.f("ix_accession_group_id"), ["group_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_accession_population_id"), ["population_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_accession_taxon_id"), ["taxon_id"], unique=False)

    op.create_table(
        "finding",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("submission_id", sa.Uuid(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("check", sa.String(length=60), nullable=False),
        sa.Column("about", sa.String(length=60), nullable=False),
        sa.Column(
            "severity",
            sa.Enum(
                "stop", "query", "note", name="severity", native_enum=False, create_constraint=True, length=40
            ),
            nullable=False,
        ),
        sa.Column("words", hub.db.base.Document, nullable=False),
        sa.Column("figures", hub.db.base.Document, nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
        sa.Column(
            "state",
            sa.Enum(
                "open",
                "resolved",
                "overruled",
                name="findingstate",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("shared", sa.Boolean(), nullable=False),
        sa.Column("settled_at", hub.db.base.Moment(), nullable=True),
        sa.Column("settled_by", sa.Uuid(), nullable=True),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"], ["groups.bank_id", "groups.id"], name=op.f("fk_finding_bank_id_group_id")
        ),
        sa.ForeignKeyConstraint(
            ["group_id", "submission_id"],
            ["submission.group_id", "submission.id"],
            name=op.f("fk_finding_group_id_submission_id"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_finding")),
        sa.UniqueConstraint(
            "submission_id",
            "revision",
            "check",
            "about",
            name=op.f("uq_finding_submission_id_revision_check_about"),
        ),
    )
    with op.batch_alter_table("finding", schema=None) as batch_op:
        batch_op.create_index("ix_finding_alike", ["bank_id", "check", "state"], unique=False)
        batch_op.create_index(batch_op.f("ix_finding_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_finding_group_id"), ["group_id"], unique=False)
        batch_op.create_index("ix_finding_submission", ["bank_id", "submission_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_finding_submission_id"), ["submission_id"], unique=False)

    op.create_table(
        "photograph",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("submission_id", sa.Uuid(), nullable=False),
        sa.Column(
            "kind",
            sa.Enum(
                "plant",
                "diagnostic part",
                "fruit or seed",
                "habitat",
                "voucher",
                name="photographkind",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("caption", sa.String(length=200), nullable=False),
        sa.Column("file", sa.String(length=200), nullable=False),
        sa.Column("thumbnail", sa.String(length=200), nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        sa.Column("latitude", sa.Double(), nullable=True),
        sa.Column("longitude", sa.Double(), nullable=True),
        sa.Column("taken_at", hub.db.base.Moment(), nullable=True),
        sa.Column("added_at", hub.db.base.Moment(), nullable=False),
        sa.Column("removed_at", hub.db.base.Moment(), nullable=True),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"],
            ["groups.bank_id", "groups.id"],
            name=op.f("fk_photograph_bank_id_group_id"),
        ),
        sa.ForeignKeyConstraint(
            ["group_id", "submission_id"],
            ["submission.group_id", "submission.id"],
            name=op.f("fk_photograph_group_id_submission_id"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_photograph")),
    )
    with op.batch_alter_table("photograph", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_photograph_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_photograph_group_id"), ["group_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_photograph_submission_id"), ["submission_id"], unique=False)

    op.create_table(
        "remark",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("submission_id", sa.Uuid(), nullable=False),
        sa.Column(
            "kind",
            sa.Enum(
                "return",
                "decline",
                "approve",
                "note",
                name="remarkkind",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("at", hub.db.base.Moment(), nullable=False),
        sa.Column("by", sa.Uuid(), nullable=True),
        sa.Column("by_name", sa.String(length=200), nullable=False),
        sa.Column("from_bank", sa.Boolean(), nullable=False),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"], ["groups.bank_id", "groups.id"], name=op.f("fk_remark_bank_id_group_id")
        ),
        sa.ForeignKeyConstraint(
            ["group_id", "submission_id"],
            ["submission.group_id", "submission.id"],
            name=op.f("fk_remark_group_id_submission_id"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_remark")),
    )
    with op.batch_alter_table("remark", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_remark_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_remark_group_id"), ["group_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_remark_submission_id"), ["submission_id"], unique=False)

    op.create_table(
        "revision",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("submission_id", sa.Uuid(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("data", hub.db.base.Document, nullable=False),
        sa.Column("handed_in_at", hub.db.base.Moment(), nullable=False),
        sa.Column("handed_in_by", sa.Uuid(), nullable=True),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["bank_id", "group_id"],
            ["groups.bank_id", "groups.id"],
            name=op.f("fk_revision_bank_id_group_id"),
        ),
        sa.ForeignKeyConstraint(
            ["group_id", "submission_id"],
            ["submission.group_id", "submission.id"],
            name=op.f("fk_revision_group_id_submission_id"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_revision")),
        sa.UniqueConstraint("submission_id", "number", name=op.f("uq_revision_submission_id_number")),
    )
    with op.batch_alter_table("revision", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_revision_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_revision_group_id"), ["group_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_revision_submission_id"), ["submission_id"], unique=False)

    op.create_table(
        "lot",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("accession_id", sa.Uuid(), nullable=False),
        sa.Column("label", sa.String(length=20), nullable=False),
        sa.Column(
            "kind",
            sa.Enum(
                "maternal line", "bulk", name="lotkind", native_enum=False, create_constraint=True, length=40
            ),
            nullable=False,
        ),
        sa.Column("mother", sa.String(length=200), nullable=False),
        sa.Column("balance_seeds", sa.Integer(), nullable=False),
        sa.Column("container", sa.String(length=200), nullable=False),
        sa.Column("place", sa.String(length=200), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.CheckConstraint("balance_seeds >= 0", name=op.f("ck_lot_balance")),
        sa.ForeignKeyConstraint(
            ["bank_id", "accession_id"],
            ["accession.bank_id", "accession.id"],
            name=op.f("fk_lot_bank_id_accession_id"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_lot")),
        sa.UniqueConstraint("accession_id", "label", name=op.f("uq_lot_accession_id_label")),
        sa.UniqueConstraint("bank_id", "id", name=op.f("uq_lot_bank_id_id")),
    )
    with op.batch_alter_table("lot", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_lot_accession_id"), ["accession_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_lot_bank_id"), ["bank_id"], unique=False)

    op.create_table(
        "lot_entry",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("lot_id", sa.Uuid(), nullable=False),
        sa.Column(
            "kind",
            sa.Enum(
                "banked",
                "corrected",
                "tested",
                "drawn",
                "duplicated",
                "regenerated",
                "lost",
                name="entrykind",
                native_enum=False,
                create_constraint=True,
                length=40,
            ),
            nullable=False,
        ),
        sa.Column("seeds", sa.Integer(), nullable=False),
        sa.Column("estimated", sa.Boolean(), nullable=False),
        sa.Column("at", hub.db.base.Moment(), nullable=False),
        sa.Column("by", sa.Uuid(), nullable=True),
        sa.Column("why", sa.Text(), nullable=False),
        sa.Column("bank_id", sa.Uuid(), nullable=False),
        sa.CheckConstraint("seeds <> 0", name=op.f("ck_lot_entry_seeds")),
        sa.ForeignKeyConstraint(
            ["bank_id", "lot_id"], ["lot.bank_id", "lot.id"], name=op.f("fk_lot_entry_bank_id_lot_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_lot_entry")),
    )
    with op.batch_alter_table("lot_entry", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_lot_entry_bank_id"), ["bank_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_lot_entry_lot_id"), ["lot_id"], unique=False)


def downgrade() -> None:
    with op.batch_alter_table("lot_entry", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_lot_entry_lot_id"))
        batch_op.drop_index(batch_op.f("ix_lot_entry_bank_id"))

    op.drop_table("lot_entry")
    with op.batch_alter_table("lot", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_lot_bank_id"))
        batch_op.drop_index(batch_op.f("ix_lot_accession_id"))

    op.drop_table("lot")
    with op.batch_alter_table("revision", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_revision_submission_id"))
        batch_op.drop_index(batch_op.f("ix_revision_group_id"))
        batch_op.drop_index(batch_op.f("ix_revision_bank_id"))

    op.drop_table("revision")
    with op.batch_alter_table("remark", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_remark_submission_id"))
        batch_op.drop_index(batch_op.f("ix_remark_group_id"))
        batch_op.drop_index(batch_op.f("ix_remark_bank_id"))

    op.drop_table("remark")
    with op.batch_alter_table("photograph", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_photograph_submission_id"))
        batch_op.drop_index(batch_op.f("ix_photograph_group_id"))
        batch_op.drop_index(batch_op.f("ix_photograph_bank_id"))

    op.drop_table("photograph")
    with op.batch_alter_table("finding", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_finding_submission_id"))
        batch_op.drop_index("ix_finding_submission")
        batch_op.drop_index(batch_op.f("ix_finding_group_id"))
        batch_op.drop_index(batch_op.f("ix_finding_bank_id"))
        batch_op.drop_index("ix_finding_alike")

    op.drop_table("finding")
    with op.batch_alter_table("accession", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_accession_taxon_id"))
        batch_op.drop_index(batch_op.f("ix_accession_population_id"))
        batch_op.drop_index(batch_op.f("ix_accession_group_id"))
        batch_op.drop_index("ix_accession_book")
        batch_op.drop_index(batch_op.f("ix_accession_bank_id"))

    op.drop_table("accession")
    with op.batch_alter_table("take_entry", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_take_entry_sheet_id"))
        batch_op.drop_index(batch_op.f("ix_take_entry_group_id"))
        batch_op.drop_index(batch_op.f("ix_take_entry_bank_id"))
        batch_op.drop_index(batch_op.f("ix_take_entry_account_id"))

    op.drop_table("take_entry")
    with op.batch_alter_table("submission", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_submission_taxon_id"))
        batch_op.drop_index(batch_op.f("ix_submission_sheet_id"))
        batch_op.drop_index("ix_submission_queue_taxon")
        batch_op.drop_index("ix_submission_queue_group")
        batch_op.drop_index("ix_submission_queue")
        batch_op.drop_index(batch_op.f("ix_submission_population_id"))
        batch_op.drop_index(batch_op.f("ix_submission_group_id"))
        batch_op.drop_index(batch_op.f("ix_submission_bank_id"))
        batch_op.drop_index(batch_op.f("ix_submission_adoption_id"))

    op.drop_table("submission")
    with op.batch_alter_table("take_account", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_take_account_site_id"))
        batch_op.drop_index(batch_op.f("ix_take_account_bank_id"))

    op.drop_table("take_account")
    with op.batch_alter_table("sign_off", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_sign_off_population_id"))
        batch_op.drop_index(batch_op.f("ix_sign_off_group_id"))
        batch_op.drop_index(batch_op.f("ix_sign_off_bank_id"))
        batch_op.drop_index(batch_op.f("ix_sign_off_adoption_id"))

    op.drop_table("sign_off")
    with op.batch_alter_table("sheet", schema=None) as batch_op:
        batch_op.drop_index(
            "uq_sheet_current",
            sqlite_where=sa.text("state = 'current'"),
            postgresql_where=sa.text("state = 'current'"),
        )
        batch_op.drop_index(batch_op.f("ix_sheet_population_id"))
        batch_op.drop_index(batch_op.f("ix_sheet_group_id"))
        batch_op.drop_index("ix_sheet_current")
        batch_op.drop_index(batch_op.f("ix_sheet_bank_id"))
        batch_op.drop_index(batch_op.f("ix_sheet_adoption_id"))

    op.drop_table("sheet")
    with op.batch_alter_table("salvage", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_salvage_site_id"))
        batch_op.drop_index(batch_op.f("ix_salvage_population_id"))
        batch_op.drop_index(batch_op.f("ix_salvage_bank_id"))

    op.drop_table("salvage")
    with op.batch_alter_table("rule_override", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_rule_override_bank_id"))

    op.drop_table("rule_override")
    with op.batch_alter_table("need", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_need_wanted_id"))

    op.drop_table("need")
    with op.batch_alter_table("crew", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_crew_group_id"))
        batch_op.drop_index(batch_op.f("ix_crew_bank_id"))

    op.drop_table("crew")
    with op.batch_alter_table("census", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_census_site_id"))
        batch_op.drop_index(batch_op.f("ix_census_population_id"))
        batch_op.drop_index(batch_op.f("ix_census_bank_id"))

    op.drop_table("census")
    with op.batch_alter_table("adopted_population", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_adopted_population_population_id"))
        batch_op.drop_index(batch_op.f("ix_adopted_population_group_id"))
        batch_op.drop_index(batch_op.f("ix_adopted_population_bank_id"))
        batch_op.drop_index(batch_op.f("ix_adopted_population_adoption_id"))

    op.drop_table("adopted_population")
    with op.batch_alter_table("wanted", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_wanted_taxon_id"))
        batch_op.drop_index(batch_op.f("ix_wanted_season_id"))

    op.drop_table("wanted")
    op.drop_table("stage_count")
    with op.batch_alter_table("site_grant", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_site_grant_site_id"))
        batch_op.drop_index(batch_op.f("ix_site_grant_group_id"))
        batch_op.drop_index(batch_op.f("ix_site_grant_bank_id"))

    op.drop_table("site_grant")
    with op.batch_alter_table("seat", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_seat_person_id"))
        batch_op.drop_index(batch_op.f("ix_seat_group_id"))
        batch_op.drop_index(batch_op.f("ix_seat_bank_id"))

    op.drop_table("seat")
    with op.batch_alter_table("population", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_population_taxon_id"))
        batch_op.drop_index(batch_op.f("ix_population_site_id"))
        batch_op.drop_index(batch_op.f("ix_population_bank_id"))

    op.drop_table("population")
    with op.batch_alter_table("permit", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_permit_taxon_id"))
        batch_op.drop_index(batch_op.f("ix_permit_site_id"))
        batch_op.drop_index(batch_op.f("ix_permit_bank_id"))

    op.drop_table("permit")
    with op.batch_alter_table("permission", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_permission_site_id"))
        batch_op.drop_index(batch_op.f("ix_permission_bank_id"))

    op.drop_table("permission")
    with op.batch_alter_table("adoption", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_adoption_taxon_id"))
        batch_op.drop_index(batch_op.f("ix_adoption_season_id"))
        batch_op.drop_index("ix_adoption_region")
        batch_op.drop_index("ix_adoption_queue")
        batch_op.drop_index(batch_op.f("ix_adoption_group_id"))
        batch_op.drop_index(batch_op.f("ix_adoption_bank_id"))

    op.drop_table("adoption")
    op.drop_table("taxon_ecoregion")
    with op.batch_alter_table("site", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_site_bank_id"))

    op.drop_table("site")
    with op.batch_alter_table("season", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_season_bank_id"))

    op.drop_table("season")
    with op.batch_alter_table("groups", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_groups_region_id"))
        batch_op.drop_index(batch_op.f("ix_groups_bank_id"))

    op.drop_table("groups")
    with op.batch_alter_table("standing", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_standing_taxon_id"))

    op.drop_table("standing")
    with op.batch_alter_table("sign_in", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_sign_in_person_id"))

    op.drop_table("sign_in")
    op.drop_table("second_factor")
    with op.batch_alter_table("reset_link", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_reset_link_person_id"))

    op.drop_table("reset_link")
    with op.batch_alter_table("recovery_code", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_recovery_code_person_id"))

    op.drop_table("recovery_code")
    with op.batch_alter_table("ecoregion", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_ecoregion_region_id"))

    op.drop_table("ecoregion")
    with op.batch_alter_table("district", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_district_region_id"))

    op.drop_table("district")
    with op.batch_alter_table("bank", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_bank_region_id"))

    op.drop_table("bank")
    with op.batch_alter_table("api_token", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_api_token_person_id"))

    op.drop_table("api_token")
    op.drop_table("tries_in_a_row")
    with op.batch_alter_table("taxon", schema=None) as batch_op:
        batch_op.drop_index("ix_taxon_search")

    op.drop_table("taxon")
    with op.batch_alter_table("sheet_renewal", schema=None) as batch_op:
        batch_op.drop_index("ix_sheet_renewal_due")

    op.drop_table("sheet_renewal")
    op.drop_table("serial")
    op.drop_table("region")
    op.drop_table("rate_count")
    op.drop_table("person")
    with op.batch_alter_table("letter", schema=None) as batch_op:
        batch_op.drop_index("ix_letter_due")

    op.drop_table("letter")
    with op.batch_alter_table("invitation", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_invitation_group_id"))
        batch_op.drop_index(batch_op.f("ix_invitation_bank_id"))

    op.drop_table("invitation")
    op.drop_table("audit_head")
    with op.batch_alter_table("audit_entry", schema=None) as batch_op:
        batch_op.drop_index("ix_audit_entry_thing")
        batch_op.drop_index(batch_op.f("ix_audit_entry_person_id"))
        batch_op.drop_index(batch_op.f("ix_audit_entry_group_id"))
        batch_op.drop_index(batch_op.f("ix_audit_entry_bank_id"))

    op.drop_table("audit_entry")
    with op.batch_alter_table("answered_request", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_answered_request_at"))

    op.drop_table("answered_request")
