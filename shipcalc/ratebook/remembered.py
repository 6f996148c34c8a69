"""What functions of a rate book and more come to, remembered for the latest books alone."""

from collections.abc import Callable
from functools import lru_cache, partial, wraps
from typing import Concatenate, ParamSpec, TypeVar

from shipcalc.ratebook.book import RateBook

P = ParamSpec("P")
T = TypeVar("T")
BOOKS = 8  # a few editions, each of them as it is on some days


def remembered_by_book(
    most: int,
) -> Callable[[Callable[Concatenate[RateBook, P], T]], Callable[Concatenate[RateBook, P], T]]:
    """Remember up to `most` answers for each of the latest books.

    One `lru_cache` over the book and the rest would keep each book until so many answers are asked of later ones: a desk that is
    open for a year, or revises quotes all day, would hold them all.
    """

    def remembered(function: Callable[Concatenate[RateBook, P], T]) -> Callable[Concatenate[RateBook, P], T]:
        @lru_cache(maxsize=BOOKS)
        def answers_of(book: RateBook) -> Callable[..., T]:
            return lru_cache(maxsize=most)(partial(function, book))

        @wraps(function)
        def answer(book: RateBook, /, *rest: P.args, **named: P.kwargs) -> T:
            return answers_of(book)(*rest, **named)

        return answer

    return remembered
