"""What a few words say beside what they head: the trailer, the currency, per mile or per vehicle, fuel in or not, which vehicles.

"Open – $/mi (incl. FSC)" is an open trailer, dollars, per mile, fuel included, and nothing else. Read from headers, titles
between the rows, the names of sheets and the letter around a table alike.
"""

import re
import unicodedata

from shipcalc.ratebook.taking.stated import limits_in, without_limits
from shipcalc.ratebook.taking.vocabulary import MEASURES, any_of
from shipcalc.ratebook.workbook.currency_codes import CURRENCY_CODES
from shipcalc.records import dataclass, fields, replace
from shipcalc.sheets.numbers import plain_text

DOLLAR = "$"
"""A dollar of nobody's: of the country that the letter or the book says."""
# The variant of prices for what runs, one vehicle, the usual service.
STANDARD = "standard"
# The variant of prices for the way back, from where a lane ends to where it begins.
BACK_HAUL = "back-haul"
# What no price for all vehicles is taken from.
SOME_ALONE = frozenset(("does not run", "express", "motorcycle", "several vehicles", "whole trucks"))
# The unit of prices for a metre, a kilogram, an hour: no sheet has such prices of a carriage.
MEASURE = "measure"


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

_FUEL_WORD = (
    r"(?:treibstoff\w*|kraftstoff\w*|gazole|gasoil|gasoleo|gasolio|nafta|brandstof\w*|dieselzuschlag|dieseltoeslag|carburant|combustible|carburante|"
    r"fuel(?: surcharges?| s ?c)?|fsc|bunker|baf|diesel)"
)
# Between "including" and "fuel" other things may stand ("tolls and"), but nothing that turns the sense.
_AMONG = r"(?:(?!incl|excl|plus|without|not |no |ex )[\w&/+]+ ){0,4}"
_INCLUDES = (
    r"(?:incl(?:uding|udes|uded|ude|usive(?: of)?)?|inkl(?:usive)?|inbegrepen|einschl\w*|compris|"
    r"incluid[oa]|inclus[eoa]?)"
)
_EXCLUDES = (
    r"(?:excl(?:uding|udes|uded|ude|usive(?: of)?)?|exclus|excluid[oa]|esclus[oa]|exkl(?:usive)?|zuzugl\w*|zzgl|ohne|zonder|plus|"
    r"hors|sin|senza|without|w ?/? ?o|before|net of|ex|not incl(?:uding|uded|ude)?|subject to|(?:does|do) not include)"
)
_IS_IN = r"(?:already )?(?:incl(?:uded|usive)?|inclu\w+|inbegrepen|inkl\w*|enthalten|compris\w*|in)\b(?! ?(?:a|the|addition)\b)"
_IS_OUT = (
    r"(?:(?:not|no|nicht|niet|non) (?:yet )?(?:incl\w*|enthalten|inbegrepen|compris\w*)|excl(?:uded|usive)?|esclus\w+|excluid\w+|"
    r"exclus?|en sus|aparte?|a parte|extra|additional|"
    r"in addition|separate(?:ly)?|on top|billed separately|applies|will be added|added|to be added|charged separately)\b"
)
_LINK = r"(?:[: ] ?(?:is |are |surcharges? |charges? )*)"
_FUEL_IN = re.compile(
    rf"\b{_INCLUDES}\b\.? ?{_AMONG}{_FUEL_WORD}\b|\b(?:with|w/?) ?{_FUEL_WORD}\b|"
    rf"\b{_FUEL_WORD}(?: and \w+)?{_LINK}{_IS_IN}|\ball ?in(?:clusive)?\b"
)
_FUEL_OUT = re.compile(
    rf"\b{_EXCLUDES}\b\.? ?{_AMONG}{_FUEL_WORD}\b|\+ ?{_FUEL_WORD}\b|"
    rf"\b{_FUEL_WORD}(?: and \w+)?{_LINK}{_IS_OUT}|"
    r"\bline ?haul only\b"
)
_TRAILER = (
    (
        "enclosed",
        re.compile(
            r"\b(?:enclosed|encl|enc|closed|covered|gesloten|geschlossene?[rn]?|gedeckt|ferme|cerrado|"
            r"chiuso|bache|hard ?side(?:d)?|soft ?side(?:d)?|box trailer|box truck)\b(?: (?:transport|"
            r"trailer|carrier|truck|rates?)\b)?"
        ),
    ),
    (
        "open",
        re.compile(
            r"\b(?:open|opn|offene?[rn]?|ouverte?|abiert[oa]|apert[oa]|open air|open deck|open top|"
            r"uncovered)\b(?! (?:date|account|item|until|for|to|from))(?: (?:transport|trailer|carrier|"
            r"truck|rates?)\b)?"
        ),
    ),
    ("open", re.compile(r"\b(?:flat ?bed|flat ?deck)\b")),
)
_FEET = r"\s?(?:'|′|’|ft\b|foot\b|feet\b|(?=\s?(?:hc|hq|gp|dv|dc|high|std|st|dry|container|cntr|box)\b))\s?"
_BASIS = (
    ("per 40′HC", re.compile(rf"\b(?:per |/ ?|1 ?x ?)?40{_FEET}(?:hc|hq|high ?cubes?)\b(?: containers?| cntr)?")),
    (
        "per 40′",
        re.compile(
            rf"\b(?:per |/ ?|1 ?x ?)?40{_FEET}(?:gp|dv|dc|std|st|dry|standard)?(?: ?containers?\b| ?cntr\b| ?box\b)?"
        ),
    ),
    (
        "per 20′",
        re.compile(
            rf"\b(?:per |/ ?|1 ?x ?)?20{_FEET}(?:gp|dv|dc|std|st|dry|standard)?(?: ?containers?\b| ?cntr\b| ?box\b)?"
        ),
    ),
    ("per W/M", re.compile(r"(?:per |/ ?)?\b(?:w ?/ ?m|w m|wm|revenue tons?|rev ?tons?|freight tons?|frt|r/?t)\b")),
    ("per m³", re.compile(r"(?:per |/ ?|\b)(?:cbm|m3|m³|cubic met(?:er|re)s?)\b|/ ?m³|\bm³")),
    ("per shipment", re.compile(r"(?:per|/) ?(?:shipment|b/?l|bill of lading|bl|booking|shpt)\b")),
    ("per container", re.compile(r"(?:per|/) ?(?:container|cntr|ctr|box|ctnr)\b")),
    (
        "per vehicle",
        re.compile(
            r"(?:per|/|je|pro|par|por) ?(?:fahrzeug|pkw|voertuig|vehicule|vehiculo|veicolo|auto|wagen|"
            r"stuk|stuck|vehicle|veh|car|unit|automobile|auto|piece|pc)s?\b|\beach\b|"
            r"\bper ?unit\b|\blump ?sum\b"
        ),
    ),
)
_MEASURE = re.compile(
    rf"(?:\b{any_of(MEASURES['each'])}|(?<!w)(?<!w )/) ?(?:10+ ?)?(?:{any_of(MEASURES['started'])} )*{any_of(MEASURES['of'])}\b"
)
_UNIT = (
    ("cents a mile", re.compile(r"\b(?:cents?|cts|¢) ?(?:per |/ ?|a )?(?:mile|mi)\b|\bcpm\b|¢ ?/ ?mi\b")),
    ("km", re.compile(r"(?:per|/|a|je|pro|par|por|al) ?(?:km|kilomet(?:er|re))s?\b")),
    (MEASURE, _MEASURE),
    ("mi", re.compile(r"(?:per|/|a|each|je) ?(?:loaded )?(?:miles?|mi|ml)\b|\b(?:rpm|per ?mile|ppm|mileage rate)\b")),
)
_MODE = (
    ("roro", re.compile(r"\bro ?[-/]? ?ro\b|\broll ?on(?: ?/?-? ?roll ?off)?\b")),
    ("shared container", re.compile(r"\b(?:shared|consolidated|lcl|groupage|consol)\b(?: containers?\b)?")),
    ("container", re.compile(r"\b(?:fcl|full container(?: load)?)\b")),
)
_VARIANT = (
    (
        "does not run",
        re.compile(
            r"\b(?:inop(?:erable|s)?|non ?-?run(?:ning|ner)?s?|not running|does not run|disabled|dead|"
            r"forklift|nonoperable|non ?-?operable|non ?-?op)\b"
        ),
    ),
    (
        STANDARD,
        re.compile(
            r"\b(?:operable|running|runners?|drivable|runs|regular|standard service|standard|"
            r"std service)\b"
        ),
    ),
    ("express", re.compile(r"\b(?:express|expedited|rush|priority|guaranteed|hot ?shot|premium|top ?load)\b")),
    (
        "large vehicle",
        re.compile(
            r"\b(?:suvs?(?: ?[/&,] ?(?:vans?|pick ?ups?|trucks?))*|pick ?up trucks?|vans?|oversized?|"
            r"large|full ?size|dually|truck ?/ ?van|heavy|lwb|xl|4x4)\b"
        ),
    ),
    (
        "sedan",
        re.compile(
            r"\b(?:sedans?|saloons?|passenger cars?|compact|mid ?size|small(?: car)?|coupes?|roadsters?|"
            r"midsize|motor ?cars?)\b"
        ),
    ),
    ("motorcycle", re.compile(r"\b(?:motor ?cycles?|bikes?|motorbikes?)\b")),
    (
        "several vehicles",
        re.compile(
            r"\b(?:[2-9]|two|three|four|five|six|multi) ?(?:\+|-|to|or more)? ?(?:[2-9]+)? ?(?:vehicles?|"
            r"cars?|units?)\b|\bfull (?:load|truck(?: ?load)?)\b|\bftl\b|\bmulti ?-?(?:car|unit|"
            r"vehicle)s?\b"
        ),
    ),
    (STANDARD, re.compile(r"\b(?:1|one|single) (?:vehicle|car|unit)\b")),
    (
        "whole trucks",
        re.compile(
            r"(?:\b(?:per|par|je|pro|por)|/) ?(?:truck ?loads?|loads?|trucks?|camions?|lkw|vrachtwagen|full trailer)\b"
        ),
    ),
    (BACK_HAUL, re.compile(r"\bback ?-?haul\b")),
)
_MINIMUM = re.compile(r"\b(?:min|minimum)\b")
_NAMED = {
    "us dollar": "USD",
    "us dollars": "USD",
    "us $": "USD",
    "us$": "USD",
    "usd$": "USD",
    "u.s. dollars": "USD",
    "euro": "EUR",
    "euros": "EUR",
    "€": "EUR",
    "£": "GBP",
    "pounds sterling": "GBP",
    "sterling": "GBP",
    "¥": "JPY",
    "yen": "JPY",
    "c$": "CAD",
    "ca$": "CAD",
    "can$": "CAD",
    "cdn$": "CAD",
    "canadian dollars": "CAD",
    "cdn": "CAD",
    "a$": "AUD",
    "au$": "AUD",
    "australian dollars": "AUD",
    "nz$": "NZD",
    "swiss francs": "CHF",
    "sfr": "CHF",
    "dollars": DOLLAR,
    "$": DOLLAR,
}
_CURRENCY = re.compile(
    "(?<![a-z])(?:" + "|".join(re.escape(name) for name in sorted(_NAMED, key=len, reverse=True)) + ")(?![a-z])"
)
_CODE = re.compile(r"(?<![A-Za-z])([A-Z]{3})(?![A-Za-z])")
# Codes that are words of other things in a header, or too rare to be meant by three letters.
_NOT_CODES = frozenset(
    {"ALL", "TOP", "MOP", "BAM", "CUP", "PEN", "RON", "SOS", "TRY", "MAD", "DOP", "GEL", "LAK", "LEI", "VES"}
)


