"""Six hundred requests, and sixty of what the buyer does himself, and what each was answered, kept as text: a change of shape must not change an answer.

    python tests/quote/kept_answers.py --write

writes `data/kept_answers.txt` anew, after a change that is meant to change answers; its difference is then the thing to read.
The file says nothing about what is right: it is today's answers, held against tomorrow's.
"""

import random
import sys
from collections.abc import Iterator
from datetime import date, timedelta
from hashlib import sha256
from pathlib import Path

from shipcalc.actions.quoting import Order, open_books, quote
from shipcalc.actions.sources import invented_sources
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.places.gazetteer.pages import all_postal_codes
from shipcalc.quote.model import Option
from shipcalc.quote.price.terms import CODES

FILE = Path(__file__).parent / "data" / "kept_answers.txt"
DAY = date(2026, 12, 1)
COUNT, FETCHED_OR_KEPT = 600, 60
SEED = 20261201

ASKED = (
    "to", "ready", "trailer", "term", "ocean", "cover", "currency", "released_by", "keep_until", "collect", "terminal",
)  # fmt: skip
CANADA = ("Toronto, Canada", "Calgary, Canada", "Montreal, Canada", "Vancouver, Canada", "Halifax, Canada")
FERRIES = (
    "Nantucket, MA", "Vineyard Haven, MA", "Friday Harbor, WA", "Avalon, CA", "Washington, WI", "Visby, Sweden", "Olbia, Italy",
    "Palma, Spain", "Cowes, United Kingdom", "Nanaimo, Canada",
)  # fmt: skip
BY_SEA_AT_HOME = ("Honolulu, HI", "Anchorage, AK", "Hilo, HI", "San Juan, Puerto Rico", "Juneau, AK")
OVERSEAS = (
    "Bremen, Germany", "Southampton, United Kingdom", "Rotterdam, Netherlands", "Zurich, Switzerland", "Lyon, France",
    "Milan, Italy", "Oslo, Norway", "Stockholm, Sweden", "Dublin, Ireland", "Lisbon, Portugal", "Prague, Czechia",
    "Auckland, New Zealand", "Sydney, Australia", "Perth, Australia", "Yokohama, Japan", "Osaka, Japan", "Seoul, South Korea",
    "Dubai, United Arab Emirates", "Jeddah, Saudi Arabia", "Durban, South Africa", "Johannesburg, South Africa",
    "Santos, Brazil", "Buenos Aires, Argentina", "Santiago, Chile", "Lima, Peru", "Lagos, Nigeria", "Apia, Samoa",
    "Singapore", "Manila, Philippines", "Mexico City, Mexico", "Kingston, Jamaica", "Reykjavik, Iceland", "Ulaanbaatar, Mongolia",
)  # fmt: skip


def orders() -> Iterator[Order]:
    """Yield the requests: half at home, half beyond, every term, wish and kind of way among them."""
    chance = random.Random(SEED)
    sources = invented_sources()
    numbers = [vehicle.stock_number for vehicle in open_books(sources).stock.vehicles]
    codes = all_postal_codes().codes.tolist()
    for turn in range(COUNT):
        vehicles = tuple(chance.sample(numbers, 2 if chance.random() < 0.15 else 1))
        ready = DAY + timedelta(days=chance.choice((0, 3, 14, 28, 120)))
        wishes = {name: True for name in ("lift_gate", "limited_access", "express") if chance.random() < 0.15}
        if turn % 2 == 0:
            to = chance.choice(FERRIES) if chance.random() < 0.1 else chance.choice(codes)
            trailer = chance.choice(("", "", "", "open", "enclosed"))
            yield Order(vehicles=vehicles, to=to, ready=ready, trailer=trailer, **wishes)
            continue
        to = chance.choice(chance.choice((CANADA, FERRIES, BY_SEA_AT_HOME, OVERSEAS, OVERSEAS, OVERSEAS, OVERSEAS)))
        yield Order(
            vehicles=vehicles,
            to=to,
            ready=ready,
            term=chance.choice(("", "", *CODES)),
            ocean=chance.choice(("", "", "roro", "container")),
            cover=chance.choice(("", "", "A", "C")),
            currency=chance.choice(("", "EUR", "JPY")),
            released_by=chance.choice(("", "Imogen Vale")),
        )


def fetched_or_kept() -> Iterator[Order]:
    """Yield requests for what is kept in the yard first, collected there, or fetched at a terminal: each alone, and together."""
    chance = random.Random(SEED)
    sources = invented_sources()
    numbers = [vehicle.stock_number for vehicle in open_books(sources).stock.vehicles]
    codes = all_postal_codes().codes.tolist()
    for turn in range(FETCHED_OR_KEPT):
        at_home, ready = turn % 2 == 0, DAY + timedelta(days=chance.choice((0, 14)))
        yield Order(
            vehicles=tuple(chance.sample(numbers, 2 if chance.random() < 0.3 else 1)),
            to=chance.choice(codes if at_home else (*CANADA, *BY_SEA_AT_HOME, *OVERSEAS)),
            ready=ready,
            term="" if at_home else chance.choice(("", *CODES)),
            keep_until=ready + timedelta(days=chance.choice((5, 20, 75))) if turn % 3 else None,
            collect=turn % 3 != 1,
            terminal=at_home and turn % 4 == 0,
        )


def answers(every: int = 1) -> Iterator[str]:
    """Yield a block of lines for each request, or for every so-manieth: what was asked, and each choice or the reason why not."""
    sources = invented_sources()
    books = open_books(sources)
    for turn, order in enumerate((*orders(), *fetched_or_kept())):
        if turn % every:
            continue
        asked = " ".join(f"{name}={value}" for name in ASKED if (value := getattr(order, name)))
        lines = [f"{turn} {'+'.join(order.vehicles)} {asked}"]
        try:
            found = quote(order, sources, as_of=DAY, books=books)
        except (NoAnswer, WrongInput) as error:
            lines.append(f"  {type(error).__name__}")
        else:
            lines.append(
                f"  {found.to.name} {found.to.country} valid {found.valid_until} recommended {found.recommended}"
            )
            lines += [f"  {told(option)}" for option in found.options]
        yield "\n".join(lines)


def told(option: Option) -> str:
    """Return a choice in one line: its sums and days as they are, its charges and papers as a number that changes with them."""
    charges = "|".join(f"{c.code} {c.vehicle} {c.quantity} {c.rate} {c.amount} {c.payer}" for c in option.charges)
    papers = "|".join(f"{d.code} {d.due}" for d in (*option.documents, *option.tasks))
    days = "/".join(day.isoformat() for day in (*option.dates.pickup, *option.dates.delivery))
    return " · ".join(
        (
            option.title,
            f"{option.term} {option.term_place}",
            f"{option.total} + {option.buyer_pays_locally}",
            days,
            f"{len(option.charges)} charges {sha256(charges.encode()).hexdigest()[:8]}",
            f"{len(option.documents)} papers {len(option.tasks)} tasks {sha256(papers.encode()).hexdigest()[:8]}",
        )
    )


if __name__ == "__main__":
    content = "\n".join(answers()) + "\n"
    if "--write" in sys.argv:
        FILE.write_text(content, encoding="utf-8")
    else:
        sys.stdout.write(content)
