"""Holidays that are kept: the same as the package says, whatever has become of the files."""

import subprocess
import sys
from datetime import date

import holidays
import pytest

from shipcalc.schedule import foreign_holidays as kept

YEARS = range(2026, 2029)


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setattr(kept, "_folder", lambda: tmp_path / "holidays")
    return tmp_path / "holidays"


@pytest.mark.parametrize("country", ["DE", "JP", "AE", "CA"])
def test_what_is_kept_is_what_the_package_says(folder, country: str) -> None:
    for year in YEARS:
        said = dict(holidays.country_holidays(country, years=year))
        assert kept.foreign_holidays(country, year) == {day: name for day, name in said.items() if day.year == year}
        assert kept.foreign_holidays(country, year) == kept._read(folder / f"{kept._package()} {country} {year}.json")


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
