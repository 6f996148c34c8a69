"""Place: what the program understands by a text, and its namesakes."""

from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput
from shipcalc.settings import Settings

if TYPE_CHECKING:
    from shipcalc.places.gazetteer.finding import Finding


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


def destination(text: str, *, online: bool, settings: Settings) -> "Finding":
    """Return the place that a quote goes to, looked up by its street address where `online`. Raises WrongInput for none."""
    from shipcalc.places.gazetteer.find import get_place

    return _looked_up(text, settings) if online else get_place(text)


def _looked_up(text: str, settings: Settings) -> "Finding":
    from shipcalc.places.gazetteer.address import PUBLIC_ENDPOINT, look_up_address

    return look_up_address(text, endpoint=settings.geocoder or PUBLIC_ENDPOINT)
