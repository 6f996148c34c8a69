"""Which language an offer goes out in by itself: that of the buyer's country, where the house offers it."""

from collections.abc import Sequence

from shipcalc.languages.known import ENGLISH, LANGUAGES, language_meant


def language_of(country: str, offered: Sequence[str]) -> str:
    """Return the language of a country (ISO 3166-1) where it is among those `offered`, else English.

    It is what the country's authorities write first (CLDR, by babel). Where they write several that there is a catalogue for, as
    in Switzerland or Canada, nobody is addressed in the wrong one: it is English. Raises WrongInput for a language without a
    catalogue.
    """
    known = [language_meant(one) for one in offered]
    if not known:
        return ENGLISH
    from babel.languages import get_official_languages

    written = get_official_languages(country, de_facto=True)
    ours = [one for one in written if one in (ENGLISH, *LANGUAGES)]
    return ours[0] if ours == list(written[:1]) and ours[0] in known else ENGLISH
