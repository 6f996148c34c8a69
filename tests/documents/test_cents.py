"""The workbooks, computed anew by an independent spreadsheet program, show the program's own amounts, all of them."""

from decimal import Decimal
from itertools import product

import pytest

from shipcalc.documents.buyer.workbook import write_buyer_workbook
from shipcalc.documents.office.workbook import write_office_workbook
from shipcalc.quote.model import Quote
from shipcalc.records import replace

SAMPLE = 50


def sample(make_quote, every_row, many_vehicles) -> list[Quote]:
    """Return quotes that differ in currency, choices, vehicles and size; their rates have up to seven decimals."""
    kinds = product((("USD", "1"), ("JPY", "149.73"), ("KWD", "0.30711"), ("EUR", "0.8657")), (1, 2, 3, 4), (1, 1, 2))
    scales = ("0.3333333", "1.005", "1.115", "2.675", "7.77")
    quotes = [
        make_quote(choices=choices, vehicles=many_vehicles[:vehicles], rows=every_row, currency=currency,
                   scale=str(Decimal(scale) * Decimal(scales[number % len(scales)])))
        for number, ((currency, scale), choices, vehicles) in enumerate(kinds)
    ]  # fmt: skip
    five = make_quote(choices=4, vehicles=many_vehicles, rows=every_row)
    return [*quotes, five, make_quote(choices=3)]


def test_fifty_quotes_recalculated_elsewhere_show_the_same_cents(
    make_quote, every_row, many_vehicles, recalculate, amounts_shown, tmp_path
) -> None:
    quotes = sample(make_quote, every_row, many_vehicles)
    assert len(quotes) == SAMPLE
    for number, quote in enumerate(quotes):
        write_buyer_workbook(quote, tmp_path / f"buyer-{number}.xlsx")
        write_office_workbook(quote, tmp_path / f"office-{number}.xlsx", paper="a4")
    books = recalculate(sorted(tmp_path.glob("*.xlsx")))
    for number, quote in enumerate(quotes):
        amounts_shown.check_buyer(books[f"buyer-{number}.xlsx"], quote)
        amounts_shown.check_office(books[f"office-{number}.xlsx"], quote)


def test_half_cents_are_rounded_up_by_the_page_as_by_the_program(
    make_quote, row_kind, recalculate, amounts_shown, tmp_path
) -> None:
    """Products that end in exactly half a cent, which binary fractions cannot hold, on both sides of nought."""
    ties = [
        row_kind("truck.linehaul", f"{miles} miles at {rate}", "mi", str(miles), rate, added="0")
        for miles in (1, 3, 7, 11, 101, 1237, 2999)
        for rate in ("0.005", "0.015", "0.145", "1.005", "1.115", "2.675", "-1.005", "8.345", "0.0050", "3.0250")
    ]
    quote = make_quote(choices=1, rows=ties)
    halves = [charge for charge in quote.options[0].charges if (charge.quantity * charge.rate * 1000) % 10 == 5]
    assert len(halves) > 50
    write_buyer_workbook(quote, tmp_path / "ties.xlsx")
    amounts_shown.check_buyer(recalculate([tmp_path / "ties.xlsx"])["ties.xlsx"], quote)


def test_the_independent_program_does_compute(make_quote, recalculate, amounts_shown, tmp_path) -> None:
    """The check above can fail: a workbook whose stored results are wrong is put right, and a wrong rate is found out."""
    quote = make_quote(choices=2)
    first = quote.options[0]
    dearer = replace(first.charges[1], rate=first.charges[1].rate + Decimal("0.01"))
    wrong_rate = replace(first, charges=(first.charges[0], dearer, *first.charges[2:]))
    wrong_sums = replace(first, charges=tuple(replace(c, amount=c.amount + 7) for c in first.charges if c.unit != "%"))
    for name, option in (("rate.xlsx", wrong_rate), ("sums.xlsx", wrong_sums)):
        write_buyer_workbook(replace(quote, options=(option, quote.options[1])), tmp_path / name)
    books = recalculate([tmp_path / "rate.xlsx", tmp_path / "sums.xlsx"])
    with pytest.raises(AssertionError, match="Carriage"):
        amounts_shown.check_buyer(books["rate.xlsx"], quote)
    lines = {
        row[0]: row for row in amounts_shown.choices_on(books["sums.xlsx"].find_sheet(amounts_shown.SHEET))[0] if row[0]
    }
    for charge in first.charges:
        if charge.unit != "%":
            assert amounts_shown.seen(lines[charge.line][5], quote.currency) == charge.amount
