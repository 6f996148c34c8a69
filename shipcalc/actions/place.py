"""Place: what the program understands by a text, and its namesakes."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput
from shipcalc.records import dataclass
from shipcalc.settings import Settings

if TYPE_CHECKING:
    from shipcalc.places.gazetteer.finding import Finding
    from shipcalc.places.place import Place

MOST_OFFERED = 8


@dataclass(frozen=True, slots=True)
class Offered:
    """A place that may be meant: the text that means it and no other, its name, where it is, how many people live there.

    `people` is 0 where that is not known, or fewer than a thousand.
    """

    text: str
    name: str
    where: str
    people: int


def understand_place(text: str, *, settings: Settings | None = None) -> "Finding":
    """Return what a text is taken as; with `settings` it is a street address that their geocoder is asked for, online.

    Raises WrongInput where there is no text at all or no such address, NoAnswer where the geocoder cannot be asked.
    """
    from shipcalc.places.gazetteer.find import find_place

    if not text.strip():
        raise WrongInput(
            "no place was given", remedy='write a ZIP, "City, ST", "City, Country" or "latitude, longitude"'
        )
    return find_place(text) if settings is None else _looked_up(text, settings)


def offered_places(text: str) -> tuple[Offered, ...]:
    """Return the places that a text may mean, likeliest first, each by a text that needs no further question; none for none."""
    from shipcalc.places.gazetteer.find import find_place

    finding = find_place(text)
    sure = finding.place is not None and not finding.doubt
    meant = [finding.place] if sure else [find_place(one).place for one in finding.suggestions]
    offered: dict[str, Offered] = {}
    for place in (*meant, *finding.others):
        named = next(_names_of(place), "") if place is not None else ""
        if place is not None and named and named not in offered:
            name = f"{place.name} {place.postal_code}" if place.kind == "postal code" else place.name
            offered[named] = Offered(named, name, _region(place), _people(place))
    return tuple(offered.values())[:MOST_OFFERED]


def name_of(place: "Place") -> str:
    """Return a text that means a place and no other; its latitude and longitude where no name does."""
    return next(_names_of(place), f"{place.latitude}, {place.longitude}")


def _names_of(place: "Place") -> Iterator[str]:
    """Yield the names of a place that mean it beyond doubt: its ZIP, "City, ST", "City, Country"."""
    from shipcalc.places.gazetteer.find import find_place
    from shipcalc.places.gazetteer.finding import written

    name = written(place.name, place.country, place.subdivision)
    by_zip = (f"{name} {place.postal_code}", place.postal_code) if place.postal_code else ()
    names = (*by_zip, name) if place.kind == "postal code" else (name, *by_zip)
    for one in names:
        found = find_place(one)
        same = found.place is not None and (found.place.latitude, found.place.longitude) == (
            place.latitude,
            place.longitude,
        )
        if same and not found.doubt:
            yield one


def _region(place: "Place") -> str:
    """Return the state or province and the country in full: `Oregon, United States`."""
    from shipcalc.places.gazetteer.regions import country_name, region_name

    region = region_name(place.country, place.subdivision) if place.subdivision else ""
    country = country_name(place.country)
    return f"{region}, {country}" if region and region not in (place.subdivision, country) else country


def _people(place: "Place") -> int:
    from shipcalc.places.gazetteer.pages import cities_named
    from shipcalc.places.gazetteer.spelling import spelling_key

    spot = (place.latitude, place.longitude)
    alike = (city for cities in cities_named(spelling_key(place.name)) for city in cities)
    return next((city.population for city in alike if (city.latitude, city.longitude) == spot), 0)


def destination(text: str, *, online: bool, settings: Settings) -> "Finding":
    """Return the place that a quote goes to, looked up by its street address where `online`. Raises WrongInput for none."""
    from shipcalc.places.gazetteer.find import get_place

    return _looked_up(text, settings) if online else get_place(text)


def _looked_up(text: str, settings: Settings) -> "Finding":
    from shipcalc.places.gazetteer.address import PUBLIC_ENDPOINT, look_up_address

    return look_up_address(text, endpoint=settings.geocoder or PUBLIC_ENDPOINT)
