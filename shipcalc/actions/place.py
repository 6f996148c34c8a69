"""Place: what the program understands by a text, and its namesakes."""

from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from shipcalc.places.find import Finding


def understand_place(text: str) -> "Finding":
    """Return what a text is taken as. Raises WrongInput where there is no text at all."""
    from shipcalc.places.find import find_place

    if not text.strip():
        raise WrongInput(
            "no place was given", remedy='write a ZIP, "City, ST", "City, Country" or "latitude, longitude"'
        )
    return find_place(text)
