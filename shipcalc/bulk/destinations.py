"""Where everything is to be priced to: all ZIPs, a city of every state or country, ports, or a list of one's own."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path

from shipcalc.errors import FaultyWorkbook, Problem, WrongInput, asked
from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.gazetteer.finding import written
from shipcalc.places.gazetteer.pages import all_postal_codes, largest_cities
from shipcalc.places.gazetteer.regions import US_STATES, US_TERRITORIES, country_name
from shipcalc.places.place import Place
from shipcalc.quote.network.territory import is_home
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass

MILITARY = "M"
HEADERS = ("place", "city", "zip", "destination", "to")


@dataclass(frozen=True, slots=True)
class Destinations:
    """Places by what they are called in the table, each by another name: "59715", "MT", "DE", "Bozeman, MT".

    `labels` are the places as one writes them; ZIPs of one town share theirs.
    """

    kind: str
    names: tuple[str, ...]
    places: tuple[Place, ...]
    labels: tuple[str, ...]

    def __len__(self) -> int:
        return len(self.names)


def find_destinations(kind: str, file: Path | None, book: RateBook) -> Destinations:
    """Return the destinations of a kind. Raises WrongInput for a kind that there is not, and for a list that cannot be used."""
    if (kind == "cities") != (file is not None):
        raise WrongInput(
            "needs a file with the places" if kind == "cities" else f"{file} is of use only with {asked('to')} cities",
            where=f"{asked('to')} {kind}",
            remedy=f"say {asked('to')} cities FILE",
        )
    if file is not None:
        return _listed(file)
    if kind not in KINDS:
        raise WrongInput(
            f'"{kind}" is not a destination',
            where=asked("to"),
            remedy=f"say one of {', '.join(KINDS)} or cities FILE",
        )
    return KINDS[kind](book)


def _zips(_: RateBook) -> Destinations:
    """Return every ZIP in use that has a place on the map, but those of the forces abroad."""
    codes = all_postal_codes()
    columns = (codes.codes, codes.city, codes.state, codes.latitude, codes.longitude, codes.kind, codes.in_use)
    rows = zip(*(column.tolist() for column in columns), strict=True)
    places = {
        code: Place(
            name=city,
            kind="postal code",
            country=state if state in US_TERRITORIES else "US",
            subdivision="" if state in US_TERRITORIES else state,
            postal_code=code,
            latitude=latitude,
            longitude=longitude,
            found_by=f"ZIP {code}",
        )
        for code, city, state, latitude, longitude, kind, in_use in rows
        if in_use and not kind.startswith(MILITARY)
    }
    return _of("zips", places.items())


def _states(_: RateBook) -> Destinations:
    """Return the largest city of every state and of the District of Columbia."""
    largest = largest_cities()
    cities = {(city.country, city.subdivision): city for city in largest}
    named = ((state, cities["US", state]) for state in sorted(US_STATES))
    return _of("states", ((state, _understood(f"{city.name}, {state}")) for state, city in named))


def _countries(_: RateBook) -> Destinations:
    """Return the largest city of every country but the United States."""
    by_country: dict[str, tuple[int, Place]] = {}
    for city in largest_cities():
        if city.country == "US" or city.population <= by_country.get(city.country, (-1, None))[0]:
            continue
        place = Place(
            name=city.name,
            kind="city",
            country=city.country,
            subdivision=city.subdivision,
            latitude=city.latitude,
            longitude=city.longitude,
            found_by=f"largest city of {country_name(city.country)}",
        )
        by_country[city.country] = (city.population, place)
    return _of("countries", ((code, by_country[code][1]) for code in sorted(by_country)))


def _ports(book: RateBook) -> Destinations:
    """Return the sea ports of the rate book."""
    from shipcalc.quote.network.ports import port_place

    if not book.ports:
        raise WrongInput(
            "the rate book has no ports",
            where=f"{asked('to')} ports",
            remedy="fill in the sheet Ports of overseas.xlsx",
        )
    return _of("ports", _home_first(sorted((row.port, port_place(row)) for row in book.ports)))


KINDS: Mapping[str, Callable[[RateBook], Destinations]] = {
    "zips": _zips,
    "states": _states,
    "ports": _ports,
    "countries": _countries,
}


def _home_first(named: Iterable[tuple[str, Place]]) -> list[tuple[str, Place]]:
    """Return the places on the home roads before those beyond: what is priced alike is priced at once."""
    return sorted(named, key=lambda one: not is_home(one[1].country, one[1].subdivision))


def _of(kind: str, named: Iterable[tuple[str, Place]]) -> Destinations:
    pairs = tuple(named)
    labels = (written(place.name, place.country, place.subdivision) for _, place in pairs)
    return Destinations(kind, tuple(name for name, _ in pairs), tuple(place for _, place in pairs), tuple(labels))


def _listed(file: Path) -> Destinations:
    """Return the places of a list: the column that is headed as one of HEADERS, else the first; each place once.

    Raises FaultyWorkbook with every cell that is not a place.
    """
    from shipcalc.sheets.reading import read_workbook

    sheet = next((sheet for sheet in read_workbook(file).sheets if not sheet.hidden), None)
    rows = list(sheet.filled_rows()) if sheet is not None else []
    places: dict[str, Place] = {}
    problems = []
    column, begin = _column_of(rows)
    for number, row in rows[begin:]:
        assert sheet is not None, "rows come from a sheet"
        text = _text_of(row[column]) if column < len(row) else ""
        found = find_place(text) if text else None
        if found is None:
            continue
        if found.place is None:
            problems.append(Problem(sheet.cell(number, column), found.note.rstrip("."), found.remedy))
        else:
            places.setdefault(text, found.place)
    if problems:
        raise FaultyWorkbook(
            f"{len(problems)} of its places cannot be used",
            tuple(problems),
            where=file.name,
            remedy="correct these cells",
        )
    if not places:
        raise WrongInput("has no places", where=file.name, remedy="write one a row, in a column headed Place")
    return _of("cities", _home_first(places.items()))


def _column_of(rows: Sequence[tuple[int, tuple[object, ...]]]) -> tuple[int, int]:
    """Return the column of the places and the row that they begin in: below a header, where the first row has one."""
    if not rows:
        return 0, 0
    headers = [str(value or "").strip().casefold() for value in rows[0][1]]
    known = [column for column, header in enumerate(headers) if header in HEADERS]
    return (known[0], 1) if known else (0, 0)


def _text_of(value: object) -> str:
    """Return a cell as somebody would type it: a ZIP that a spreadsheet took for a number gets its zeros back."""
    if isinstance(value, float) and value.is_integer():
        value = int(value)
    return f"{value:05d}" if isinstance(value, int) else str(value or "").strip()


def _understood(text: str) -> Place:
    place = find_place(text).place
    assert place is not None, f"the gazetteer knows its own city {text}"
    return place
