"""Days far away and clocks that are wrong. Found on 28 November 2026: a listed sailing two years off ended quotes in an assertion."""

import shutil
from datetime import date, timedelta
from pathlib import Path

import numpy as np
import openpyxl
import pytest

from shipcalc.actions.sources import invented_folder
from shipcalc.schedule.voyage import Sailings, plus_working_days_columns, sails_on
from shipcalc.schedule.working_days import OFFICE, plus_working_days
from tests.hard_use.conftest import assert_told

VEHICLE = ("--vehicle", "HV-1153")


@pytest.mark.parametrize("day", ["0001-01-01", "1970-01-01", "9998-12-31", "9999-12-31"])
@pytest.mark.parametrize("option", ["--as-of", "--ready", "--by", "--sailing", "--keep-until"])
@pytest.mark.fault("a clock that is wrong", tried="--as-of and every other day of a quote in years 1, 1970 and 9999", outcome="a sentence with the years that can be meant, exit status 2")  # fmt: skip
def test_a_year_in_which_nobody_plans_is_told(say, option: str, day: str) -> None:
    assert_told(say("quote", *VEHICLE, "--to", "Bremen", option, day), option, "cannot be meant", "2000 to 2099")


@pytest.mark.parametrize("words", [("checklist", "quote.json", "--accepted"), ("lanes", "--to", "states", "--out", "x.csv", "--ready"), ("rates", "check", "--as-of"), ("quotes", "list", "--as-of"), ("today", "--as-of")])  # fmt: skip
def test_every_command_that_takes_a_day_says_so(say, words: tuple[str, ...]) -> None:
    assert_told(say(*words, "9999-12-31"), "the year 9999 cannot be meant")


@pytest.mark.parametrize("day", ["2000-01-01", "2012-02-29", "2024-06-01", "2036-02-29", "2099-12-31"])
@pytest.mark.parametrize("to", ["53703", "Bremen, Germany", "Yokohama, Japan"])
def test_a_quote_of_any_year_is_a_price_or_a_no(say, day: str, to: str) -> None:
    said = say("quote", *VEHICLE, "--to", to, "--as-of", day)
    assert said.status in (0, 1), said.err
    assert "mistake in shipcalc itself" not in said.err


def listed(folder: Path, days: str) -> None:
    """Have every service sail on listed days alone."""
    book = openpyxl.load_workbook(folder / "overseas.xlsx")
    page = book["Ocean"]
    column = next(cell.column for cell in page[1] if str(cell.value).startswith("Listed sailings"))
    for row in range(2, page.max_row + 1):
        if page.cell(row, 1).value:
            page.cell(row, column).value = days
    book.save(folder / "overseas.xlsx")


def test_a_listed_sailing_years_off_is_not_planned_and_the_check_says_so(say, here: Path) -> None:
    shutil.copytree(invented_folder("rates"), here / "rates")
    listed(here / "rates", "2027-01-05; 2029-01-05")
    said = say("quote", *VEHICLE, "--to", "Bremen", "--rates", "rates", "--as-of", "2026-12-01")
    assert said.status == 0, said.err
    assert "2029" not in said.out
    checked = say("rates", "check", "rates", "--as-of", "2026-12-01", "--full")
    assert "the listed sailings of 2027-01-05 and 2029-01-05 are more than a year apart" in checked.out
    late = say("quote", *VEHICLE, "--to", "Bremen", "--rates", "rates", "--as-of", "2027-02-01")
    assert (late.status, "mistake" in late.err) == (1, False), late.err


def test_a_list_counts_for_so_long_and_no_longer() -> None:
    ship = Sailings(first=date(2026, 1, 1), every_days=14, listed=(date(2027, 1, 5), date(2029, 1, 5)))
    assert sails_on(ship, date(2027, 1, 5))
    assert sails_on(ship, date(2029, 1, 5))  # whoever asks for that day finds it
    from shipcalc.schedule.voyage import _sailing_days

    assert _sailing_days(ship, date(2026, 12, 1)) == [date(2027, 1, 5)]
    assert _sailing_days(ship, date(2028, 11, 1)) == [date(2029, 1, 5)]


def test_working_days_of_far_arrivals_are_those_of_the_calendar() -> None:
    """Held to the slow count of `plus_working_days`, over all that a listed sailing, a voyage and a release can span."""
    calendar = OFFICE
    days = np.array([date(2026, 12, 1).toordinal() + n for n in range(0, 700, 7)], dtype=np.int64)
    told = plus_working_days_columns(days, 10, calendar)
    assert [date.fromordinal(int(day)) for day in told] == [
        plus_working_days(date.fromordinal(int(day)), 10, calendar) for day in days
    ]
    assert date.fromordinal(int(told[-1])) - date(2026, 12, 1) > timedelta(days=690)
