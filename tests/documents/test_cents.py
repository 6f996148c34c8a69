"""The workbooks, computed anew by an independent spreadsheet program, show the program's own amounts, all of them.

Quotes of every shape, made up, and quotes of the invented dealer to ZIPs all over the country; all are converted in one start.
"""

from datetime import date
from decimal import Decimal
from itertools import product

import pytest

from shipcalc.actions.quoting import Order, open_books, quote
from shipcalc.actions.sources import invented_sources
from shipcalc.documents.buyer.workbook import write_buyer_workbook
from shipcalc.documents.office.workbook import write_office_workbook
from shipcalc.errors import NoAnswer
from shipcalc.places.gazetteer.pages import all_postal_codes
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Quote
from shipcalc.records import replace

MADE_UP, REAL = 26, 26
DAY = date(2026, 12, 1)
STEP = 7_919  # a prime: the ZIPs go all over the country, each with another vehicle
WISHES = (
    {},
    {"express": True},
    {"lift_gate": True},
    {"trailer": "enclosed"},
    {"limited_access": True, "ready": date(2027, 4, 1)},
)


def made_up_quotes(make_quote, every_row, many_vehicles) -> list[Quote]:
    """Return quotes that differ in currency, choices, vehicles and size; their rates have up to seven decimals."""
    kinds = product((("USD", "1"), ("JPY", "149.73"), ("KWD", "0.30711"), ("EUR", "0.8657")), (1, 2, 3, 4), (1, 1, 2))
    scales = ("0.3333333", "1.005", "1.115", "2.675", "7.77")
    quotes = [
        make_quote(choices=choices, vehicles=many_vehicles[:vehicles], rows=every_row, currency=currency,
                   scale=str(Decimal(scale) * Decimal(scales[number % len(scales)])))
        for number, ((currency, scale), choices, vehicles) in list(enumerate(kinds))[::2]
    ]  # fmt: skip
    five = make_quote(choices=4, vehicles=many_vehicles, rows=every_row)
    return [*quotes, five, make_quote(choices=3)]


def real_quotes(count: int) -> list[Quote]:
    """Return so many quotes: vehicle, ZIP and wishes move on by fixed steps; every sixth has two vehicles."""
    sources = invented_sources()
    books = open_books(sources)
    numbers = [vehicle.stock_number for vehicle in books.stock.vehicles]
    codes = all_postal_codes().codes.tolist()
    found: list[Quote] = []
    for turn in range(3 * count):
        asked = [numbers[turn * 11 % len(numbers)], numbers[(turn * 11 + 5) % len(numbers)]]
        order = Order(
            vehicles=tuple(asked[: 2 if turn % 6 == 5 else 1]), to=codes[turn * STEP % len(codes)],
            **WISHES[turn % len(WISHES)],
        )  # fmt: skip
        try:
            found.append(quote(order, sources, as_of=DAY, books=books))
        except NoAnswer:
            continue
        if len(found) == count:
            break
    return found


def quote_of_ties(make_quote, row_kind) -> Quote:
    """Return a quote of products that end in exactly half a cent, which binary fractions cannot hold, on both sides of nought."""
    rates = ("0.005", "0.015", "0.145", "1.005", "1.115", "2.675", "-1.005", "8.345", "0.0050", "3.0250")
    ties = [
        row_kind("truck.linehaul", f"{miles} miles at {rate}", "mi", str(miles), rate, added="0")
        for miles in (1, 3, 7, 11, 101, 1237, 2999)
        for rate in rates
    ]
    return make_quote(choices=1, rows=ties)


