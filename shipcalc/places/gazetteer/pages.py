"""The printed gazetteer's way: names in order on pages, and an index of the first name of each page.

`data/gazetteer.sqlite` is a read-only file of compressed pages of tab-separated lines, made by `build_gazetteer.py`:

    cities         key, name ("" = the key with capitals), country, subdivision, latitude, longitude, population, ZIP
    other_names    key, numbers of the cities (a city's number is its line, counted over all pages)
    postal_codes   code, city, state, latitude, longitude, kind (Standard, PO box, Unique, Military), in use (1 or 0)
    around         for each box of two degrees: (number, latitude, longitude in hundredths of a degree) packed
    well_known     one page: key, country, subdivision of places worth a suggestion, largest first
    countries      alpha-2, alpha-3, name, continent

A lookup unpacks one or two pages, so that a cold program answers as quickly as a warm one. Origin: `data/ORIGIN.md`.
"""

import math
import sqlite3
import struct
import zlib
from bisect import bisect_right
from collections.abc import Iterator
from contextlib import closing
from functools import cache, lru_cache
from pathlib import Path, PurePath
from typing import TYPE_CHECKING, Literal, NamedTuple
from urllib.parse import quote

from shipcalc.records import dataclass, fields

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

DATA = Path(__file__).parents[1] / "data"
FILE = DATA / "gazetteer.sqlite"
Table = Literal["cities", "other_names", "postal_codes"]
MILES_PER_DEGREE = 69.093  # of a sphere of 6371.009 km; only to say which town is nearest
CELL_DEGREES = 2


class City(NamedTuple):
    """A populated place. `population` 0: fewer than 1,000 people; `postal_code` the ZIP nearest to its middle, US only."""

    key: str
    name: str
    country: str
    subdivision: str
    latitude: float
    longitude: float
    population: int
    postal_code: str


class PostalCode(NamedTuple):
    """A US ZIP. Latitude and longitude are None for post offices abroad and for a few that are no place."""

    code: str
    city: str
    state: str
    latitude: float | None
    longitude: float | None
    kind: str
    in_use: bool


class Country(NamedTuple):
    """A country of ISO 3166-1 (and XK, Kosovo)."""

    code: str
    alpha3: str
    name: str
    continent: str


@dataclass(frozen=True, slots=True)
class PostalCodes:
    """All US ZIPs that have coordinates, as columns of one length in the order of the codes.

    `state` is the two letters of the post (PR for Puerto Rico, as in `Place.country`).
    """

    codes: "NDArray[np.str_]"
    latitude: "NDArray[np.float64]"
    longitude: "NDArray[np.float64]"
    state: "NDArray[np.str_]"
    city: "NDArray[np.str_]"
    kind: "NDArray[np.str_]"
    in_use: "NDArray[np.bool_]"


def postal_code(code: str) -> PostalCode | None:
    """Return a US ZIP by its five digits, or None."""
    return next((_postal_code(line) for line in _lines(_page("postal_codes", code), code)), None)


def postal_codes_near(code: str) -> tuple[PostalCode, ...]:
    """Return the ZIPs that stand just before and after a code that is not in the list."""
    lines = _page("postal_codes", code).split("\n")
    after = next((i for i, line in enumerate(lines) if line[:5] > code), len(lines))
    return tuple(_postal_code(line) for line in lines[max(0, after - 2) : after + 2] if line)


def cities_named(key: str) -> tuple[tuple[City, ...], tuple[City, ...]]:
    """Return the cities of that name, largest first, and then those that have it as another name."""
    named = tuple(_city(line) for line in _lines(_page("cities", key), key))
    also_named = _lines(_page("other_names", key), key)
    numbers = [int(n) for line in also_named for n in line.partition("\t")[2].split(" ")]
    also = sorted((city_numbered(n) for n in numbers), key=lambda city: -city.population)
    return named, tuple(also)


def city_numbered(number: int) -> City:
    """Return a city by its number."""
    firsts = _index("cities").firsts
    first = firsts[bisect_right(firsts, number) - 1]
    return _city(_lines_from("cities", first)[number - first])


