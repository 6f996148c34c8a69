"""What was billed for the shipments of quotes."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Make the table of bills."""
    op.create_table(
        "bills",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("carrier", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("amount_minor", sa.BigInteger(), nullable=False),
        sa.Column("currency", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("reference", sa.Text(), nullable=False, server_default=""),
        sa.Column("kept_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_bills"),
        sa.ForeignKeyConstraint(["number"], ["quotes.number"], name="fk_bills_number"),
        sa.UniqueConstraint(
            "number", "carrier", "kind", "day", "amount_minor", "currency", "reference", name="uq_bills_each_once"
        ),
    )
    op.create_index("ix_bills_day", "bills", ["day"])
