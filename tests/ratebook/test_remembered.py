"""A desk that reads book after book keeps the latest alone: on 28 November 2026 a simulated year held every one that was ever read."""

import gc
from datetime import date

from shipcalc.actions.quoting import Order, made_quote, open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.remembered import BOOKS, remembered_by_book

READ = 4 * BOOKS


def count_books() -> int:
    gc.collect()
    return sum(type(one) is RateBook for one in gc.get_objects())


def test_books_that_were_quoted_from_are_let_go() -> None:
    """Each of the latest is held as it was read and as it is on the day of pickup."""
    sources = invented_sources()
    order = Order(vehicles=("HV-1027",), to="Bremen, Germany")
    before = count_books()
    for _ in range(READ):
        made_quote(order, sources, as_of=date(2026, 12, 1), books=open_books(sources))
    assert count_books() - before <= 2 * (BOOKS + 1)


def test_an_answer_is_worked_out_once_for_a_book_and_anew_for_another() -> None:
    asked: list[tuple[RateBook, str]] = []

    @remembered_by_book(8)
    def ask(book: RateBook, what: str = "") -> int:
        asked.append((book, what))
        return len(asked)

    one, other = (open_books(invented_sources()).rates for _ in range(2))
    assert [ask(one, "a"), ask(one, "a"), ask(one, what="b"), ask(other, "a"), ask(one, "a")] == [1, 1, 2, 3, 1]