def nearest_city(*, latitude: float, longitude: float, within_mi: float) -> tuple[City, float] | None:
    """Return the city nearest to a point and its distance in miles, or None where there is none within the distance."""
    best_mi, best = within_mi, -1
    shrink = math.cos(math.radians(latitude))
    for number, city_latitude, city_longitude in _cities_around(latitude, longitude, within_mi):
        east = (city_longitude - longitude + 180) % 360 - 180
        away_mi = math.hypot(city_latitude - latitude, east * shrink) * MILES_PER_DEGREE
        if away_mi < best_mi:
            best_mi, best = away_mi, number
    return (city_numbered(best), best_mi) if best >= 0 else None


def cell(latitude: float, longitude: float) -> int:
    """Return the number of the box that a point lies in, counted from the south pole and the date line."""
    row = min(int((latitude + 90) // CELL_DEGREES), 180 // CELL_DEGREES - 1)
    return row * 1000 + int(((longitude + 180) % 360) // CELL_DEGREES)


def pack_box(cities: list[tuple[int, float, float]]) -> bytes:
    """Return (number, latitude, longitude) of cities as three columns: steps between numbers, hundredths of a degree."""
    numbers = [number for number, _, _ in cities]
    steps = (number - before for number, before in zip(numbers, [0, *numbers], strict=False))
    north, east = ([round(city[i] * 100) for city in cities] for i in (1, 2))
    return struct.pack(f"<{len(cities)}I{2 * len(cities)}h", *steps, *north, *east)


def unpack_box(content: bytes) -> Iterator[tuple[int, float, float]]:
    """Yield what `pack_box` packed."""
    count = len(content) // 8
    columns = struct.unpack(f"<{count}I{2 * count}h", content)
    places = zip(columns[:count], columns[count : 2 * count], columns[2 * count :], strict=True)
    number = 0
    for step, north, east in places:
        number += step
        yield number, north / 100, east / 100


@cache
def countries() -> dict[str, Country]:
    """Return all countries by alpha-2."""
    with closing(_open()) as file:
        return {row[0]: Country(*row) for row in file.execute("SELECT * FROM countries")}


@lru_cache(maxsize=8)
def names_beginning(letter: str) -> tuple[tuple[str, str, str], ...]:
    """Return (key, country, subdivision) of all places that begin with the letter, in order."""
    index = _index("cities")
    start, end = (bisect_right(index.first_keys, key) for key in (letter, chr(ord(letter) + 1)))
    pages = (_page_from("cities", first) for first in index.firsts[max(0, start - 1) : end])
    lines = (line.split("\t", 4) for page in pages for line in page.split("\n"))
    return tuple((line[0], line[2], line[3]) for line in lines if line[0].startswith(letter))


@cache
def well_known_names() -> tuple[tuple[str, str, str], ...]:
    """Return (key, country, subdivision) of the places large enough to be suggested for any misspelling, largest first."""
    with closing(_open()) as file:
        page = zlib.decompress(file.execute("SELECT page FROM well_known").fetchone()[0]).decode()
    lines = (line.split("\t") for line in page.split("\n"))
    return tuple((key, country, subdivision) for key, country, subdivision in lines)


@cache
def all_postal_codes() -> PostalCodes:
    """Return every US ZIP with coordinates as columns (read-only)."""
    import numpy as np

    with closing(_open()) as file:
        pages = [
            zlib.decompress(row[0]).decode() for row in file.execute("SELECT page FROM postal_codes ORDER BY first")
        ]
    lines = [line.split("\t") for page in pages for line in page.split("\n")]
    placed = [line for line in lines if line[3]]
    columns = PostalCodes(
        codes=np.array([line[0] for line in placed]),
        latitude=np.array([float(line[3]) for line in placed]),
        longitude=np.array([float(line[4]) for line in placed]),
        state=np.array([line[2] for line in placed]),
        city=np.array([line[1] for line in placed]),
        kind=np.array([line[5] for line in placed]),
        in_use=np.array([line[6] == "1" for line in placed]),
    )
    for field in fields(columns):
        getattr(columns, field.name).flags.writeable = False
    return columns


@cache
def largest_cities() -> tuple[City, ...]:
    """Return the largest city of every subdivision of every country, by country and subdivision."""
    with closing(_open()) as file:
        pages = [zlib.decompress(row[0]).decode() for row in file.execute("SELECT page FROM cities ORDER BY first")]
    largest: dict[tuple[str, str], tuple[int, str]] = {}
    for line in (line for page in pages for line in page.split("\n")):
        parts = line.split("\t")
        where, population = (parts[2], parts[3]), int(parts[6] or 0)
        if population > largest.get(where, (0, ""))[0]:
            largest[where] = (population, line)
    return tuple(_city(largest[where][1]) for where in sorted(largest))


def _open() -> sqlite3.Connection:
    """Return the file, opened as one that nobody will change: no lock, no journal."""
    return sqlite3.connect(f"{sqlite_uri(FILE)}?mode=ro&immutable=1", uri=True)


def sqlite_uri(file: PurePath) -> str:
    """Return a file as SQLite wants it named; on a network share of Windows the server is a part of the path.

    `Path.as_uri` makes it the authority, `file://server/…`, which SQLite refuses (sqlite.org/uri.html, 3.1).
    """
    path = file.as_posix()
    return f"file://{'' if path.startswith('/') else '/'}{quote(path, safe='/:')}"


class Index(NamedTuple):
    """The first line of every page of a table: its number, and its key, both rising."""

    firsts: tuple[int, ...]
    first_keys: tuple[str, ...]


@cache
def _index(table: Table) -> Index:
    """Return the index of a table of pages."""
    with closing(_open()) as file:
        rows = file.execute(f"SELECT first, first_key FROM {table} ORDER BY first").fetchall()  # noqa: S608
    return Index(tuple(first for first, _ in rows), tuple(key for _, key in rows))


def _page(table: Table, key: str) -> str:
    """Return the page on which a key stands, if it stands anywhere; "" before the first page."""
    index = _index(table)
    position = bisect_right(index.first_keys, key) - 1
    return _page_from(table, index.firsts[position]) if position >= 0 else ""


@lru_cache(maxsize=512)
def _page_from(table: Table, first: int) -> str:
    """Return the page that begins with the line of that number."""
    with closing(_open()) as file:
        row = file.execute(f"SELECT page FROM {table} WHERE first = ?", (first,)).fetchone()  # noqa: S608
    return zlib.decompress(row[0]).decode()


@lru_cache(maxsize=128)
def _lines_from(table: Table, first: int) -> list[str]:
    """Return the page that begins with the line of that number, line by line."""
    return _page_from(table, first).split("\n")


def _cities_around(latitude: float, longitude: float, within_mi: float) -> Iterator[tuple[int, float, float]]:
    """Yield (number, latitude, longitude) of the cities in the boxes that the distance can reach into."""
    north = within_mi / MILES_PER_DEGREE
    east = min(180.0, north / max(0.02, math.cos(math.radians(min(89.0, abs(latitude) + north)))))
    rows = range(cell(max(-90.0, latitude - north), 0) // 1000, cell(min(90.0, latitude + north), 0) // 1000 + 1)
    columns = 360 // CELL_DEGREES
    first, last = (
        math.floor((longitude + 180 - east) / CELL_DEGREES),
        math.floor((longitude + 180 + east) / CELL_DEGREES),
    )
    cells = {row * 1000 + column % columns for row in rows for column in range(first, last + 1)}
    marks = ",".join("?" * len(cells))
    with closing(_open()) as file:
        packed = file.execute(f"SELECT page FROM around WHERE cell IN ({marks})", sorted(cells)).fetchall()  # noqa: S608
    for (page,) in packed:
        yield from unpack_box(zlib.decompress(page))


def _lines(page: str, key: str) -> Iterator[str]:
    """Yield the lines of a page that begin with the key as their first field."""
    start = 0 if page.startswith(f"{key}\t") else page.find(f"\n{key}\t") + 1
    if not page.startswith(f"{key}\t", start):
        return
    for line in page[start:].split("\n"):
        if not line.startswith(f"{key}\t"):
            return
        yield line


def _city(line: str) -> City:
    """Return a city from its line."""
    key, name, country, subdivision, latitude, longitude, population, code = line.split("\t")
    return City(
        key, name or key.title(), country, subdivision, float(latitude), float(longitude), int(population), code
    )


def _postal_code(line: str) -> PostalCode:
    """Return a ZIP from its line."""
    code, city, state, latitude, longitude, kind, in_use = line.split("\t")
    north, east = (float(latitude), float(longitude)) if latitude else (None, None)
    return PostalCode(code, city, state, north, east, kind, in_use == "1")
