"""Bands of miles as a mail writes them: "0–500", "501-1000 mi", "up to 500", "over 2,000", "1001+"; and the runs that they make.

Bands of a tariff follow on each other, so a text is taken for one only within a run of at least two.
"""

import re
from collections.abc import Sequence
from decimal import Decimal

from shipcalc.records import dataclass
from shipcalc.sheets.numbers import plain_text

KM_IN_A_MILE = Decimal("1.609344")
FARTHEST = 20_000
_NUMBER = r"(\d{1,3}(?:[.,' ]\d{3})+|\d+)"
_UNIT = r"(?:loaded |road )?(?P<unit>miles?|mi\.?|mls?|kms?|kilomet(?:er|re)s?)?"
_WORDS = (
    r"(?:(?:distance|band|trip|trips|length|haul|short|medium|long|tier|zone|bracket|class|mile|mi|km|range)s?\b[ :]*)*"
)
_UNTIL = "-|to|thru|through|bis|tot|t/m|à|and|until"
_ON = r"\+|plus|(?:and|&|or) (?:up|over|more|above|beyond)|up|over|upwards?|-"
_SIDES = (
    (
        "between",
        rf"(?:from |von |van |de |between )?{_NUMBER} ?(?:miles?|mi|kms?)? ?(?:{_UNTIL}) ?{_NUMBER}",
    ),
    ("up to", rf"(?:up to|to|max(?:imum)?|bis(?: zu)?|tot|t/m|jusqu'?à|hasta|fino a|not over|<=|≤) ?{_NUMBER}"),
    ("under", rf"(?:under|below|less than|unter|<) ?{_NUMBER}"),
    ("over", rf"(?:over|above|more than|beyond|exceeding|greater than|über|uber|boven|plus de|más de|oltre|>) ?{_NUMBER}"),
    ("from", rf"(?:from|ab|vanaf|>=|≥) ?{_NUMBER}(?: ?(?:on|up|upwards?|and (?:up|over|more|above)))?"),
    (
        "from",
        rf"{_NUMBER} ?(?:miles?|mi|kms?)? ?(?:{_ON})",
    ),
)  # fmt: skip
_PATTERNS = tuple((kind, re.compile(rf"{_WORDS}{form} ?{_UNIT}")) for kind, form in _SIDES)


@dataclass(frozen=True, slots=True)
class Said:
    """A band as it is written: its two numbers, None where it has no such end; `is_open_low`: its first number is not in it."""

    low: int | None
    high: int | None
    is_open_low: bool = False
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Span:
    """A band as the rate book has it: over `over` miles, up to and with `up_to`; `was_km` where the mail counts kilometres."""

    over: int
    up_to: int | None
    was_km: bool = False


def span_said(text: str) -> Said | None:
    """Return the band that a text says and nothing else beside a unit; None where it says more, or none."""
    plain = re.sub(r"\s*[–—−]\s*", "-", plain_text(text)).casefold().strip(" .:()[]")
    plain = re.sub(r"\s*(?:-|(?:,|/|per|a) ?(?:mile|mi)\b)\s*$", lambda found: "-" if "-" in found[0] else "", plain)
    for kind, pattern in _PATTERNS:
        found = pattern.fullmatch(plain)
        if found is None:
            continue
        unit = "km" if (found["unit"] or "").startswith("k") or re.search(r"\d ?km", plain) else ""
        unit = unit or ("mi" if found["unit"] or re.search(r"\d ?mi", plain) else "")
        numbers = [int(re.sub(r"\D", "", number)) for number in found.groups()[: 2 if kind == "between" else 1]]
        if max(numbers) > FARTHEST or (len(numbers) == 2 and numbers[0] >= numbers[1]):
            return None
        return {
            "between": Said(numbers[0], numbers[-1], unit=unit),
            "up to": Said(None, numbers[0], unit=unit),
            "under": Said(None, numbers[0] - 1, unit=unit),
            "over": Said(numbers[0], None, is_open_low=True, unit=unit),
            "from": Said(numbers[0], None, unit=unit),
        }[kind]
    return None


def spans_of(said: Sequence[Said]) -> tuple[Span, ...] | None:
    """Return the bands of a run, each from where the one before ends; None where they do not follow on each other from nought.

    A band "500-1000" after "0-500" begins over 500, and so does "501-1000".
    """
    found: list[Span] = []
    over = 0
    for number, one in enumerate(said):
        if not _begins_there(one, over, is_first=number == 0):
            return None
        if number == 0 and one.low:
            over = one.low if one.is_open_low else one.low - 1
        found.append(Span(over, one.high))
        if one.high is None:
            return tuple(found) if number == len(said) - 1 and number else None
        if one.high <= over:
            return None
        over = one.high
    return tuple(found) if len(found) > 1 else None


def _begins_there(one: Said, over: int, *, is_first: bool) -> bool:
    """Return whether a band begins where the one before ends."""
    if one.low is None:
        return True
    if is_first:
        return one.low in (0, 1) or one.unit != ""
    return one.low == over or (one.low == over + 1 and not one.is_open_low)


def in_miles(span: Span, unit: str) -> Span:
    """Return a band in whole miles; one of kilometres to the nearest mile: 500 km are 311."""
    if unit != "km":
        return span
    return Span(_miles(span.over), None if span.up_to is None else _miles(span.up_to), was_km=True)


def _miles(kilometres: int) -> int:
    return int((Decimal(kilometres) / KM_IN_A_MILE).to_integral_value())
