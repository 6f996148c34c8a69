"""Holds that a workbook cannot take away: destinations that the program itself refuses, and those that it ships as held.

A rate book may add holds, and release by a row of its own what is merely held; what is refused here is refused whatever it says.
Nothing here is legal advice.
"""

import tomllib
from collections.abc import Iterator
from datetime import date
from functools import cache

from shipcalc.places.outlines import Outline, is_inside, read_outline
from shipcalc.places.place import Place
from shipcalc.ratebook.workbook.typed import DATA
from shipcalc.records import dataclass

NO_ADVICE = "This is no legal advice: whoever is responsible for export compliance reads the rules anew"
WHERE = "the program's own list of embargoed destinations"
WHERE_HELD = "the program's own list of held destinations"


@dataclass(frozen=True, slots=True)
class Embargo:
    """A destination that is refused: a country, or places of it by name and outline.

    `read_on`: when its source was read; `office_note`: what of it was read, and what was not.
    """

    country: str
    names: tuple[str, ...]
    outline: Outline
    reason: str
    source: str
    office_note: str
    read_on: date | None

    def concerns(self, place: Place) -> bool:
        """Return whether a place is meant."""
        if place.country != self.country:
            return False
        if not self.names:
            return True
        named = {place.name.casefold(), place.subdivision.casefold()} & {name.casefold() for name in self.names}
        return bool(named) or is_inside(self.outline, latitude=place.latitude, longitude=place.longitude)


@dataclass(frozen=True, slots=True)
class ShippedHold:
    """A country that the program ships as to be released."""

    country: str
    reason: str
    source: str


@cache
def embargoes() -> tuple[Embargo, ...]:
    """Return what is refused whatever a workbook says."""
    return tuple(
        Embargo(
            country=row["country"],
            names=tuple(row.get("names", ())),
            outline=read_outline(row.get("outline", "")),
            reason=row["reason"],
            source=row["source"],
            office_note=row["office_note"],
            read_on=date.fromisoformat(row["read_on"]) if "read_on" in row else None,
        )
        for row in _rows("embargoed")
    )


@cache
def shipped_holds() -> tuple[ShippedHold, ...]:
    """Return the countries that are shipped as to be released, each once."""
    found = {row["country"]: ShippedHold(row["country"], row["reason"], row["source"]) for row in _rows("holds")}
    return tuple(found.values())


def embargo_on(place: Place) -> Embargo | None:
    """Return why a place is refused whatever a workbook says, if it is."""
    return next((embargo for embargo in embargoes() if embargo.concerns(place)), None)


def embargoed_countries() -> frozenset[str]:
    """Return the countries that are refused whole."""
    return frozenset(embargo.country for embargo in embargoes() if not embargo.names)


def hold_cells() -> Iterator[dict[str, str]]:
    """Yield the rows of the sheet Holds that say what is refused here, as a manager would type them."""
    for embargo in embargoes():
        for name in embargo.names or ("",):
            read_on = embargo.read_on.isoformat() if embargo.read_on else ""
            yield {
                "country": embargo.country,
                "subdivision": name,
                "hold": "refused",
                "reason": embargo.reason,
                "source": embargo.source,
                "trust": "partly read" if read_on else "memory",
                "office_note": embargo.office_note,
                "checked_on": read_on,
            }


def _rows(name: str) -> list[dict[str, str]]:
    found: list[dict[str, str]] = tomllib.loads((DATA / f"{name}.toml").read_text(encoding="utf-8"))["row"]
    return found
