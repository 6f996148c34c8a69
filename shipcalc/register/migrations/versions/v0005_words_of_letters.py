"""Words without figures, by which a typing slip in the first letter is found."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    """Index the words that hold no figure: chassis numbers are as many as quotes, names and places are few."""
    op.create_index(
        "ix_words_of_letters",
        "words",
        ["word"],
        sqlite_where=sa.text("word NOT GLOB '*[0-9]*'"),
        postgresql_where=sa.text("word !~ '[0-9]'"),
    )
