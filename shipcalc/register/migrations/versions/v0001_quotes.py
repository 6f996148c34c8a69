"""Quotes by number with their revisions, rate books, words to find them by, promised vehicles, events."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the first tables."""
    op.create_table(
        "counts",
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("last", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("year", name="pk_counts"),
    )
    op.create_table(
        "rate_books",
        sa.Column("fingerprint", sa.Text(), nullable=False),
        sa.Column("kept_at", sa.Text(), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("fingerprint", name="pk_rate_books"),
    )
    op.create_table(
        "quotes",
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("as_of", sa.Date(), nullable=False),
        sa.Column("valid_until", sa.Date(), nullable=False),
        sa.Column("buyer", sa.Text(), nullable=False),
        sa.Column("vehicles", sa.Text(), nullable=False),
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("total_minor", sa.BigInteger(), nullable=False),
        sa.Column("currency", sa.Text(), nullable=False),
        sa.Column("choice", sa.Integer()),
        sa.Column("decided_on", sa.Date()),
        sa.Column("decided_by", sa.Text(), nullable=False, server_default=""),
        sa.PrimaryKeyConstraint("number", name="pk_quotes"),
    )
    op.create_index("ix_quotes_state_valid_until", "quotes", ["state", "valid_until"])
    op.create_index("ix_quotes_as_of", "quotes", ["as_of"])
    op.create_table(
        "revisions",
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("kept_at", sa.Text(), nullable=False),
        sa.Column("fingerprint", sa.Text(), nullable=False),
        sa.Column("program", sa.Text(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False, server_default=""),
        sa.Column("by_hand", sa.Text(), nullable=False, server_default=""),
        sa.Column("request", sa.LargeBinary(), nullable=False),
        sa.Column("quote", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("number", "revision", name="pk_revisions"),
        sa.ForeignKeyConstraint(["number"], ["quotes.number"], name="fk_revisions_number"),
        sa.ForeignKeyConstraint(["fingerprint"], ["rate_books.fingerprint"], name="fk_revisions_fingerprint"),
    )
    op.create_table(
        "words",
        # Words are found by how they begin, letter by letter, whatever order the database sorts names in.
        sa.Column("word", sa.Text().with_variant(sa.Text(collation="C"), "postgresql"), nullable=False),
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("about", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("word", "number", "about", name="pk_words"),
        sa.ForeignKeyConstraint(["number"], ["quotes.number"], name="fk_words_number"),
    )
    op.create_index("ix_words_number", "words", ["number"])
    op.create_table(
        "promises",
        sa.Column("vehicle", sa.Text(), nullable=False),
        sa.Column("number", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("vehicle", name="pk_promises"),
        sa.ForeignKeyConstraint(["number"], ["quotes.number"], name="fk_promises_number"),
    )
    op.create_index("ix_promises_number", "promises", ["number"])
    op.create_table(
        "events",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("who", sa.Text(), nullable=False, server_default=""),
        sa.Column("told", sa.Text(), nullable=False, server_default=""),
        sa.PrimaryKeyConstraint("id", name="pk_events"),
        sa.ForeignKeyConstraint(["number"], ["quotes.number"], name="fk_events_number"),
    )
    op.create_index("ix_events_number", "events", ["number"])
