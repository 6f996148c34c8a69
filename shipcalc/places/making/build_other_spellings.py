"""Make the part of `data/other_spellings.tsv` that comes from the CLDR (package `babel`, extra: dev); the rest is kept.

python -m shipcalc.places.making.build_other_spellings
"""

import re
import sys

from shipcalc.places.gazetteer.other_spellings import FILE
from shipcalc.places.gazetteer.spelling import is_latin

# Languages of Latin letters in which buyers and their letters name a city.
LANGUAGES = ("en", "de", "fr", "es", "it", "pt", "nl", "sv", "da", "nb", "fi", "pl", "cs", "tr", "hu", "ro")
FROM = "CLDR"
_WITH_STATE = re.compile(r"[,(\[]")  # Knox, Indiana


def cldr_names() -> list[str]:
    """Return the lines of the names that the CLDR has for the cities of time zones, in order."""
    from babel import Locale
    from babel.core import get_global

    country_of = get_global("zone_territories")
    named = (
        (str(names["city"]), country_of.get(zone, ""))
        for language in LANGUAGES
        for zone, names in Locale(language).time_zones.items()
        if "city" in names
    )
    return sorted(
        {
            f"{name}\t{country}\t{FROM}"
            for name, country in named
            if country and is_latin(name) and not _WITH_STATE.search(name)
        }
    )


def build() -> str:
    """Write the file anew and return what it holds."""
    kept = [
        line
        for line in FILE.read_text(encoding="utf-8").splitlines()
        if line.startswith("#") or line.split("\t")[2] != FROM
    ]
    found = cldr_names()
    FILE.write_text("\n".join([*kept, *found]) + "\n", encoding="utf-8")
    return f"{len(found)} names of the CLDR, {sum(not line.startswith('#') for line in kept)} of common use"


if __name__ == "__main__":
    sys.stdout.write(build() + "\n")
