"""What every kind of edge can be asked: four functions, the same for all."""

from collections.abc import Iterable, Mapping
from typing import Protocol

import numpy as np

from shipcalc.pricing.columns import Bool
from shipcalc.quote.model import LeftOut, Leg, Milestone, Window
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.price.parts import Charged
from shipcalc.quote.request import Request
from shipcalc.quote.time.dated import Dated, Days
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass, field


@dataclass(frozen=True, slots=True)
class Words:
    """What is told of one edge of a way: its movements, steps of the timeline, warnings, and moments that are no step."""

    legs: tuple[Leg, ...] = ()
    steps: tuple[Milestone, ...] = ()
    warnings: tuple[str, ...] = ()
    moments: Mapping[str, Window] = field(default_factory=dict)


NO_WORDS = Words()
# Which ways (w,) are out, and what of it must be told.
Refused = tuple[Bool, tuple[LeftOut, ...]]


class Edge(Protocol):
    """A module of this room: one kind of edge. What a kind has nothing to do with, it leaves to the functions below."""

    def ineligible(self, request: Request, book: RateBook, network: Network, ways: Ways) -> Refused:
        """Return which ways (w,) it cannot take, and what of it must be told."""
        ...

    def lines(self, request: Request, book: RateBook, network: Network) -> Iterable[Charged]:
        """Return its parts, which are priced when they are asked for, and which of their columns each way has."""
        ...

    def days(self, request: Request, book: RateBook, network: Network, ways: Ways, when: Days) -> Days:
        """Return the days of all ways (w,) with its own, from those of the edges before it."""
        ...

    def words(self, one: OneWay, dated: Dated) -> Words:
        """Return what is told of it on one way, whose days are known."""
        ...


def takes_all(request: Request, book: RateBook, network: Network, ways: Ways) -> Refused:
    """Return that no way is out."""
    return np.zeros(len(ways), dtype=np.bool_), ()


def no_lines(request: Request, book: RateBook, network: Network) -> Iterable[Charged]:
    """Return no lines."""
    return ()


def same_days(request: Request, book: RateBook, network: Network, ways: Ways, when: Days) -> Days:
    """Return the days as they are."""
    return when


def no_words(one: OneWay, dated: Dated) -> Words:
    """Return nothing."""
    return NO_WORDS
