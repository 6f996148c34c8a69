"""Which languages the catalogue has beside English."""

from shipcalc.errors import WrongInput, asked

ENGLISH = "en"
# By their codes (ISO 639-1).
LANGUAGES = {"de": "German", "es": "Spanish", "fr": "French", "ja": "Japanese"}


def language_meant(text: str) -> str:
    """Return the code of the language that somebody asks for, by its code or its English name; nothing is English.

    Raises WrongInput where there is no catalogue of it.
    """
    wanted = text.strip().casefold() or ENGLISH
    by_name = {name.casefold(): code for code, name in LANGUAGES.items()} | {"english": ENGLISH}
    code = by_name.get(wanted, wanted)
    if code not in (ENGLISH, *LANGUAGES):
        known = ", ".join(f"{code} ({name})" for code, name in LANGUAGES.items())
        raise WrongInput(
            f'there is no catalogue of "{text.strip()}"',
            where=asked("language"),
            remedy=f"one of en (English), {known}",
        )
    return code
