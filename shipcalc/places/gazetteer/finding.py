"""What came of looking for a place."""

from shipcalc.places.gazetteer.pages import City
from shipcalc.places.gazetteer.regions import country_name
from shipcalc.places.place import Place
from shipcalc.records import dataclass, replace

USUAL_WAYS = 'write a ZIP, "City, ST", "City, Country" or "latitude, longitude"'
MOST_MEANT = 3


@dataclass(frozen=True, slots=True)
class Finding:
    """The place, or None; the namesakes that were not taken, likeliest first; what may have been meant; what was assumed.

    `note` is a sentence: what was assumed where there is a place, why there is none where there is none; else "".
    `instead` says what to give where nothing else may have been meant; "" for any of the usual ways. `doubt` says why the place
    must be asked for before anything is priced ("" where it need not), and `suggestions` are then what it can be.
    """

    place: Place | None
    others: tuple[Place, ...] = ()
    suggestions: tuple[str, ...] = ()
    note: str = ""
    instead: str = ""
    doubt: str = ""

    @property
    def remedy(self) -> str:
        """The one way out where there is no place: what may have been meant, or else what to give instead."""
        meant = " or ".join(f"“{suggestion}”" for suggestion in self.suggestions[:MOST_MEANT])
        return f"did you mean {meant}?" if meant else self.instead or USUAL_WAYS

    def with_note(self, note: str) -> "Finding":
        """Return the same finding with one more sentence in its note."""
        return replace(self, note=f"{self.note} {note}".strip())


def not_found(note: str, *suggestions: str, instead: str = "") -> Finding:
    """Return that there is no place, with the reason and what may have been meant, or what to give instead."""
    return Finding(place=None, suggestions=suggestions, note=note, instead=instead)


def place_of_city(city: City, found_by: str, *, postal_code: str | None = None) -> Place:
    """Return a city as a place; its ZIP is the one that stands for it unless another is given."""
    return Place(
        name=city.name,
        kind="city",
        country=city.country,
        subdivision=city.subdivision,
        postal_code=city.postal_code if postal_code is None else postal_code,
        latitude=city.latitude,
        longitude=city.longitude,
        found_by=found_by,
    )


def written(name: str, country: str, subdivision: str) -> str:
    """Return a place as one writes it, and as it can be typed: "Portland, OR", "Victoria, BC", "Munich, Germany"."""
    return f"{name}, {subdivision if country in ('US', 'CA') and subdivision else country_name(country)}"
