"""Days, numbers, sums and places as they stand in an English sentence, and how a reader's locale writes them (CLDR, by babel)."""

import re
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from functools import cache

from babel import Locale
from babel.dates import format_date, format_interval, format_skeleton
from babel.numbers import NumberPattern, get_currency_name, parse_pattern

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_LONG_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
                "November", "December")  # fmt: skip
_WEEKDAY = "(?:Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day "
_MONTH = f"(?:{'|'.join((*_LONG_MONTHS, *_MONTHS))})"
_DAY = rf"(?:{_WEEKDAY})?\d{{1,2}} {_MONTH}(?: \d{{4}})?"
_FIGURES = r"(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?"
_SUM = rf"[−+-]?(?:[$€£]{_FIGURES}|[A-Z]{{3}} {_FIGURES}|{_FIGURES} [A-Z]{{3}})"
_COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_SIGNS = {"$": "USD", "€": "EUR", "£": "GBP"}
_ANY_YEAR = 2000  # of a day that is named without one; a leap year

DAY = rf"(?:\d{{1,2}}(?: {_MONTH})?(?: \d{{4}})? ?– ?{_DAY}|{_DAY}|\d{{4}}-\d\d-\d\d)"
NUMBER = rf"(?:[−+-]?{_FIGURES}|{'|'.join(_COUNTS)})"
SUM = rf"(?:{_SUM}(?: \({_SUM}\))?)"
CODE = "(?:EXW|FCA|FAS|FOB|CFR|CIF|CPT|CIP|DAP|DPU|DDP)"  # Incoterms 2020
CURRENCY = r"(?:[A-Z][A-Za-z ]+ \([A-Z]{3}\))"
# A place begins with a large letter, so that no other words are taken for one.
# What stands in brackets within its name is of it: `Fos (Marseille)`, which `Bremerhaven (CIP)` is not.
PLACE = r"(?:[Tt]he port of )?[^\W\d_a-z](?:(?! to )[^:;()]|\([^\W\d_a-z][^\W\d_A-Z][^():;]*\))*?"
_ONE_DAY = re.compile(rf"(?P<weekday>{_WEEKDAY})?(?P<day>\d{{1,2}})(?: (?P<month>{_MONTH}))?(?: (?P<year>\d{{4}}))?")
_ONE_SUM = re.compile(
    rf"(?P<minus>[−+-]?)(?:(?P<sign>[$€£])|(?P<before>[A-Z]{{3}}) )?(?P<figures>{_FIGURES})(?: (?P<after>[A-Z]{{3}}))?"
)


def day_said(text: str, locale: Locale) -> str:
    """Return a day or a window of days: `8–14 Dec 2026` → `8.–14. Dez. 2026`. Raises ValueError where there is no such day."""
    if re.fullmatch(r"\d{4}-\d\d-\d\d", text):
        return _one_day(date.fromisoformat(text), locale, year=True, weekday=False)
    first, to, last = (part.strip() for part in text.partition("–"))
    if not to:
        found = _parts(text)
        return _one_day(_date(found, found), locale, year=bool(found["year"]), weekday=bool(found["weekday"]))
    start, end = _parts(first), _parts(last)
    if start["year"] and not end["year"]:  # the year that all of the sentence is about is left out
        return f"{day_said(first, locale)} – {day_said(last, locale)}"
    skeleton = "yMMMd" if end["year"] else "MMMd"
    return str(format_interval(_date(start, end), _date(end, end), skeleton, locale=locale))


def _parts(text: str) -> dict[str, str | None]:
    found = _ONE_DAY.fullmatch(text)
    if found is None:
        raise ValueError(text)
    return found.groupdict()


def _date(parts: dict[str, str | None], last: dict[str, str | None]) -> date:
    """Return the day of a window's end; what it does not name, the last day of the window does."""
    month = parts["month"] or last["month"] or ""
    return date(int(parts["year"] or last["year"] or _ANY_YEAR), _MONTHS.index(month[:3]) + 1, int(parts["day"] or 0))


def _one_day(when: date, locale: Locale, *, year: bool, weekday: bool) -> str:
    if weekday:
        return str(format_date(when, "full", locale=locale))
    return str(format_skeleton("yMMMd" if year else "MMMd", when, locale=locale))


def number_said(text: str, locale: Locale) -> str:
    """Return a number with as many decimals as it has: `1,234.50` → `1.234,50`; what has no commas is a name, as 2026 is."""
    if text in _COUNTS:
        return str(_COUNTS.index(text))
    sign, figures = (text[0], text[1:]) if text[0] in "−+-" else ("", text)
    whole, _, decimals = figures.partition(".")
    if len(whole) > 3 and "," not in whole:
        return text
    pattern = _with_decimals(locale.decimal_formats[None], len(decimals))
    return f"{sign}{pattern.apply(Decimal(figures.replace(',', '')), locale)}"


def sum_said(text: str, locale: Locale) -> str:
    """Return an amount with its currency, as many decimals as it has, and in brackets the same in another."""
    first, bracket, other = text.partition(" (")
    told = _one_sum(first, locale)
    return f"{told} ({_one_sum(other.removesuffix(')'), locale)})" if bracket else told


def _one_sum(text: str, locale: Locale) -> str:
    found = _ONE_SUM.fullmatch(text)
    if found is None:
        raise ValueError(text)
    code = _SIGNS.get(found["sign"] or "") or found["before"] or found["after"] or ""
    _, _, decimals = found["figures"].partition(".")
    pattern = _with_decimals(locale.currency_formats["standard"], len(decimals))
    amount = pattern.apply(Decimal(found["figures"].replace(",", "")), locale, currency=code, currency_digits=False)
    return f"{found['minus']}{amount}"


@cache
def _with_decimals(pattern: NumberPattern, decimals: int) -> NumberPattern:
    """Return a locale's pattern with so many decimals: babel would leave out noughts, or add them."""
    told = re.sub(r"\.[0#]+", "." + "0" * decimals if decimals else "", pattern.pattern)
    return parse_pattern(told)


def currency_said(text: str, locale: Locale) -> str:
    """Return `US dollars (USD)` → `US-Dollar (USD)`. Raises ValueError for any other code in brackets, as `Bremerhaven (CIP)`."""
    code = text[-4:-1]
    if code not in locale.currencies:
        raise ValueError(text)
    name = get_currency_name(code, locale=locale)
    return f"{name} ({code})"


def place_said(text: str, locale: Locale) -> str:
    """Return a place with its country, where one is named at its end: `Lyon, France` → `Lyon, Frankreich`; any other as it is."""
    before, comma, last = text.rpartition(", ")
    code = _countries().get(last)
    name = locale.territories.get(code, last) if code else last
    return f"{before}{comma}{name}"


@cache
def _countries() -> dict[str, str]:
    """Return the code of each country by its name in the program's English."""
    from shipcalc.places.gazetteer.pages import countries

    return {country.name: code for code, country in countries().items()}


Said = Callable[[str, Locale], str]
# What may stand in a sentence's place, by the name of the place: how it is found in English, how it is said.
KINDS: dict[str, tuple[str, Said]] = {
    "day": (DAY, day_said),
    "n": (NUMBER, number_said),
    "sum": (SUM, sum_said),
    "currency": (CURRENCY, currency_said),
    "place": (PLACE, place_said),
    "name": (".+?", lambda text, _: text),
    "code": (CODE, lambda text, _: text),
}
# What is a sentence's whole text without any words.
ALONE = (
    ("sum", re.compile(SUM)),
    ("day", re.compile(DAY)),
    ("n", re.compile(NUMBER)),
    ("currency", re.compile(CURRENCY)),
)