def traits_in(text: str) -> tuple[Traits, str]:
    """Return what a text says, and its other words in small letters, without accents and marks."""
    limits = limits_in(text)
    currency, rest = currency_in(without_limits(text) if limits else text)
    rest = _plain(rest)
    found: dict[str, object] = {"currency": currency, "limits": limits}
    fuel_in, fuel_out = _FUEL_IN.search(rest), _FUEL_OUT.search(rest)
    if fuel_out is not None:
        found["fuel"], rest = False, _FUEL_OUT.sub(" ", rest)
    elif fuel_in is not None:
        found["fuel"], rest = True, _FUEL_IN.sub(" ", rest)
    for name, table in (
        ("trailer", _TRAILER),
        ("unit", _UNIT),
        ("basis", _BASIS),
        ("mode", _MODE),
        ("variant", _VARIANT),
    ):
        values = []
        for value, pattern in table:
            if pattern.search(rest):
                values.append(value)
                rest = pattern.sub(" ", rest)
        told = [value for value in dict.fromkeys(values) if value]
        found[name] = " and ".join(told) if name == "variant" else told[0] if len(told) == 1 else ""
    if _MINIMUM.search(rest):
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
        for trailer, pattern in _TRAILER:
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


def currencies_in(text: str) -> frozenset[str]:
    """Return all currencies that a text names, by code or sign; a dollar of nobody's is `$`."""
    codes = {code for code in _CODE.findall(text) if code in CURRENCY_CODES and code not in _NOT_CODES}
    return frozenset(codes | {_NAMED[sign] for sign in _CURRENCY.findall(text.casefold())})


