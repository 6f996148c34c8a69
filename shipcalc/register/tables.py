"""The tables of the register, as they are today; `migrations/` has how they came to be so.

Amounts are whole minor units. A point in time is text in UTC, `2026-12-01T16:20:05Z`, which sorts as it reads and means the
same in either database. What is large (a quote, a rate book) is packed by `packing`.
"""

from sqlalchemy import (
    BigInteger,
    Column,
    Date,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
    text,
)

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)

# How many numbers of a year are given out. Counted in the transaction that keeps the quote: none is lost, none is given twice.
counts = Table("counts", metadata, Column("year", Integer, primary_key=True), Column("last", Integer, nullable=False))

# A rate book's workbooks, once for each fingerprint.
rate_books = Table(
    "rate_books",
    metadata,
    Column("fingerprint", Text, primary_key=True),
    Column("kept_at", Text, nullable=False),
    Column("content", LargeBinary, nullable=False),
)

# One row for each number: how it stands, and what lists and searches ask for, of its latest revision.
quotes = Table(
    "quotes",
    metadata,
    Column("number", Text, primary_key=True),
    Column("revision", Integer, nullable=False),
    Column("state", Text, nullable=False),
    Column("as_of", Date, nullable=False),
    Column("valid_until", Date, nullable=False),
    Column("buyer", Text, nullable=False),
    Column("vehicles", Text, nullable=False),
    Column("place", Text, nullable=False),
    Column("total_minor", BigInteger, nullable=False),
    Column("currency", Text, nullable=False),
    Column("choice", Integer),
    Column("decided_on", Date),
    Column("decided_by", Text, nullable=False, server_default=""),
    Index(None, "state", "valid_until"),
    Index(None, "as_of"),
)

# Each revision as it was made, and never changed: the quote, and the request that it answers. `why` says what differs from
# the one before, `by_hand` (JSON) what was set by hand beside the request.
revisions = Table(
    "revisions",
    metadata,
    Column("number", Text, ForeignKey("quotes.number"), primary_key=True),
    Column("revision", Integer, primary_key=True),
    Column("kept_at", Text, nullable=False),
    Column("fingerprint", Text, ForeignKey("rate_books.fingerprint"), nullable=False),
    Column("program", Text, nullable=False),
    Column("why", Text, nullable=False, server_default=""),
    Column("by_hand", Text, nullable=False, server_default=""),
    Column("request", LargeBinary, nullable=False),
    Column("quote", LargeBinary, nullable=False),
)

# A word without figures, as each database says it: word for word as in a question, or the index is not used.
LETTERS = {"sqlite": "word NOT GLOB '*[0-9]*'", "postgresql": "word !~ '[0-9]'"}

# The words that a quote is found by: of its buyer, its vehicles, its place, of who asked a price in hand. `about` says which.
words = Table(
    "words",
    metadata,
    Column("word", Text().with_variant(Text(collation="C"), "postgresql"), primary_key=True),
    Column("number", Text, ForeignKey("quotes.number"), primary_key=True),
    Column("about", Text, primary_key=True),
    Index(None, "number"),
    Index(
        "ix_words_of_letters",
        "word",
        sqlite_where=text(LETTERS["sqlite"]),
        postgresql_where=text(LETTERS["postgresql"]),
    ),
)

# A vehicle that was promised to a buyer: by its key it stands here once.
promises = Table(
    "promises",
    metadata,
    Column("vehicle", Text, primary_key=True),
    Column("number", Text, ForeignKey("quotes.number"), nullable=False),
    Index(None, "number"),
)

