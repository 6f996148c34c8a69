"""A price in hand as a salesperson types it: "Tern Haulage, $1,250, until friday, ref TH-88", in any order, forgivingly."""

import re
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput, asked
from shipcalc.schedule.said_days import days_meant

if TYPE_CHECKING:
    from shipcalc.quote.model import SpotPrice
    from shipcalc.trade import Trailer

# More would push what the rate book comes to from the list.
MOST_PRICES = 3
# A carrier holds such a price for days or weeks: of two readings of a day, the one within these is meant.
HELD_AT_MOST = timedelta(days=60)
LARGEST = Decimal(10_000_000)
EXAMPLE = 'say it as "Tern Haulage, 1,250, until 2026-12-10, ref TH-88"'

# A comma divides, but not within 1,250 or 1.250,00.
_DIVIDES = re.compile(r"\s*(?:;|,(?!\d{3}(?!\d))(?!(?<=\d{3},)\d{2}(?!\d))|(?<!\d),)\s*")
_BEFORE_WORDS = re.compile(
    r"(?<=[\w.$€£)])(?<!good)(?<!valid)(?<!holds)\s+(?=(?:(?:good |valid |holds )?(?:until|till)|ref|reference)\b)",
    re.I,
)
_UNTIL = re.compile(
    r"(?:(?:good|valid|holds)\s+)?(?:until|till|through|thru|expires(?: on)?|ends(?: on)?)\s+(?P<day>.+)",
    re.I,
)
_REFERENCE = re.compile(
    r"(?:(?:our |your |their )?ref(?:erence)?\b\.?|quote no\.?|no\.|nr\.?|#)\s*[:#]?\s*(?P<reference>.+)", re.I
)
_TRAILER = re.compile(r"(?:an? )?(?P<kind>open|enclosed)(?: (?:trailer|truck|transport|carrier))?", re.I)
_TO = re.compile(r"(?:only )?to (?P<place>.+)", re.I)
_EACH = re.compile(r"\s*\b(?:each|apiece|per (?:vehicle|car|unit)|a (?:vehicle|car)|for each)\b\.?", re.I)
_FOR_ALL = re.compile(r"(?:all in|for (?:all|both|everything)|together|in all|flat|lump sum)", re.I)
_SIGNS = {"$": "USD", "US$": "USD", "C$": "CAD", "CA$": "CAD", "€": "EUR", "£": "GBP"}
_AMOUNT = re.compile(
    r"(?P<before>[a-z]{3}|us\$|ca?\$|[$€£])?\s*(?P<figures>\d[\d,. ’']*?)\s*(?P<k>k)?\s*(?P<after>[a-z]{3}|dollars|bucks|[$€£])?",
    re.I,
)
_YEAR = re.compile(r"20\d\d")


def prices_in_hand(texts: Sequence[str], *, today: date) -> tuple["SpotPrice", ...]:
    """Return the prices in hand that were typed. Raises WrongInput for one that is not understood, and for too many."""
    if len(texts) > MOST_PRICES:
        raise WrongInput(
            f"{len(texts)} prices in hand are too many", where=asked("spot"), remedy=f"give the best {MOST_PRICES}"
        )
    return tuple(price_in_hand(text, today=today) for text in texts)


def price_in_hand(text: str, *, today: date) -> "SpotPrice":
    """Return one price in hand: a carrier, a sum, the day it holds until; perhaps a reference, a trailer, a port, "each".

    Raises WrongInput where something of it is missing, said twice or not understood.
    """
    from shipcalc.quote.model import SpotPrice

    told: dict[str, str] = {}
    for part in _parts(text):
        for name, value in _meant(part, told, today):
            if told.get(name):
                raise _unclear(text, f'"{told[name]}" and "{value}" are both taken as its {_NAMES[name]}')
            told[name] = value
    for name in ("carrier", "amount", "until"):
        if name not in told:
            raise _unclear(text, f"it says no {_NAMES[name]}")
    amount, currency = _amount(told["amount"])
    if not 0 < amount <= LARGEST:
        raise _unclear(text, f'"{told["amount"]}" is no price for a transport')
    kind = told.get("trailer", "")
    trailer: Trailer | None = "open" if kind == "open" else "enclosed" if kind == "enclosed" else None
    return SpotPrice(
        carrier=told["carrier"],
        amount=amount,
        currency=currency,
        until=_day(told["until"], text, today),
        reference=told.get("reference", ""),
        trailer=trailer,
        to=told.get("to", ""),
        each="each" in told,
    )


_NAMES = {
    "carrier": "carrier",
    "amount": "price",
    "until": "day until which it holds",
    "reference": "reference",
    "trailer": "kind of trailer",
    "to": "place it goes to",
    "each": "each",
    "all": "sum",
}


