"""What was asked to be kept under a key of the asker's own: asked twice, it is kept once."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"


def upgrade() -> None:
    """Make the table of keys."""
    op.create_table(
        "asked_once",
        sa.Column("key", sa.Text, primary_key=True),
        sa.Column("body_sha256", sa.Text, nullable=False),
        sa.Column("number", sa.Text, sa.ForeignKey("quotes.number"), nullable=False),
        sa.Column("at", sa.Text, nullable=False),
    )
