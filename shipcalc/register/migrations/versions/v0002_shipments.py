"""Accepted quotes as shipments: their checklists line by line, references, copies that were read, files; the address book."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the tables of shipments; quotes that were accepted before get their checklist once all steps are taken."""
    op.create_table(
        "shipments",
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("choice", sa.Integer(), nullable=False),
        sa.Column("accepted_on", sa.Date(), nullable=False),
        sa.Column("moments", sa.Text(), nullable=False),
        sa.Column("free_days", sa.Text(), nullable=False),
        sa.Column("recorded", sa.Text(), nullable=False, server_default="{}"),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("number", name="pk_shipments"),
        sa.ForeignKeyConstraint(["number"], ["quotes.number"], name="fk_shipments_number"),
    )
    op.create_table(
        "tasks",
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("owner", sa.Text(), nullable=False),
        sa.Column("assigned", sa.Text(), nullable=False, server_default=""),
        sa.Column("due", sa.Date(), nullable=False),
        sa.Column("due_by_hand", sa.Integer(), nullable=False, server_default="0"),
        sa.Column("stage", sa.Text(), nullable=False),
        sa.Column("after", sa.Text(), nullable=False),
        sa.Column("critical", sa.Integer(), nullable=False),
        sa.Column("wanted", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
        sa.Column("vehicle", sa.Text()),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("done_on", sa.Date()),
        sa.Column("done_by", sa.Text(), nullable=False, server_default=""),
        sa.Column("remark", sa.Text(), nullable=False, server_default=""),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("number", "id", name="pk_tasks"),
        sa.ForeignKeyConstraint(["number"], ["shipments.number"], name="fk_tasks_number"),
    )
    op.create_index("ix_tasks_state_due", "tasks", ["state", "due"])
    op.create_table(
        "shipment_references",
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("number", "name", name="pk_shipment_references"),
        sa.ForeignKeyConstraint(["number"], ["shipments.number"], name="fk_shipment_references_number"),
    )
    op.create_index("ix_shipment_references_value", "shipment_references", ["value"])
    op.create_table(
        "copies",
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("sha256", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("read_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("number", "sha256", name="pk_copies"),
        sa.ForeignKeyConstraint(["number"], ["shipments.number"], name="fk_copies_number"),
    )
    op.create_table(
        "files",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("path", sa.Text(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("task", sa.Text(), nullable=False, server_default=""),
        sa.Column("sha256", sa.Text(), nullable=False),
        sa.Column("bytes", sa.BigInteger(), nullable=False),
        sa.Column("copied", sa.Integer(), nullable=False),
        sa.Column("added_at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_files"),
        sa.ForeignKeyConstraint(["number"], ["shipments.number"], name="fk_files_number"),
    )
    op.create_index("ix_files_number", "files", ["number"])
    op.create_table(
        "contacts",
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("telephone", sa.Text(), nullable=False, server_default=""),
        sa.Column("evening", sa.Text(), nullable=False, server_default=""),
        sa.Column("mail", sa.Text(), nullable=False, server_default=""),
        sa.Column("address", sa.Text(), nullable=False, server_default=""),
        sa.Column("remark", sa.Text(), nullable=False, server_default=""),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("key", name="pk_contacts"),
    )
