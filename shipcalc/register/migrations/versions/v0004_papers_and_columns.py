"""Which paper a line of a checklist makes, and what stands in columns that people added to it."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Add both to the lines; those of shipments that began before name no paper."""
    op.add_column("tasks", sa.Column("paper", sa.Text(), nullable=False, server_default=""))
    op.add_column("tasks", sa.Column("added", sa.Text(), nullable=False, server_default="{}"))
