"""The workbooks, computed anew by an independent spreadsheet program, show the program's own amounts, all of them."""

import re
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal
from itertools import product

import pytest

from shipcalc.documents.buyer_workbook import write_buyer_workbook
from shipcalc.documents.office_workbook import write_office_workbook
from shipcalc.money import decimals
from shipcalc.quote.model import Quote
from shipcalc.sheets.reading import Sheet

SAMPLE = 50
SHEET = "Line by line"


def choices_on(sheet: Sheet) -> list[list[tuple]]:
    """Return the rows of each choice, cut at the headings "Choice 1 · …"."""
    parts: list[list[tuple]] = []
    for row in sheet.rows:
        if isinstance(row[0], str) and row[0].startswith("Choice "):
            parts.append([])
        elif parts:
            parts[-1].append(row)
    return parts


def seen(value, currency: str) -> Decimal:
    """Return what a cell shows in the currency's decimals; a value that is off by more than a display's rounding is an error."""
    assert isinstance(value, int | float), f"{value!r} is not a number"
    shown = Decimal(repr(value)).quantize(Decimal(1).scaleb(-decimals(currency)), ROUND_HALF_UP)
    assert abs(Decimal(repr(value)) - shown) < Decimal("1e-6"), f"{value!r} has more decimals than {currency}"
    return shown


def by_label(rows, label: str, column: int):
    found = [row[column] for row in rows if row[1] == label]
    assert len(found) == 1, f"{label}: found {len(found)} times"
    return found[0]


def check_buyer(book, quote: Quote) -> None:
    money = lambda value: seen(value, quote.currency)  # noqa: E731
    parts = choices_on(book.find_sheet(SHEET))
    assert len(parts) == len(quote.options)
    for option, rows in zip(quote.options, parts, strict=True):
        lines = {row[0]: row for row in rows if row[0] and row[5] is not None}
        assert set(lines) == {charge.line for charge in option.charges}
        for charge in option.charges:
            assert money(lines[charge.line][5]) == charge.amount, (option.title, charge.label)
            assert money(lines[charge.line][2]) == charge.quantity.quantize(charge.amount), charge.label
        assert money(by_label(rows, "Total", 5)) == option.total
        assert money(by_label(rows, "Deposit, when you say yes", 5)) == option.deposit
        assert money(by_label(rows, "Balance, on delivery", 5)) == option.total - option.deposit
    cover = {row[0]: row[1:] for row in book.find_sheet("Your choices").rows if isinstance(row[0], str)}
    assert [money(value) for value in cover["Total"]] == [option.total for option in quote.options]
    deposits = [money(value) for value in cover["Deposit, when you say yes"]]
    assert deposits == [option.deposit for option in quote.options]


def check_office(book, quote: Quote) -> None:
    money = lambda value: seen(value, quote.currency)  # noqa: E731
    for option, rows in zip(quote.options, choices_on(book.find_sheet(SHEET)), strict=True):
        lines = {row[0]: row for row in rows if row[0] and row[5] is not None}
        covered = [charge for charge in option.charges if charge.payer == "seller"]
        assert set(lines) == {charge.line for charge in covered}
        for charge in covered:
            row = lines[charge.line]
            assert (money(row[5]), money(row[8])) == (charge.amount, charge.cost.amount), charge.label
            assert money(row[9]) == charge.amount - charge.cost.amount, charge.label
            assert row[11] == charge.source
        assert money(by_label(rows, "Total", 5)) == option.total
        assert money(by_label(rows, "Total", 8)) == option.total_cost
        assert money(by_label(rows, "Total", 9)) == option.total - option.total_cost
        assert by_label(rows, "Total", 10) == pytest.approx(float((option.total - option.total_cost) / option.total))
    overview = [row for row in book.find_sheet("Overview").rows if re.match(r"Choice \d  ·", str(row[0]))]
    for option, row in zip(quote.options, overview, strict=True):
        assert money(row[1]) == money(row[5]) == option.total
        assert row[6] == pytest.approx(0, abs=1e-9)


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
    make_quote, every_row, many_vehicles, recalculate, tmp_path
) -> None:
    quotes = sample(make_quote, every_row, many_vehicles)
    assert len(quotes) == SAMPLE
    for number, quote in enumerate(quotes):
        write_buyer_workbook(quote, tmp_path / f"buyer-{number}.xlsx")
        write_office_workbook(quote, tmp_path / f"office-{number}.xlsx", paper="a4")
    books = recalculate(sorted(tmp_path.glob("*.xlsx")))
    for number, quote in enumerate(quotes):
        check_buyer(books[f"buyer-{number}.xlsx"], quote)
        check_office(books[f"office-{number}.xlsx"], quote)


def test_half_cents_are_rounded_up_by_the_page_as_by_the_program(make_quote, row_kind, recalculate, tmp_path) -> None:
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
    check_buyer(recalculate([tmp_path / "ties.xlsx"])["ties.xlsx"], quote)


def test_the_independent_program_does_compute(make_quote, recalculate, tmp_path) -> None:
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
        check_buyer(books["rate.xlsx"], quote)
    lines = {row[0]: row for row in choices_on(books["sums.xlsx"].find_sheet(SHEET))[0] if row[0]}
    for charge in first.charges:
        if charge.unit != "%":
            assert seen(lines[charge.line][5], quote.currency) == charge.amount
