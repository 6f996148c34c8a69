"""Sums of money as people write them: `$38,000`, `38k`, `USD 38 000`, `38.000,00 €`."""

import re
from decimal import Decimal

from shipcalc.errors import WrongInput
from shipcalc.money import LARGEST_MINOR, to_decimal, to_minor
from shipcalc.sheets.numbers import corrected, plain, plain_text
from shipcalc.vehicles.units import NUMBER, number_in, quoted

_MONEY = re.compile(
    rf"(?P<minus>-)? ?(?P<before>[^\d(+.,-]*?) ?(?P<number>\({NUMBER}\)|{NUMBER})(?:[.,][-–]+)?"
    r" ?(?:(?P<times>k|thousand|m|million|mio)\b)? ?(?P<after>\D*)",
    re.IGNORECASE,
)
_TIMES = {"k": 1_000, "thousand": 1_000, "m": 1_000_000, "million": 1_000_000, "mio": 1_000_000}
# Words and signs for a currency; a dollar sign is the list's own dollar.
_DOLLARS = frozenset(("USD", "CAD", "AUD", "NZD", "SGD", "HKD"))
_ANY_DOLLAR = frozenset(("$", "dollar", "dollars"))
_CURRENCIES = {"us$": "USD", "us dollars": "USD", "c$": "CAD", "a$": "AUD", "nz$": "NZD"} | {
    "€": "EUR", "euro": "EUR", "euros": "EUR", "£": "GBP", "¥": "JPY", "yen": "JPY", "fr": "CHF", "sfr": "CHF",
}  # fmt: skip
_EXAMPLE = "write digits, e.g. 38,000"


def money_minor(value: str | float, currency: str = "USD") -> int:
    """Return minor units of `currency`, more than nothing.

    Raises WrongInput for what is not a sum, for another currency, and for a sum that can be read in two ways (`38.000`).
    """
    amount = _amount(value, currency) if isinstance(value, str) else number_in(value, decimals=2, remedy=_EXAMPLE)
    if amount < 0:
        raise WrongInput(f"{quoted(value)} is negative, which no value is", remedy="remove the minus sign")
    if amount == 0:
        raise WrongInput(f"{quoted(value)} is not a value", remedy="leave it out where the value is not known")
    if amount > to_decimal(LARGEST_MINOR, currency):
        raise WrongInput(f"{quoted(value)} is more than any vehicle is worth", remedy="check the figure")
    return to_minor(amount, currency)


def find_currency(word: str, currency: str) -> str | None:
    """Return the currency that a word or sign names ($ is `currency` where that is a dollar), or None."""
    folded = word.strip(" .").casefold()
    if folded in _ANY_DOLLAR:
        return currency if currency in _DOLLARS else "USD"
    if folded in _CURRENCIES:
        return _CURRENCIES[folded]
    return folded.upper() if len(folded) == 3 and folded.isascii() and folded.isalpha() else None


def is_well_known(word: str, currency: str) -> bool:
    """Return whether a word or sign is the list's own currency or a common one; other three letters may be any word."""
    return find_currency(word, currency) in {currency, *_DOLLARS, *_CURRENCIES.values()}


def _amount(text: str, currency: str) -> Decimal:
    found = _MONEY.fullmatch(plain_text(text))
    words = () if found is None else tuple(word for word in (found["before"], found["after"]) if word)
    if found is None or not all(find_currency(word, currency) for word in words):
        meant = corrected(text, decimals=2)
        remedy = f"perhaps it is {plain(meant)}" if meant is not None else f"{_EXAMPLE}, or leave it out"
        raise WrongInput(f"{quoted(text)} is not a sum of money", remedy=remedy)
    for word in words:
        named = find_currency(word, currency)
        if named != currency:
            raise WrongInput(f"{quoted(text)} is in {named}; values here are in {currency}", remedy="convert it")
    amount = number_in(found["number"], decimals=2, remedy=_EXAMPLE) * _TIMES.get((found["times"] or "").casefold(), 1)
    return -amount if found["minus"] else amount
