"""Transports that single rows of Lanes ask for: by their carrier alone, between places at both of their ends, and beside them."""

from collections.abc import Iterator, Sequence

from shipcalc.compare.basket import SALOON, Asked, places_at_home, zip_place_of
from shipcalc.compare.trial import FAR, Trial, cities_of, places_in, taken_by
from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.place import Place
from shipcalc.places.sea.ports import find_port
from shipcalc.places.straight import great_circle_mi
from shipcalc.ratebook.lane_ends import (
    ANYWHERE,
    AT_PORT,
    AT_TERMINAL,
    AT_YARD,
    CITY,
    OF_COUNTRY,
    STATE,
    ZIP,
    Piece,
    areas_by_name,
    find_end,
    named_terminal,
)
from shipcalc.ratebook.rows.areas import Area
from shipcalc.ratebook.rows.lanes import LaneRow
from shipcalc.records import replace

_MOST_PIECES, _MOST_LANES = 10, 24


def of_lane(row: LaneRow, trial: Trial) -> Iterator[Asked]:
    """Yield transports over the row's lane, both ways, by each service of its carrier."""
    begins, ends = _places_at(row.from_end, trial, 0), _places_at(row.to_end, trial, -1)
    # Where a minimum counts.
    begins, ends = (
        (*begins, *(_beside(ends) if row.from_end is None else ())),
        (*ends, *(_beside(begins) if row.to_end is None else ())),
    )
    lanes = [(begin, end) for begin in begins for end in ends if begin != end][:_MOST_LANES]
    for carrier in trial.book.carriers:
        if carrier.carrier.casefold() != row.carrier.casefold():
            continue
        for ready in (*trial.days_valid(row), trial.day):
            for begin, end in lanes:
                for vehicle in (taken_by(carrier), SALOON):
                    yield trial.asked(end, vehicle, start=begin, ready=ready, by=carrier, how=f"from {begin.name}")
            for begin, end in (*lanes[:2], *lanes[-2:]):
                yield trial.asked(
                    begin, taken_by(carrier), start=end, ready=ready, by=carrier, how=f"back, from {end.name}"
                )


def _beside(places: Sequence[Place]) -> Iterator[Place]:
    """Yield the places of the spread that are nearest to some places."""
    for place in places[:2]:
        yield min(places_at_home(), key=lambda other: great_circle_mi(place, other))


def _places_at(text: str | None, trial: Trial, other: int) -> Sequence[Place]:
    """Return places at one end of a lane: of an area or a range in each of its pieces, of a yard the start beside it."""
    end = find_end(text, areas_by_name(trial.book.areas))
    pieces = end.pieces if end else ()
    return tuple(dict.fromkeys(place for piece in _spread(pieces) for place in _places_of(piece, trial, other)))


def _spread(pieces: Sequence[Piece]) -> Sequence[Piece]:
    """Return no more than a few pieces, the first and the last among them."""
    step = max(1, -(-len(pieces) // _MOST_PIECES))
    return (*pieces[::step], *pieces[-1:])


def _places_of(piece: Piece, trial: Trial, other: int) -> Iterator[Place]:
    level, told = piece
    if level == ANYWHERE:
        yield trial.starts[other] if len(trial.starts) > 1 else zip_place_of(FAR)
    elif level.startswith(ZIP):
        state = level.removeprefix(ZIP).strip().partition("-")[2] or None
        yield from places_in(Area(area="", zip_from=told, state=state), 2)
    elif level == STATE:
        country, _, state = told.partition("-")
        yield from places_in(Area(area="", country=country, state=state), 2)
    elif level == OF_COUNTRY:
        yield from (zip_place_of(FAR),) if told == "US" else cities_of(told)
    elif level == CITY:
        town, _, state = told.partition(", ")
        found = find_place(f"{town}, {state.partition('-')[2] or state}").place
        yield from () if found is None else (found,)
    elif level == AT_YARD:
        named = next((start for start in trial.starts if start.yard.casefold() == told), trial.starts[0])
        yield replace(named, yard=told)
    elif level == AT_TERMINAL:
        for row in trial.book.terminals:
            if named_terminal(row.terminal) == told:
                yield replace(zip_place_of(row.zip_code), terminal=row.terminal)
    else:
        assert level == AT_PORT, level
        port = find_port(told)
        yield from () if port is None else (port,)
