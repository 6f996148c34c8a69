"""By which keys a place can be found in the sheet Lanes: figures of its ZIP, its city, state, country, yard, terminal or port."""

from collections.abc import Callable, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from shipcalc.money import Int64
from shipcalc.places.road.miles import PlaceColumns
from shipcalc.ratebook.lane_ends import (
    ANYWHERE,
    AT_PORT,
    AT_TERMINAL,
    AT_YARD,
    CITY,
    OF_COUNTRY,
    STATE,
    WITH_ZIPS,
    ZIP,
    named_terminal,
)

_ZIP_FIGURES = 5
_BEYOND_THE_ROADS = ("AK", "HI")


def keys_of(level: str, known: Mapping[str, object], places: PlaceColumns) -> tuple[Int64, list[str | None]]:
    """Return which of the known keys of a level each place (n,) has, as a position in the list beside it; None is none."""
    texts = _told(level, places)
    distinct, which = np.unique(texts, return_inverse=True)
    told = [text if text in known else None for text in distinct.tolist()]
    # Places without a known key are alike, or each ZIP would make a kind of its own.
    positions: dict[str | None, int] = {}
    at = np.array([positions.setdefault(text, len(positions)) for text in told], dtype=np.int64)
    return at[which.reshape(-1)], list(positions)


def _told(level: str, places: PlaceColumns) -> NDArray[np.str_]:
    """Return the key that each place has at a level, "" for none."""
    name, _, rest = level.partition(" ")
    if name == ZIP:
        state, _, figures = rest.rpartition(" ")
        held = np.isin(places.country, WITH_ZIPS) & _is_so_long(places.postal_code, _ZIP_FIGURES)
        if state:
            held &= _states(places) == state
        return np.where(held, places.postal_code.astype(f"U{figures}"), "")
    return _TOLD[level](places)


def _home(places: PlaceColumns) -> NDArray[np.str_]:
    at_home = (places.country == "US") & ~np.isin(places.subdivision, _BEYOND_THE_ROADS)
    return np.where(at_home, "", "abroad")


def _states(places: PlaceColumns) -> NDArray[np.str_]:
    # numpy's own functions for text are a module that takes 5 ms to import.
    return np.array([f"{country}-{state}" for country, state in zip(places.country, places.subdivision, strict=True)])


def _is_so_long(texts: NDArray[np.str_], length: int) -> NDArray[np.bool_]:
    """Return which texts have so many letters: they lose nothing when cut to them, and something when cut to one less."""
    same: NDArray[np.bool_] = (texts.astype(f"U{length}") == texts) & (texts.astype(f"U{length - 1}") != texts)
    return same


def _cities(places: PlaceColumns) -> NDArray[np.str_]:
    def told(name: str, country: str, state: str) -> str:
        return f"{name.casefold()}, {f'{country}-{state}' if state and country in ('US', 'CA') else country}"

    return _of_each(places, [told(place.name, place.country, place.subdivision) for place in places.places])


def _of_each(places: PlaceColumns, texts: Sequence[str]) -> NDArray[np.str_]:
    return np.array(texts or [""] * len(places.country), dtype=np.str_)


_TOLD: Mapping[str, Callable[[PlaceColumns], NDArray[np.str_]]] = {
    ANYWHERE: _home,
    OF_COUNTRY: lambda places: places.country,
    STATE: _states,
    CITY: _cities,
    AT_YARD: lambda places: _of_each(places, [place.yard.casefold() for place in places.places]),
    AT_TERMINAL: lambda places: _of_each(places, [named_terminal(place.terminal) for place in places.places]),
    AT_PORT: lambda places: _of_each(
        places, [place.found_by.removeprefix("UN/LOCODE ") if place.kind == "port" else "" for place in places.places]
    ),
}
