"""Kept quotes as a salesperson has them on the screen."""

import json
from decimal import Decimal
from pathlib import Path

import openpyxl

OCTOBER = (("HV-1042", "59715", "2026-10-05"), ("HV-1027", "Bremen, Germany", "2026-10-20"))


def test_a_yes_of_a_day_to_come_is_not_kept(say) -> None:
    assert say("quote", "--vehicle", "HV-1042", "--to", "59715", "--save", "--as-of", "2026-12-01").status == 0
    told = say("quotes", "accept", "Q-2026-0001", "--on", "2026-12-05", "--as-of", "2026-12-02")
    assert (told.status, told.err) == (
        2,
        "shipcalc: --on: 2026-12-05 is still to come — give the day on which the buyer said yes\n",
    )
    assert say("quotes", "accept", "Q-2026-0001", "--on", "2026-12-02", "--as-of", "2026-12-02").status == 0


def test_one_is_counted_as_one(say) -> None:
    assert say("quote", "--vehicle", "HV-1042", "--to", "59715", "--save").status == 0
    assert say("register", "where").out.endswith(": 1 quote\n")


def test_what_last_month_would_cost_today_is_what_a_quote_of_today_says(say, here: Path) -> None:
    """Checked against the command that makes a quote, asked anew for each, and sums in Decimal."""
    assert say("rates", "new", "dearer").status == 0
    raise_prices(here / "dearer" / "trucking.xlsx")
    for stock, to, day in (*OCTOBER, ("HV-1042", "31401", "2026-11-05")):
        assert say("quote", "--vehicle", stock, "--to", to, "--as-of", day, "--save").status == 0
    told = say("quotes", "again", "--rates", "dearer", "--as-of", "2026-11-28", "--json")
    found = json.loads(told.out)
    was = {one["number"]: one["total"] for one in json.loads(say("quotes", "list", "--json").out)["quotes"]}
    sums = [Decimal(0), Decimal(0)]
    for number, (stock, to, _) in enumerate(OCTOBER, 1):
        words = ("--vehicle", stock, "--to", to, "--rates", "dearer", "--as-of", "2026-11-28", "--json")
        quote = json.loads(say("quote", *words).out)
        (one,) = (one for one in found["quotes"] if one["number"] == f"Q-2026-000{number}")
        total = quote["options"][quote["recommended"]]["total"]
        assert (one["then"], one["now"]) == (was[one["number"]], total)
        assert Decimal(one["change"]) == Decimal(total) - Decimal(one["then"]) > 0
        sums = [sums[0] + Decimal(one["then"]), sums[1] + Decimal(total)]
    assert len(found["quotes"]) == found["priced"] == len(OCTOBER)
    assert [Decimal(found["then"]), Decimal(found["now"])] == sums
    assert Decimal(found["change"]) == sums[1] - sums[0]
    lines = say("quotes", "again", "--rates", "dearer", "--as-of", "2026-11-28").out.splitlines()
    assert lines[0].startswith("Quotes made from 2026-10-01 to 2026-10-31, asked again on 2026-11-28")
    assert lines[-1] == "2 dearer, 0 cheaper, 0 as before."


def test_what_cannot_be_asked_again_is_told_and_stays_out_of_the_sums(say, here: Path) -> None:
    spot = ("--spot", "Tern Haulage, 700, until 2026-10-08, open")
    assert say("quote", "--vehicle", "HV-1042", "--to", "59715", "--as-of", "2026-10-05", "--save", *spot).status == 0
    assert (
        say("quote", "--vehicle", "HV-1027", "--to", "Bremen, Germany", "--as-of", "2026-10-05", "--save").status == 0
    )
    assert say("rates", "new", "home").status == 0
    for name in ("overseas.xlsx", "paperwork.xlsx"):
        (here / "home" / name).unlink()
    without_other_currencies(here / "home" / "trucking.xlsx")
    told = say("quotes", "again", "--rates", "home", "--as-of", "2026-11-28")
    assert told.status == 0, told.err
    assert "is reached by sea, and the rate book has no ports (overseas.xlsx)" in told.out
    assert "1 priced" in told.out
    assert "1 quote without a price today, not in the sums." in told.out
    assert "Q-2026-0001: its price in hand could not be asked again." in told.out


def test_a_month_without_quotes_is_said(say) -> None:
    said = "No kept quote was made from 2026-10-01 to 2026-10-31. --since and --until name other days.\n"
    assert say("quotes", "again", "--as-of", "2026-11-28").out == said


def raise_prices(workbook: Path) -> None:
    book = openpyxl.load_workbook(workbook)
    sheet = book["Per mile"]
    column = next(cell.column for cell in sheet[1] if str(cell.value).startswith("Rate"))
    for row in range(2, sheet.max_row + 1):
        if sheet.cell(row, column).value:
            sheet.cell(row, column).value = round(sheet.cell(row, column).value * 1.1, 4)
    book.save(workbook)


def without_other_currencies(workbook: Path) -> None:
    book = openpyxl.load_workbook(workbook)
    sheet = book["Carriers"]
    column = next(cell.column for cell in sheet[1] if cell.value == "Currency")
    for row in range(2, sheet.max_row + 1):
        sheet.cell(row, column).value = None
    book.save(workbook)
