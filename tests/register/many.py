"""A register that is full: quotes, shipments and their lines by the thousand, laid into its tables as the program keeps them."""

import json
from datetime import date, timedelta

from sqlalchemy import insert

from shipcalc.checklist.items import Item
from shipcalc.checklist.making import checklist, free_days, gates
from shipcalc.quote.model import Quote
from shipcalc.register.dialect import insert_into
from shipcalc.register.opening import Register
from shipcalc.register.states import ACCEPTED
from shipcalc.register.tables import quotes, shipments, tasks, words
from shipcalc.register.words import words_in

BUYERS = (
    "Åsa Lindqvist",
    "K. Brandt",
    "Ottilie Marsh",
    "J. Okonkwo-Reyes",
    "P. van der Veen",
    "M. Tanaka",
    "R. Duarte",
)
PLACES = ("Bozeman, MT", "Madison, WI", "Savannah, GA", "Bremen, DE", "Yokohama, JP")
BEGUN_DAYS = 45
VEHICLES = ("HV-1042 1961 Halberd Corsair", "HV-1027 1957 Marlow Tern", "HV-1033 1972 Ostrava Vega")


def fill(register: Register, quote: Quote, *, count: int, accepted: int, under_way: int, day: date) -> None:
    """Lay `count` quotes into a register, of which some are shipments, of which the latest are still under way.

    Those began one day after the other; what was due is done, but for that of the last two days.
    """
    option = quote.options[quote.recommended]
    items = checklist(quote, option)
    with register.writing("filling") as connection:
        for start in range(0, count, 5000):
            numbers = range(start, min(start + 5000, count))
            connection.execute(insert(quotes), [_quote(quote, number, count, accepted, day) for number in numbers])
            connection.execute(insert(words), [row for number in numbers for row in _words(number)])
        first = count - accepted
        connection.execute(
            insert(shipments),
            [_shipment(quote, name_of(number), day, -(number % BEGUN_DAYS)) for number in range(first, count)],
        )
        for number in range(first, count):
            ended, shift = number < count - under_way, -(number % BEGUN_DAYS)
            rows = [
                _task(name_of(number), place, item, done=ended or _was_done(item, shift, day), shift=shift)
                for place, item in enumerate(items, 1)
            ]
            connection.execute(insert(tasks), rows)
    assert free_days(option) is not None


def begin(register: Register, quote: Quote, *, accepted_on: date, done: int = 0, shift: int = 0) -> None:
    """Begin the shipment of an accepted quote, unless it is begun already, its days moved and its first lines done."""
    option = quote.options[quote.recommended]
    number = quote.number or ""
    with register.writing("beginning") as connection:
        row = insert_into(connection, shipments).values(**_shipment(quote, number, accepted_on, shift))
        connection.execute(row.on_conflict_do_nothing())
        connection.execute(tasks.delete().where(tasks.c.number == number))
        rows = [
            _task(number, place, item, done=place <= done, shift=shift)
            for place, item in enumerate(checklist(quote, option), 1)
        ]
        connection.execute(insert(tasks), rows)


def _was_done(item: Item, shift: int, day: date) -> bool:
    return item.due < date.max and item.due + timedelta(days=shift) < day - timedelta(days=2)


def name_of(number: int) -> str:
    return f"Q-2026-{number + 1:04d}"


def _quote(quote: Quote, number: int, count: int, accepted: int, day: date) -> dict[str, object]:
    made = day - timedelta(days=(count - number) * 365 // count)
    return {
        "number": name_of(number),
        "revision": 1,
        "state": ACCEPTED if number >= count - accepted else "open",
        "as_of": made,
        "valid_until": made + timedelta(days=14),
        "buyer": BUYERS[number % len(BUYERS)],
        "vehicles": VEHICLES[number % len(VEHICLES)],
        "place": PLACES[number % len(PLACES)],
        "total_minor": 100_000 + number,
        "currency": quote.currency,
    }


def _words(number: int) -> list[dict[str, object]]:
    told = (
        ("buyer", BUYERS[number % len(BUYERS)]),
        ("vehicle", f"{VEHICLES[number % len(VEHICLES)]} chassis{number}"),
        ("place", PLACES[number % len(PLACES)]),
    )
    return [
        {"number": name_of(number), "about": about, "word": word} for about, text in told for word in words_in(text)
    ]


def _shipment(quote: Quote, number: str, day: date, shift: int = 0) -> dict[str, object]:
    option = quote.options[quote.recommended]
    moved = timedelta(days=shift)
    moments = {
        stage: [(first + moved).isoformat(), (last + moved).isoformat()]
        for stage, (first, last) in gates(quote, option).items()
    }
    return {
        "number": number,
        "revision": 1,
        "choice": quote.recommended,
        "accepted_on": day,
        "moments": json.dumps(moments),
        "free_days": json.dumps(free_days(option)),
        "version": 1,
    }


def _task(number: str, place: int, item: Item, *, done: bool, shift: int = 0) -> dict[str, object]:
    return {
        "number": number,
        "id": item.id,
        "place": place,
        "title": item.title,
        "owner": item.owner,
        "due": item.due + timedelta(days=shift) if item.due < date.max else item.due,
        "stage": item.stage,
        "after": json.dumps(item.after),
        "critical": int(item.critical),
        "wanted": item.wanted,
        "note": item.note,
        "source": item.source,
        "vehicle": item.vehicle,
        "state": "done" if done else "open",
        "version": 1,
    }
