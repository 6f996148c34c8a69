"""What a sum rests on that nobody read is said to the office with its cell, and what changes soon to the buyer too.

Trust marks and ages are our own rule (a source is old after so many days: sheet Pricing).
"""

from datetime import date, timedelta
from functools import cache

import pytest

from shipcalc.actions.quoting import Books, Order, made_quote, open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Quote
from shipcalc.ratebook.book import RateBook
from shipcalc.records import fields, replace

DAY = date(2026, 12, 1)


@cache
def books() -> Books:
    return open_books(invented_sources())


def asked(day: date = DAY, to: str = "Yokohama, Japan", **changes: object) -> Quote:
    """Return a quote from a book whose rows of that country's import charges say something else."""
    own = {field.name: getattr(books().rates, field.name) for field in fields(RateBook)}
    rows = tuple(replace(row, **changes) if row.country == "JP" else row for row in books().rates.import_charges)
    book = RateBook(**own | {"overseas": None, "priced_lanes": None, "import_charges": rows})
    order = Order(vehicles=("HV-1042",), to=to, ready=day)
    return made_quote(order, invented_sources(), as_of=day, books=replace(books(), rates=book)).quote


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"trust": "memory", "checked_on": None}, "from memory"),
        ({"trust": "second hand", "checked_on": None}, "second hand"),
        ({"trust": None, "checked_on": None}, "nobody said how it was learnt"),
        ({"trust": "read", "checked_on": DAY - timedelta(days=366)}, "read 366 days ago, on 2025-11-30"),
    ],
)
def test_a_sum_that_rests_on_what_nobody_read_lately_is_told_to_the_office(changes, said):
    quote = asked(**changes)
    told = quote.options[quote.recommended].to_check
    assert len(told) == 1
    assert said in told[0]
    assert "paperwork.xlsx › Import charges!" in told[0]
    assert all(option.to_check == () for option in for_buyer(quote).options)


@pytest.mark.parametrize("age", [0, 365])
def test_what_was_read_lately_is_not_told(age):
    quote = asked(trust="read", checked_on=DAY - timedelta(days=age))
    assert quote.options[quote.recommended].to_check == ()


@pytest.mark.parametrize(
    ("changes", "is_said"),
    [
        ({"valid_to": date(2026, 12, 31)}, True),
        ({"valid_to": DAY + timedelta(days=149)}, True),
        ({"valid_to": DAY + timedelta(days=150)}, False),
        ({"valid_from": DAY}, False),
        ({}, False),
    ],
)
def test_what_changes_before_the_vehicle_may_be_there_is_said(changes, is_said):
    quote = asked(**changes)
    told = " ".join((*quote.assumptions, *(one for option in quote.options for one in option.warnings)))
    assert ("Duty and tax in Japan change on" in told) is is_said
    assert ("change on 2027-01-01" in told) is (changes.get("valid_to") == date(2026, 12, 31))
