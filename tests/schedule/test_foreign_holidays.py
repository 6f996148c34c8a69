"""Holidays that are kept: the same as the package says, whatever has become of the files."""

import subprocess
import sys
from datetime import date

import holidays
import pytest

from shipcalc.schedule import foreign_holidays as kept
from shipcalc.schedule.shut_days import SHUT, shut_days
from shipcalc.schedule.working_days import Calendar, plus_working_days

YEARS = range(2026, 2029)


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setattr(kept, "_folder", lambda: tmp_path / "holidays")
    return tmp_path / "holidays"


@pytest.mark.parametrize("country", ["DE", "JP", "AE", "CA"])
def test_what_is_kept_is_what_the_package_says(folder, country: str) -> None:
    for year in YEARS:
        said = dict(holidays.country_holidays(country, years=year))
        public = {day: name for day, name in said.items() if day.year == year}
        assert kept.foreign_holidays(country, year) == {**shut_days(country, year), **public}
        assert public == kept._read(folder / f"{kept._package()} {country} {year}.json")


def test_what_the_program_itself_adds_is_never_kept(folder, monkeypatch) -> None:
    """A rule that is corrected must not wait for a new package, or for the files to be thrown away."""
    assert date(2026, 12, 29) in kept.foreign_holidays("JP", 2026)
    monkeypatch.setattr(kept, "shut_days", lambda country, year: {})
    assert date(2026, 12, 29) not in kept.foreign_holidays("JP", 2026)


def test_a_country_without_known_holidays_is_kept_as_such(folder) -> None:
    assert kept.foreign_holidays("XX", 2026) == {}
    assert [file.name for file in folder.iterdir()] == [f"holidays-{holidays.__version__} XX 2026.json"]
    assert kept.foreign_holidays("XX", 2026) == {}


@pytest.mark.parametrize("content", [b"", b"[]", b'{"2026-13-01": "x"}', b'{"2026-10-03"', b"\xff"])
def test_a_spoilt_file_is_as_none(folder, content: bytes) -> None:
    said = kept.foreign_holidays("DE", 2026)
    (file,) = folder.iterdir()
    file.write_bytes(content)
    assert kept.foreign_holidays("DE", 2026) == said
    assert date(2026, 10, 3) in said
    assert file.read_bytes() != content


def test_what_another_version_said_is_not_asked(folder, monkeypatch) -> None:
    monkeypatch.setattr(kept, "_package", lambda: "holidays-0.1")
    folder.mkdir()
    (folder / f"holidays-{holidays.__version__} DE 2026.json").write_text('{"2026-02-29": "no day"}')
    assert date(2026, 10, 3) in kept.foreign_holidays("DE", 2026)


def test_the_package_is_not_imported_for_what_is_kept(folder) -> None:
    kept.foreign_holidays("DE", 2026)
    told = (
        "import sys; from pathlib import Path; from shipcalc.schedule import foreign_holidays as kept; "
        f"kept._folder = lambda: Path({str(folder)!r}); "
        "print(len(kept.foreign_holidays('DE', 2026)), 'holidays' in sys.modules)"
    )
    said = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True).stdout
    assert said.split() == [str(len(kept.foreign_holidays("DE", 2026))), "False"]


def test_japanese_offices_are_shut_at_the_turn_of_the_year():
    """Act on Holidays of Administrative Organs (Act 91 of 1988), article 1 (1) (iii), read as the House of Representatives
    publishes it: the days from 29 December to 3 January of the next year.
    """
    days = [*shut_days("JP", 2026), *shut_days("JP", 2027)]
    turn = [day for day in days if date(2026, 12, 1) < day < date(2027, 2, 1)]
    assert sorted(turn) == [date(2026, 12, 29), date(2026, 12, 30), date(2026, 12, 31),
                            date(2027, 1, 1), date(2027, 1, 2), date(2027, 1, 3)]  # fmt: skip
    assert date(2027, 1, 4) not in days


def test_three_working_days_in_japan_over_the_year_end():
    # Cleared from Friday 25 December 2026: Monday 28 December is the first, then Monday 4 and Tuesday 5 January.
    yard = Calendar(weekdays=frozenset(range(5)), country="JP")
    assert plus_working_days(date(2026, 12, 25), 3, yard) == date(2027, 1, 5)


@pytest.mark.parametrize(
    ("year", "eve"),
    [(2026, date(2026, 6, 19)), (2027, date(2027, 6, 25)), (2028, date(2028, 6, 23))],
)
def test_the_eve_of_midsummer_is_the_friday_before_the_saturday_from_20_to_26_june(year, eve):
    """lag (1989:253) § 2 for the Saturday; that package's own list of such days is asked as well."""
    assert eve in shut_days("SE", year)
    assert eve in holidays.country_holidays("SE", years=year, categories=("de_facto",))


def test_each_custom_says_where_it_stands():
    assert all(row.source and (row.days or row.rule) for row in SHUT)
