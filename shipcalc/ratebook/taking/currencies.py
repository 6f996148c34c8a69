"""Which currency a text names, by its code, its sign or its name."""

import re

from shipcalc.ratebook.workbook.currency_codes import CURRENCY_CODES

DOLLAR = "$"
"""A dollar of nobody's: of the country that the letter or the book says."""
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
