"""What a few words say beside what they head: the trailer, the currency, per mile or per vehicle, fuel in or not, which vehicles.

"Open – $/mi (incl. FSC)" is an open trailer, dollars, per mile, fuel included, and nothing else. Read from headers, titles
between the rows, the names of sheets and the letter around a table alike.
"""

import re
import unicodedata

from shipcalc.ratebook.taking.currencies import currency_in
from shipcalc.ratebook.taking.stated import limits_in, without_limits
from shipcalc.ratebook.taking.trait_words import BASIS, FUEL_IN, FUEL_OUT, MINIMUM, MODE, TRAILER, UNIT, VARIANT
from shipcalc.records import dataclass, fields, replace
from shipcalc.sheets.numbers import plain_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Traits:
    """What is said; empty or None where nothing is. `variant` names the vehicles or service a price is for alone, `limits` are
    those of size and weight in the mail's own words: all that are said count together."""

    trailer: str = ""
    mode: str = ""
    basis: str = ""
    currency: str = ""
    unit: str = ""
    fuel: bool | None = None
    variant: str = ""
    is_minimum: bool = False
    limits: tuple[str, ...] = ()

    def over(self, other: "Traits") -> "Traits":
        """Return these traits, with the other's where these say nothing."""
        own = {f.name: getattr(self, f.name) for f in fields(Traits)}
        said = {name: value for name, value in own.items() if value not in ("", None)}
        limits = tuple(dict.fromkeys((*self.limits, *other.limits)))
        return replace(other, **{**said, "is_minimum": self.is_minimum or other.is_minimum, "limits": limits})


NO_TRAITS = Traits()


def traits_in(text: str) -> tuple[Traits, str]:
    """Return what a text says, and its other words in small letters, without accents and marks."""
    limits = limits_in(text)
    currency, rest = currency_in(without_limits(text) if limits else text)
    rest = _plain(rest)
    found: dict[str, object] = {"currency": currency, "limits": limits}
    fuel_in, fuel_out = FUEL_IN.search(rest), FUEL_OUT.search(rest)
    if fuel_out is not None:
        found["fuel"], rest = False, FUEL_OUT.sub(" ", rest)
    elif fuel_in is not None:
        found["fuel"], rest = True, FUEL_IN.sub(" ", rest)
    for name, table in (
        ("trailer", TRAILER),
        ("unit", UNIT),
        ("basis", BASIS),
        ("mode", MODE),
        ("variant", VARIANT),
    ):
        values = []
        for value, pattern in table:
            if pattern.search(rest):
                values.append(value)
                rest = pattern.sub(" ", rest)
        told = [value for value in dict.fromkeys(values) if value]
        found[name] = " and ".join(told) if name == "variant" else told[0] if len(told) == 1 else ""
    if MINIMUM.search(rest):
        found["is_minimum"] = True
    return Traits(**found), " ".join(rest.split())  # type: ignore[arg-type]


_OF_TRAILER = re.compile(
    r"^[ -]*(?:vehicle |auto |car )?(?:transport|trailers?|carriers?|trucks?|rates?|prices?|equipment|haul|service|only|"
    r"anhanger|wagen)\b"
)
_QUIET = re.compile(
    r"\b(?:transport|trailers?|carriers?|trucks?|rates?|prices?|only|usd|eur|per|vehicle|in|all|on|plataforma|camion|remolque|"
    r"anhanger|lkw|transporter)\b"
)


def trailer_in(sentence: str) -> str:
    """Return the trailer of which a sentence or a title surely speaks: offices are open and closed, too, and cargo is covered."""
    found = set()
    for part in re.split(r"[,.;:|()/]|\s[-–—]\s", sentence):
        plain = _plain(part)
        for trailer, pattern in TRAILER:
            word = pattern.search(plain)
            if word is None:
                continue
            alone = not bare_words(_QUIET.sub(" ", plain[: word.start()] + " " + plain[word.end() :]))
            said_so = (
                word[0].split()[-1] not in word[0].split()[:1] or _OF_TRAILER.search(plain[word.end() :]) is not None
            )
            if alone or said_so:
                found.add(trailer)
    return found.pop() if len(found) == 1 else ""


def _plain(text: str) -> str:
    bare = unicodedata.normalize("NFKD", plain_text(text)).casefold()
    bare = "".join(sign for sign in bare if not unicodedata.combining(sign))
    bare = re.sub(r"(?<=[a-z])-(?=[a-z])", " ", bare)
    return " ".join(re.sub(r"[^\w%'′’/+&#³¢<>-]+", " ", bare).replace("_", " ").split())


def bare_words(text: str) -> str:
    """Return a text's words in small letters with nothing between them: "Dest. ZIP" → "dest zip"."""
    return " ".join(re.sub(r"[^\w]+", " ", _plain(text).replace("#", " no ")).split())