def wrong_ones(quoted: Quote) -> dict[str, Quote]:
    """Return the quote with a wrong rate, and with wrong sums beside rates that are right."""
    first = quoted.options[0]
    dearer = replace(first.charges[1], rate=first.charges[1].rate + Decimal("0.01"))
    wrong_rate = replace(first, charges=(first.charges[0], dearer, *first.charges[2:]))
    wrong_sums = replace(first, charges=tuple(replace(c, amount=c.amount + 7) for c in first.charges if c.unit != "%"))
    wrong = {"rate.xlsx": wrong_rate, "sums.xlsx": wrong_sums}
    return {name: replace(quoted, options=(option, quoted.options[1])) for name, option in wrong.items()}


@pytest.fixture
def shown(make_quote, every_row, many_vehicles, row_kind, recalculate, tmp_path):
    """Return the quotes, by kind, and all their workbooks as the spreadsheet program shows them."""
    quotes = {
        "made up": made_up_quotes(make_quote, every_row, many_vehicles),
        "real": real_quotes(REAL),
        "ties": [quote_of_ties(make_quote, row_kind)],
        "two choices": [make_quote(choices=2)],
    }
    for kind in ("made up", "real"):
        for number, quoted in enumerate(quotes[kind]):
            paper = "a4" if kind == "made up" else "letter"
            write_buyer_workbook(
                for_buyer(quoted), tmp_path / f"buyer {kind} {number}.xlsx", choices=range(len(quoted.options))
            )
            write_office_workbook(quoted, tmp_path / f"office {kind} {number}.xlsx", paper=paper)
    write_buyer_workbook(quotes["ties"][0], tmp_path / "ties.xlsx")
    for name, wrong in wrong_ones(quotes["two choices"][0]).items():
        write_buyer_workbook(wrong, tmp_path / name, choices=(0, 1))
    return quotes, recalculate(sorted(tmp_path.glob("*.xlsx")))


def test_every_quote_computed_elsewhere_shows_the_same_cents(shown, amounts_shown) -> None:
    quotes, books = shown
    made_up, real = quotes["made up"], quotes["real"]
    assert (len(made_up), len(real)) == (MADE_UP, REAL)
    assert {quoted.currency for quoted in made_up} == {"USD", "JPY", "KWD", "EUR"}
    assert {len(quoted.options) for quoted in made_up} == {1, 2, 3, 4}
    assert len({quoted.to.subdivision for quoted in real}) > 15
    assert {len(quoted.vehicles) for quoted in real} == {1, 2}
    assert {option.trailer for quoted in real for option in quoted.options} == {"open", "enclosed"}
    units = {charge.unit for quoted in real for option in quoted.options for charge in option.charges}
    assert units == {"mi", "%", "lump"}
    for kind in ("made up", "real"):
        for number, quoted in enumerate(quotes[kind]):
            amounts_shown.check_buyer(books[f"buyer {kind} {number}.xlsx"], quoted)
            amounts_shown.check_office(books[f"office {kind} {number}.xlsx"], quoted)
    half_cents_are_rounded_up_by_the_page_as_by_the_program(quotes["ties"][0], books["ties.xlsx"], amounts_shown)
    the_independent_program_does_compute(quotes["two choices"][0], books, amounts_shown)


def half_cents_are_rounded_up_by_the_page_as_by_the_program(ties: Quote, book, amounts_shown) -> None:
    halves = [charge for charge in ties.options[0].charges if (charge.quantity * charge.rate * 1000) % 10 == 5]
    assert len(halves) > 50
    amounts_shown.check_buyer(book, ties)


def the_independent_program_does_compute(quoted: Quote, books, amounts_shown) -> None:
    """The check above can fail: a workbook whose stored results are wrong is put right, and a wrong rate is found out."""
    with pytest.raises(AssertionError, match="Carriage"):
        amounts_shown.check_buyer(books["rate.xlsx"], quoted)
    assert quoted.recommended == 1
    lines = {row[0]: row for row in books["sums.xlsx"].find_sheet("Choice 1").rows if row[0]}
    for charge in quoted.options[0].charges:
        if charge.unit != "%":
            assert amounts_shown.seen(lines[charge.line][5], quoted.currency) == charge.amount
