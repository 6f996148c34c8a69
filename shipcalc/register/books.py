"""The rate books that quotes were priced with, each kept once, so that an old quote can be worked out again."""

import tempfile
from pathlib import Path

from sqlalchemy import Connection, select

from shipcalc.errors import WrongInput
from shipcalc.files import read_file
from shipcalc.ratebook.book import RateBook, read_rate_book
from shipcalc.register.dialect import insert_into
from shipcalc.register.packing import bundled, unbundle
from shipcalc.register.tables import rate_books


def is_kept(connection: Connection, fingerprint: str) -> bool:
    """Return whether a rate book is kept."""
    asked = select(rate_books.c.fingerprint).where(rate_books.c.fingerprint == fingerprint)
    return connection.execute(asked).first() is not None


def bundle_of(book: RateBook) -> bytes:
    """Return a rate book's workbooks as one bundle. Raises WrongInput where they were changed since they priced the quote."""
    files = {
        path.name: read_file(path) for path in sorted(book.folder.glob("*.xlsx")) if not path.name.startswith("~$")
    }
    bundle = bundled(files)
    with tempfile.TemporaryDirectory() as place:
        unbundle(bundle, Path(place))
        if read_rate_book(Path(place)).fingerprint != book.fingerprint:
            remedy = "make the quote once more"
            raise WrongInput(
                "the rate book was changed while the quote was made", where=str(book.folder), remedy=remedy
            )
    return bundle


def keep_book(connection: Connection, fingerprint: str, bundle: bytes, *, at: str) -> None:
    """Keep a rate book under its fingerprint; one that is kept already stays as it is."""
    insert = insert_into(connection, rate_books).values(fingerprint=fingerprint, kept_at=at, content=bundle)
    connection.execute(insert.on_conflict_do_nothing(index_elements=["fingerprint"]))


def read_kept(connection: Connection, fingerprint: str, folder: Path) -> RateBook:
    """Return a kept rate book, whose workbooks are laid into `folder`."""
    asked = select(rate_books.c.content).where(rate_books.c.fingerprint == fingerprint)
    unbundle(connection.execute(asked).scalar_one(), folder)
    return read_rate_book(folder)
