"""Trace a saved quote through a rate book."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from shipcalc.compare.tracing import Trace


def trace_quote(file: Path, rates: Path, *, as_of: date, choice: int | None, line: str | None) -> "Trace":
    """Return a choice of a saved quote (None: the recommended one), or one line of it, traced through the book in `rates`.

    Raises WrongInput where the file is no quote or the buyer's copy, and where there is no such choice or line.
    """
    from shipcalc.actions.files import option_index, read_quote
    from shipcalc.compare.tracing import trace
    from shipcalc.ratebook.book import read_rate_book

    quote = read_quote(file)
    return trace(quote, option_index(quote, choice), read_rate_book(rates), as_of, line=line, where=str(file))
