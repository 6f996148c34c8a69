"""Numbers by year, `Q-2026-0001`, counted in the transaction that keeps the quote: none is missing, none is given twice."""

import re

from sqlalchemy import Connection

from shipcalc.errors import WrongInput
from shipcalc.register.dialect import insert_into
from shipcalc.register.tables import counts

FIGURES = 4
_NUMBER = re.compile(r"(?:Q-?)?(\d{4})-?(\d{4,9})|(\d{1,9})", re.IGNORECASE)


def next_number(connection: Connection, year: int) -> str:
    """Return the next number of a year. Whoever asks meanwhile waits for the end of this transaction."""
    first = insert_into(connection, counts).values(year=year, last=1)
    counted = first.on_conflict_do_update(index_elements=["year"], set_={"last": counts.c.last + 1}).returning(
        counts.c.last
    )
    return number_of(year, connection.execute(counted).scalar_one())


def number_of(year: int, count: int) -> str:
    """Return how the count-th quote of a year is called."""
    return f"Q-{year}-{count:0{FIGURES}d}"


def number_meant(text: str, *, year: int) -> str:
    """Return the number that somebody typed: `Q-2026-0001`, `2026-1`, or `17`, which is one of `year`.

    Raises WrongInput for what is no number.
    """
    found = _NUMBER.fullmatch(text.strip().replace(" ", ""))
    if found is None:
        raise WrongInput(f'"{text}" is not the number of a quote', remedy=f"write it as {number_of(year, 17)}, or 17")
    if found[3]:
        return number_of(year, int(found[3]))
    return number_of(int(found[1]), int(found[2]))
