"""The public holidays of other countries, from the package `holidays`.

Its import takes longer than all else of a quote: what it said is kept in the user's cache folder, by the package's version.
"""

from collections.abc import Mapping
from datetime import date
from functools import cache
from importlib.util import find_spec
from pathlib import Path

from msgspec import json

from shipcalc.schedule.shut_days import shut_days
from shipcalc.sheets.keeping import find_kept_file, keep_file, kept_in

# Prices to every country ask for some 250 of them, over three years each.
MOST_FILES = 2_000


def foreign_holidays(country: str, year: int) -> Mapping[date, str]:
    """Return the days off of a country (ISO 3166-1 alpha-2) in a year with their names; empty where they are not known.

    Days on which offices are shut by custom are not kept with them: they are the program's own and change with it.
    """
    return {**shut_days(country, year), **_public(country, year)}


def _public(country: str, year: int) -> Mapping[date, str]:
    package = _package()
    file = _folder() / f"{package} {country} {year}.json"
    found = _read(file) if package else None
    if found is None:
        found = _asked(country, year)
        if package:
            keep_file(file, json.encode(found), most=MOST_FILES)
    return found


def _asked(country: str, year: int) -> dict[date, str]:
    import holidays

    try:
        found = holidays.country_holidays(country, years=year)
    except NotImplementedError:
        return {}
    return {day: name for day, name in found.items() if day.year == year}


def _read(file: Path) -> dict[date, str] | None:
    kept = find_kept_file(file)
    if kept is None:
        return None
    try:
        return json.decode(kept, type=dict[date, str])
    except ValueError:
        return None


@cache
def _package() -> str:
    """Return the package's name with its version, from what was installed beside it; empty where that does not tell."""
    package = find_spec("holidays")
    if package is None or package.origin is None:
        return ""
    told = [path.name for path in Path(package.origin).parents[1].glob("holidays-*.dist-info")]
    return told[0].removesuffix(".dist-info") if len(told) == 1 else ""


def _folder() -> Path:
    return kept_in("holidays")
