"""What a text states that no price has in it: limits of size and weight, numbers, words of condition.

The net below the reading: what is found here and was read by nobody is named, so that nothing stated is lost without a word.
"""

import re
import unicodedata

from shipcalc.ratebook.taking.vocabulary import CONDITIONS, LIMITS, any_of
from shipcalc.sheets.numbers import plain_text

_NUMBER = r"\d[\d.,]*"
_UNIT = rf"{any_of(LIMITS['units'])}(?![\w³²])"
_MOST, _WHAT = (any_of(LIMITS[name]) for name in ("before", "what"))
_BEFORE = rf"(?<!\w){_MOST}(?!\w)"
_OF_WHAT = rf"(?:\b{_WHAT}\b[\s:=.]*)?"
_SPAN = r"\s?(?:-|–|—|to|bis|à|a|tot|hasta|and|und|x|×)\s?"
_LIMIT = re.compile(
    rf"(?P<before>{_OF_WHAT}(?:(?:{_BEFORE}|\b{any_of(LIMITS['joined'])}\b)\.?[\s:=]*){{0,3}}{_OF_WHAT})"
    rf"(?<![\w.,/]){_NUMBER}\s?(?:{_UNIT})?(?:{_SPAN}(?:{_MOST}\s)?(?<![\w.,]){_NUMBER})?\s?(?P<unit>{_UNIT})"
    rf"(?P<after>(?:\.?\s?(?:{_WHAT}|{any_of(LIMITS['after'])})(?!\w))*)",
    re.IGNORECASE,
)
# "in" is an inch only behind words that tell of a limit.
_INCHES = re.compile(
    rf"{_OF_WHAT}{_BEFORE}\.?[\s:=]*{_OF_WHAT}{_NUMBER}\s?in\b\.?(?!\s?(?:advance|total))|\b{_WHAT}\b[\s:=.]*{_NUMBER}\s?in\b",
    re.IGNORECASE,
)
_BOX = re.compile(r"(?:\d{1,2}\s?[x×]\s?)?(?:20|40|45)\s?(?:'|′|’|ft|feet|foot)", re.IGNORECASE)
_PER = re.compile(r"(?:\b(?:per|je|pro|par|por|al|each|a)|/)\s?$", re.IGNORECASE)
_CONDITION = re.compile(rf"\b{any_of(CONDITIONS)}\b|[%‰<>≤≥]")
_CURRENCY = re.compile(r"[$€£¥]|\b(?:usd|eur|cad|gbp|aud|chf|jpy|dollars?|euros?|cents?)\b", re.IGNORECASE)


def limits_in(text: str) -> tuple[str, ...]:
    """Return the limits of size, weight or volume that a text states, in its own words: "max 2,200 kg", "5.01-6.0 m"."""
    return tuple(dict.fromkeys(" ".join(text[first:last].split()).strip(" .:,=") for first, last in _spans(text)))


def heads_limits(header: str) -> bool:
    """Return whether a header says that limits stand below it: "Max length", "Max. weight (lb)", "LOA max"."""
    words = _bare(re.sub(r"\(.*?\)", " ", header)).replace(".", " ").split()
    quiet = {"vehicle", "overall", "total", "gross", "curb", "kerb", "ground"}
    own = {word for text in LIMITS["what"] for word in text.split()} - quiet
    most = {*LIMITS["before"], *LIMITS["units"], "limit", *quiet}
    return bool(set(words) & own) and bool(set(words) & most) and set(words) <= own | most


def without_limits(text: str) -> str:
    """Return a text without the limits in it, so that "up to 20 ft" is never taken for a container."""
    for first, last in reversed(_spans(text)):
        text = f"{text[:first]} ; {text[last:]}" if text[last:].strip() else f"{text[:first]} "
    return text


def _spans(text: str) -> list[tuple[int, int]]:
    if not any(sign.isdigit() for sign in text):
        return []
    found = [
        one.span() for one in _LIMIT.finditer(text) if not _is_box(text, one) and not _PER.search(text[: one.start()])
    ]
    taken = {at for span in found for at in range(*span)}
    return sorted([*found, *(one.span() for one in _INCHES.finditer(text) if one.start() not in taken)])


def _is_box(text: str, limit: re.Match[str]) -> bool:
    """Return whether a measure without a word beside it is a container's: 40', 1 x 20 ft."""
    figures = text[limit.start() + len(limit["before"]) : limit.end() - len(limit["after"])].strip()
    return not (limit["before"] + limit["after"]).strip() and _BOX.fullmatch(figures) is not None


def states(text: str) -> bool:
    """Return whether words that nobody has read state something: a number, a share, a condition."""
    return any(sign.isdigit() for sign in plain_text(text)) or says_condition(text)


def says_condition(text: str) -> bool:
    """Return whether words say a condition, a share or an addition: "except", "only", "plus", "%"."""
    return _CONDITION.search(_bare(text).replace("not hesitate", " ")) is not None


def says_money(text: str) -> bool:
    """Return whether words name a currency."""
    return _CURRENCY.search(text) is not None


def _bare(text: str) -> str:
    """Return a text in small letters without accents and hyphens, its other signs left: "Höchst-Maß" → "hochst mass"."""
    plain = unicodedata.normalize("NFKD", plain_text(text)).casefold()
    plain = "".join(sign for sign in plain if not unicodedata.combining(sign))
    return re.sub(r"(?<=[a-z])-(?=[a-z])", " ", plain)