def _parts(text: str) -> list[str]:
    """Return what commas divide; a year behind a day, `Dec 10, 2026`, belongs to it, and "Tern 1,250" is a name and a sum."""
    spaced = _BEFORE_WORDS.sub(", ", " ".join(text.split()))
    parts: list[str] = []
    for part in filter(None, _DIVIDES.split(spaced)):
        if parts and _YEAR.fullmatch(part) and any(char.isdigit() for char in parts[-1]) and not _is_sum(parts[-1]):
            parts[-1] = f"{parts[-1]}, {part}"
        else:
            parts.append(part)
    if parts and not any(_is_sum(part) for part in parts):
        name, _, figures = parts[0].rpartition(" ")
        before, _, sign = name.rpartition(" ")
        if re.fullmatch(r"[A-Z]{3}|[$€£]", sign):
            name, figures = before, f"{sign} {figures}"
        if name and _is_sum(figures):
            parts[:1] = [name, figures]
    return parts


def _is_sum(part: str) -> bool:
    found = _AMOUNT.fullmatch(_EACH.sub("", part).strip())
    return found is not None and not _code_is_word(found)


def _code_is_word(found: "re.Match[str]") -> bool:
    """Return whether letters beside figures are no currency: small letters that no sign stands for."""
    words = [found[name] for name in ("before", "after") if found[name] and found[name].isalpha()]
    return any(
        len(word) == 3 and not word.isupper() and word.casefold() not in ("usd", "cad", "eur", "gbp", "mxn")
        for word in words
    )


def _meant(part: str, told: dict[str, str], today: date) -> Iterator[tuple[str, str]]:
    """Yield what one part says, by name; what fits nothing else is the carrier, and behind that the reference."""
    if _EACH.fullmatch(part):
        yield "each", part
    elif _FOR_ALL.fullmatch(part):
        yield "all", part
    elif _is_sum(part):
        bare = _EACH.sub("", part).strip()
        if bare != part:
            yield "each", part
        yield "amount", bare
    elif found := _UNTIL.fullmatch(part):
        yield "until", found["day"]
    elif found := _REFERENCE.fullmatch(part):
        yield "reference", found["reference"]
    elif found := _TRAILER.fullmatch(part):
        yield "trailer", found["kind"].casefold()
    elif "carrier" in told and (found := _TO.fullmatch(part)):
        yield "to", found["place"]
    elif "until" not in told and "carrier" in told and _days(part, today):
        yield "until", part
    else:
        yield ("reference" if "carrier" in told else "carrier"), part


def _amount(text: str) -> tuple[Decimal, str | None]:
    """Return a sum as it was written and its currency, None where none is named: `$1,250`, `1.250,50 EUR`, `1.3k`."""
    found = _AMOUNT.fullmatch(text)
    assert found is not None, "what is no sum is not taken as one"
    figures = re.sub(r"[ ’']", "", found["figures"]).rstrip(".,")
    if re.search(r",\d{1,2}$", figures) and (figures.count(",") == 1):  # the comma of the continent
        figures = figures.replace(".", "").replace(",", ".")
    elif re.fullmatch(r"\d{1,3}(?:\.\d{3})+", figures) and "," not in figures and not found["k"]:
        figures = figures.replace(".", "")
    figures = figures.replace(",", "")
    if figures.count(".") > 1:
        figures = "0"
    sign = (found["before"] or found["after"] or "").upper()
    currency = _SIGNS.get(
        sign, sign if len(sign) == 3 and sign.isalpha() else "USD" if sign in ("DOLLARS", "BUCKS") else None
    )
    # A bare $ is the rate book's own, whichever dollar that is.
    own = currency if sign not in ("$", "DOLLARS", "BUCKS") else None
    return (Decimal(figures) * (1000 if found["k"] else 1)).quantize(Decimal("0.01")), own


def _day(said: str, text: str, today: date) -> date:
    """Return the day until which it holds; of several readings the one that is soon. Raises WrongInput where that is not one."""
    days = _days(said, today)
    soon = [day for day in days if today <= day <= today + HELD_AT_MOST] or list(days)
    if len(soon) == 1:
        return soon[0]
    if not soon:
        raise _unclear(text, f'"{said}" is not a day')
    raise _unclear(text, f'"{said}" can be {" or ".join(day.isoformat() for day in soon)}')


def _days(said: str, today: date) -> tuple[date, ...]:
    try:
        return (date.fromisoformat(said.strip()),)
    except ValueError:
        return days_meant(said, today=today)


def _unclear(text: str, why: str) -> WrongInput:
    return WrongInput(
        f'"{text.strip()}" is not understood as a price in hand: {why}', where=asked("spot"), remedy=EXAMPLE
    )