# What happened to a quote, in its order.
events = Table(
    "events",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("number", Text, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("at", Text, nullable=False),
    Column("what", Text, nullable=False),
    Column("who", Text, nullable=False, server_default=""),
    Column("told", Text, nullable=False, server_default=""),
    ForeignKeyConstraint(["number"], ["quotes.number"]),
    Index(None, "number"),
)

# An accepted quote under way: the choice (counted from 0), the day of the yes, the days of its moments and the ports' free days
# (JSON), and which version its checklist is at: each change of it is one more. `recorded` (JSON) are days that came true.
shipments = Table(
    "shipments",
    metadata,
    Column("number", Text, primary_key=True),
    Column("revision", Integer, nullable=False),
    Column("choice", Integer, nullable=False),
    Column("accepted_on", Date, nullable=False),
    Column("moments", Text, nullable=False),
    Column("free_days", Text, nullable=False),
    Column("recorded", Text, nullable=False, server_default="{}"),
    Column("version", Integer, nullable=False),
    ForeignKeyConstraint(["number"], ["quotes.number"]),
)

# One line of a shipment's checklist. `version` is one more with each change of the line: who writes says which one was seen.
# `paper` is the one that it makes; `added` (JSON) is what people wrote into columns of their own, by header.
tasks = Table(
    "tasks",
    metadata,
    Column("number", Text, primary_key=True),
    Column("id", Text, primary_key=True),
    Column("place", Integer, nullable=False),
    Column("title", Text, nullable=False),
    Column("owner", Text, nullable=False),
    Column("assigned", Text, nullable=False, server_default=""),
    Column("due", Date, nullable=False),
    Column("due_by_hand", Integer, nullable=False, server_default="0"),
    Column("stage", Text, nullable=False),
    Column("after", Text, nullable=False),
    Column("critical", Integer, nullable=False),
    Column("wanted", Text, nullable=False),
    Column("note", Text, nullable=False),
    Column("source", Text, nullable=False),
    Column("vehicle", Text),
    Column("state", Text, nullable=False),
    Column("done_on", Date),
    Column("done_by", Text, nullable=False, server_default=""),
    Column("remark", Text, nullable=False, server_default=""),
    Column("version", Integer, nullable=False),
    Column("paper", Text, nullable=False, server_default=""),
    Column("added", Text, nullable=False, server_default="{}"),
    ForeignKeyConstraint(["number"], ["shipments.number"]),
    Index(None, "state", "due"),
)

# The numbers and names that the trade knows a shipment by: booking, container, bill of lading.
shipment_references = Table(
    "shipment_references",
    metadata,
    Column("number", Text, primary_key=True),
    Column("name", Text, primary_key=True),
    Column("value", Text, nullable=False),
    ForeignKeyConstraint(["number"], ["shipments.number"]),
    Index(None, "value"),
)

# Ticked copies of a checklist that were read, by what they hold: one that comes twice says nothing new.
copies = Table(
    "copies",
    metadata,
    Column("number", Text, primary_key=True),
    Column("sha256", Text, primary_key=True),
    Column("name", Text, nullable=False),
    Column("version", Integer, nullable=False),
    Column("read_at", Text, nullable=False),
    ForeignKeyConstraint(["number"], ["shipments.number"]),
)

# Files that belong to a shipment: where they stand, and what they were when they were named.
files = Table(
    "files",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("number", Text, nullable=False),
    Column("path", Text, nullable=False),
    Column("what", Text, nullable=False),
    Column("task", Text, nullable=False, server_default=""),
    Column("sha256", Text, nullable=False),
    Column("bytes", BigInteger, nullable=False),
    Column("copied", Integer, nullable=False),
    Column("added_at", Text, nullable=False),
    ForeignKeyConstraint(["number"], ["shipments.number"]),
    Index(None, "number"),
)

# Whom the office writes to and calls. `key` is role and name without capitals: each stands here once.
contacts = Table(
    "contacts",
    metadata,
    Column("key", Text, primary_key=True),
    Column("role", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("telephone", Text, nullable=False, server_default=""),
    Column("evening", Text, nullable=False, server_default=""),
    Column("mail", Text, nullable=False, server_default=""),
    Column("address", Text, nullable=False, server_default=""),
    Column("remark", Text, nullable=False, server_default=""),
    Column("version", Integer, nullable=False),
)

# What was billed for a quote's shipment, line by line: the same line twice is the same bill.
bills = Table(
    "bills",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("number", Text, ForeignKey("quotes.number"), nullable=False),
    Column("carrier", Text, nullable=False),
    Column("kind", Text, nullable=False),
    Column("amount_minor", BigInteger, nullable=False),
    Column("currency", Text, nullable=False),
    Column("day", Date, nullable=False),
    Column("reference", Text, nullable=False, server_default=""),
    Column("kept_at", Text, nullable=False),
    UniqueConstraint(
        "number", "carrier", "kind", "day", "amount_minor", "currency", "reference", name="uq_bills_each_once"
    ),
    Index(None, "day"),
)

# What was asked to be kept under a key of the asker's own, and the quote that it came to: asked twice, it is kept once.
asked_once = Table(
    "asked_once",
    metadata,
    Column("key", Text, primary_key=True),
    Column("body_sha256", Text, nullable=False),
    Column("number", Text, ForeignKey("quotes.number"), nullable=False),
    Column("at", Text, nullable=False),
)