def currency_in(text: str) -> tuple[str, str]:
    """Return the currency that a text names, by its code or `$`, and the text without it; "" for none or for two."""
    codes = [code for code in _CODE.findall(text) if code in CURRENCY_CODES and code not in _NOT_CODES]
    rest = _CODE.sub(lambda found: " " if found[1] in codes else found[0], text)
    lower = rest.casefold()
    signs = [_NAMED[sign] for sign in _CURRENCY.findall(lower)]
    if signs:
        rest = _CURRENCY.sub(" ", lower)
    named = set(codes) | set(signs)
    if DOLLAR in named and len(named) == 2 and any(code.endswith("D") for code in named - {DOLLAR}):
        named.discard(DOLLAR)
    return (named.pop() if len(named) == 1 else ""), rest


def _plain(text: str) -> str:
    bare = unicodedata.normalize("NFKD", plain_text(text)).casefold()
    bare = "".join(sign for sign in bare if not unicodedata.combining(sign))
    bare = re.sub(r"(?<=[a-z])-(?=[a-z])", " ", bare)
    return " ".join(re.sub(r"[^\w%'′’/+&#³¢<>-]+", " ", bare).replace("_", " ").split())


def bare_words(text: str) -> str:
    """Return a text's words in small letters with nothing between them: "Dest. ZIP" → "dest zip"."""
    return " ".join(re.sub(r"[^\w]+", " ", _plain(text).replace("#", " no ")).split())
