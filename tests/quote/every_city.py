"""A sample of all cities outside the contiguous United States, each quoted: python tests/quote/every_city.py 5000.

Cities are drawn so that every country has its share: the largest of each, then evenly by number. For each there must be
choices or a sentence that says no; a traceback ends the run.
"""

import random
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterator
from contextlib import suppress
from datetime import date

from shipcalc.actions.quoting import Books, open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.errors import NoAnswer
from shipcalc.places.gazetteer.finding import place_of_city
from shipcalc.places.gazetteer.pages import City, city_numbered
from shipcalc.places.place import Place
from shipcalc.quote.assemble import make_quote
from shipcalc.quote.model import Dealer, Quote, Wishes
from shipcalc.quote.network.territory import is_home
from shipcalc.quote.request import Request
from shipcalc.ratebook.embargoed import embargoed_countries, shipped_holds

DAY = date(2026, 12, 1)
HELD = embargoed_countries() | {hold.country for hold in shipped_holds()}
YARD = Place(
    name="Savannah", kind="city", country="US", subdivision="GA", postal_code="31401", latitude=32.08, longitude=-81.09
)


def all_cities() -> Iterator[City]:
    """Yield all cities of the gazetteer."""
    number = 0
    with suppress(IndexError):
        while True:
            yield city_numbered(number)
            number += 1


def sample(count: int) -> list[City]:
    """Return so many cities abroad, over all countries; the same ones every time."""
    by_country: dict[str, list[City]] = defaultdict(list)
    for city in all_cities():
        if not is_home(city.country, city.subdivision):
            by_country[city.country].append(city)
    chance = random.Random(20261201)
    chosen = []
    each = max(1, count // (2 * len(by_country)))
    rest: list[City] = []
    for cities in by_country.values():
        cities.sort(key=lambda city: -city.population)
        chosen += cities[: max(1, each // 4)]
        chance.shuffle(tail := cities[max(1, each // 4) :])
        chosen += tail[: each - max(1, each // 4)]
        rest += tail[each - max(1, each // 4) :]
    chance.shuffle(rest)
    return (chosen + rest)[:count]


def answer(city: City, books: Books, stock_number: str) -> Quote | str:
    """Return the quote for a city, or the sentence that says no."""
    vehicle = next(v for v in books.stock.vehicles if v.stock_number == stock_number)
    request = Request(vehicles=(vehicle,), starts=(YARD,), to=place_of_city(city, "sample"), ready=DAY, wishes=Wishes())
    try:
        return make_quote(request, books.rates, as_of=DAY, dealer=Dealer(name="Heron & Vale Motors (invented)"))
    except NoAnswer as no:
        return str(no)


def class_of(quote: Quote) -> str:
    """Return whether the choices arrive; an unfinished one must never stand before a finished one, nor without a word above it."""
    arrives = [option.arrives for option in quote.options]
    assert arrives == sorted(arrives, reverse=True), quote.to
    for option in quote.options:
        assert option.arrives or any(said.startswith("The price ends at") for said in option.before_price), quote.to
        assert not {leg.to.country for leg in option.legs} & (HELD - {quote.to.country}), quote.to
    if all(arrives):
        return "finished"
    return (
        "unfinished behind finished"
        if arrives[0]
        else "unfinished: nothing of the rate book goes on, said above the price"
    )


def why_unfinished(quote: Quote) -> str:
    """Return what the quote says above the price of its first way, which ends at a port."""
    return next(said for said in quote.options[0].before_price if said.startswith("The price ends at"))


def main(count: int) -> None:
    """Quote the sample and print what became of it."""
    books = open_books(invented_sources())
    cities, reasons, classes = sample(count), Counter[str](), Counter[str]()
    took, unfinished = [], []
    for city in cities:
        begun = time.perf_counter()
        found = answer(city, books, "HV-1042")
        took.append((time.perf_counter() - begun) * 1000)
        if isinstance(found, str):
            assert 20 < len(found) < 400, found
            classes["refused or held, with the reason"] += 1
            reasons[found.split(": ", 1)[-1].replace(city.name, "…")[:110]] += 1
        else:
            assert found.options, city
            assert all(option.total > 0 for option in found.options), city
            kind = class_of(found)
            classes[kind] += 1
            if kind.startswith("unfinished:"):
                unfinished.append(f"{city.name}, {city.country}: {why_unfinished(found)}")
    took.sort()
    middle, late = took[len(took) // 2], took[int(0.95 * len(took))]
    told = [
        f"{len(cities)} cities of {len({city.country for city in cities})} countries",
        *(f"{times:6}  {name}" for name, times in sorted(classes.items())),
        f"a quote took {middle:.0f} ms in the middle, {late:.0f} ms at the 95th percentile",
        "",
        "Refused or held:",
        *(f"{times:6}  {reason}" for reason, times in reasons.most_common(25)),
        "",
        "Unfinished:",
        *unfinished,
    ]
    sys.stdout.write("\n".join(told) + "\n")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 500)
