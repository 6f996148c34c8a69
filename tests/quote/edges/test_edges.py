"""What must hold of every kind of edge, and of all ways over them, shown or not. Arithmetic and order need no source."""

import random
import subprocess
import sys
from collections.abc import Iterator
from datetime import date
from functools import cache
from importlib import import_module
from itertools import pairwise
from pathlib import Path

import pytest

from shipcalc.actions.quoting import Order, open_books, request_for
from shipcalc.actions.sources import invented_sources
from shipcalc.errors import NoAnswer
from shipcalc.money import to_minor
from shipcalc.quote import edges
from shipcalc.quote.choose.ways import Found, find_ways
from shipcalc.quote.edges.kinds import edges_of
from shipcalc.quote.price.lines import way_charges
from shipcalc.quote.request import Fetched
from shipcalc.records import replace

DAY = date(2026, 12, 1)
FOUR = ("ineligible", "lines", "days", "words")
PLACES = ("59715", "Toronto, Canada", "Bremen, Germany", "Honolulu, HI", "Sydney, Australia")
WAYS_TRIED = 40


@cache
def found(to: str, **wishes: str) -> Found:
    sources = invented_sources()
    books = open_books(sources)
    order = Order(vehicles=("HV-1042",), to=to, **wishes)
    return find_ways(request_for(order, sources, as_of=DAY, books=books), books.rates, DAY)


def fetched_and_kept() -> Iterator[Found]:
    """Yield the ways to a terminal after being kept in the yard, and those of a buyer who comes to the yard."""
    sources = invented_sources()
    books = open_books(sources)
    request = request_for(Order(vehicles=("HV-1042",), to="59101"), sources, as_of=DAY, books=books)
    wishes = replace(request.wishes, keep_until=date(2027, 4, 1))
    kept = replace(request, wishes=wishes, ready=date(2027, 4, 1), kept_from=DAY)
    for fetched in (Fetched(books.rates.terminals[0].terminal, 40), Fetched()):
        yield find_ways(replace(kept, fetched=fetched), books.rates, DAY)


def kinds_in_the_room() -> Iterator[str]:
    for file in Path(edges.__file__).parent.glob("*.py"):
        if all(hasattr(import_module(f"shipcalc.quote.edges.{file.stem}"), name) for name in FOUR):
            yield f"shipcalc.quote.edges.{file.stem}"


def test_every_kind_of_edge_stands_in_the_row() -> None:
    """A new one that nobody asks would be in no price."""
    rows = [edges_of(one.request, one.network) for one in (found("Bremen, Germany"), *fetched_and_kept())]
    assert {edge.__name__ for row in rows for edge in row} == set(kinds_in_the_room())  # type: ignore[attr-defined]
    assert all(len(row) == len(set(row)) for row in rows)
    assert len(rows[0]) > 5


def test_a_quote_at_home_imports_no_edge_but_the_truck_and_the_terminal_near_the_buyer() -> None:
    code = (
        "import sys; from shipcalc.cli.main import main; sys.argv = ['shipcalc', 'quote', '--vehicle', 'HV-1042', '--to', '59715']\n"
        "try: main()\nexcept SystemExit: pass\n"
        "print([name for name in sys.modules if name.startswith('shipcalc.quote.edges.')])"
    )
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    loaded = done.stdout.strip().splitlines()[-1]
    assert "edges.truck" in loaded
    assert not [
        name for name in kinds_in_the_room() if f"'{name}'" in loaded and not name.endswith((".truck", ".terminal"))
    ]


@pytest.mark.parametrize("to", PLACES)
def test_the_lines_of_any_way_add_up_to_what_was_compared(to: str) -> None:
    """Not of those alone that are shown: the columns and the lines are read from the same parts in two ways."""
    ways = found(to)
    numbers = range(len(ways.ways))
    for number in random.Random(7).sample(numbers, min(WAYS_TRIED, len(numbers))):
        one = ways.one(number)
        charges = way_charges(one, ways.parts, ways.sums)
        for payer, compared in (("seller", ways.sums.total), ("buyer", ways.sums.locally)):
            told = sum(to_minor(charge.amount, one.currency) for charge in charges if charge.payer == payer)
            assert told == compared[number], (to, number, payer)


@pytest.mark.parametrize("to", PLACES)
def test_no_edge_is_passed_before_the_one_ahead_of_it(to: str) -> None:
    when = found(to).days
    moments = (when.terminal, when.sailing, when.arrival, when.release, when.delivery)
    for before, after in pairwise(moments):
        assert (before.earliest <= after.earliest).all()
        assert (before.latest <= after.latest).all()
    assert all((span.earliest <= span.latest).all() for span in (*moments, when.cutoff))
    by_ship = ~found(to).ways.by_road
    assert (when.cutoff.latest[by_ship] < when.sailing.latest[by_ship]).all()


def test_a_rule_of_the_sea_leaves_no_container_and_no_truck() -> None:
    """FOB is for goods handed over at the ship: Incoterms 2020, as `quote/price/terms.py` says of it."""
    ways = found("Bremen, Germany", term="FOB")
    assert not ways.ways.by_road.any()
    assert {ways.one(number).mode for number in range(len(ways.ways))} == {"roro"}
    assert any(out.carrier == "Containers" for out in ways.left_out)
    with pytest.raises(NoAnswer, match="FOB"):
        found("Toronto, Canada", term="FOB")
