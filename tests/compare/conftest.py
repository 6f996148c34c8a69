"""Comparing and tracing need quotes: the same small rate books and the same dealer as in `tests/quote`."""

from tests.quote.conftest import carrier, dealer_quote, door, make_book, minnow, shipped, small_quote, yard

__all__ = ["carrier", "dealer_quote", "door", "make_book", "minnow", "shipped", "small_quote", "yard"]
