"""Until when prices hold, as a letter's lines say it: two days, one day, a month, a quarter, or so many days from its own day."""

import re
from collections.abc import Iterator
from datetime import date

from shipcalc.ratebook.taking.days import Order, Said, days_in, end_of_month

# A title of a month is shorter than a sentence that has a month in it.
LONGEST_TITLE = 60
_HOLDS = re.compile(
    r"\b(?:valid\w*|effective|in force|gültig\w*|geldig\w*|valable|válid\w*|vigencia|good (?:from|through|until|thru))\b",
    re.IGNORECASE,
)
QUARTER = re.compile(r"\bq([1-4])[ /-]*(20\d{2})\b", re.IGNORECASE)
_SPAN = re.compile(r"\s*(?:[-–—]|to|thru|through|until|till|bis|t/m|tot|au|al|hasta)\s*", re.IGNORECASE)
_VALID = re.compile(
    r"\b(?:valid|validity|effective|eff\.|in force|period|good|expir\w*|until|till|thru|through|"
    r"rates? for|prices? for|as of|applicable|apply|pick ?-?ups? from|"
    r"starting|from|beginning|book by|gültig\w*|gueltig\w*|geldig\w*|valable|validité|vigueur|"
    r"válid\w*|valid[ao]|vigencia|ab|bis|tot|vanaf)\b",
    re.IGNORECASE,
)
_ENDS = re.compile(
    r"\b(?:until|till|thru|through|to|expir\w*|before|by|ends?|bis|t/m|tot|au|jusqu\S*|hasta|al|"
    r"good until|not later than)\b[^0-9a-z]*(?:the |einschl\w*|incl\w*|und mit)?[^0-9a-z]*$|"
    r"[-–—→]\s*$|\bexpir\w*\b.{0,20}$",
    re.IGNORECASE,
)
_ISSUED = re.compile(
    r"\b(?:issued|dated?|date of issue|vom|printed|created|prepared|as per mail|last updated|"
    r"updated|request(?:ed)?|inquiry|your mail|datum|stand)\b[^0-9]{0,20}$|(?<!\bas )\bof\s*$",
    re.IGNORECASE,
)
GOOD_FOR = re.compile(
    r"\b(?:good|valid|firm|open|holds?|validity)\b[^0-9.;]{0,20}?\b(\d{1,3}) (?:calendar )?days\b(?! free)",
    re.IGNORECASE,
)


def issued_in(text: str, order: Order) -> Iterator[tuple[str, object]]:
    """Yield the day of a letter ("Date: …", "Tacoma, 1 December 2026"), and for how many days from then its prices are good."""
    if found := GOOD_FOR.search(text):
        yield "good_for", int(found[1])
    days = days_in(text, order)
    if len(days) == 1 and days[0].day is not None and not days[0].is_month:
        before, after = text[: days[0].start], text[days[0].end :]
        is_head = len(before.split()) <= MOST_BEFORE_DAY and not after.strip(" .") and not _VALID.search(before)
        if _ISSUED.search(before) or is_head:
            yield "issued", days[0].day


MOST_BEFORE_DAY = 3


def validity_in(text: str, order: Order) -> Iterator[tuple[str, object]]:
    """Yield from when and until when a line says that prices hold."""
    said = [one for one in days_in(text, order) if not _ISSUED.search(text[: one.start])]
    word = _HOLDS.search(text)
    behind = [one for one in said if word is not None and one.start >= word.end()]
    said = behind or said
    if quarter := QUARTER.search(text):
        begins = date(int(quarter[2]), 3 * int(quarter[1]) - 2, 1)
        said = said or [
            Said(begins, 0, 0, is_month=True),
            Said(begins.replace(month=begins.month + 2), 0, 0, is_month=True),
        ]
    is_title = quarter is not None or (len(said) == 1 and said[0].is_month and len(text) <= LONGEST_TITLE)
    is_span = len(said) == 2 and _SPAN.fullmatch(text[said[0].end : said[1].start]) is not None
    if not said or len(said) > 2 or not (is_title or is_span or _VALID.search(text)):
        return
    if any(one.day is None for one in said):
        yield "unclear", " or ".join(day.isoformat() for one in said for day in one.readings)
        return
    if len(said) >= 2:
        first, last = said[0], said[1]
        yield from _between(first, last)
    else:
        yield from _one_day(text, said[0])


def _between(first: Said, last: Said) -> Iterator[tuple[str, object]]:
    assert first.day is not None
    assert last.day is not None
    begins = first.day
    if first.without_year and begins > last.day:
        begins = begins.replace(year=begins.year - 1)
    ends = end_of_month(last.day) if last.is_month else last.day
    if begins <= ends:
        yield "valid_from", begins
        yield "valid_to", ends


def _one_day(text: str, said: Said) -> Iterator[tuple[str, object]]:
    assert said.day is not None
    before = text[: said.start]
    if _ENDS.search(before):
        yield "valid_to", end_of_month(said.day) if said.is_month else said.day
    elif said.is_month and not re.search(
        r"\b(?:from|effective|as of|starting|beginning|ab|vanaf)\b[^0-9]{0,12}$", before, re.IGNORECASE
    ):
        yield "valid_from", said.day
        yield "valid_to", end_of_month(said.day)
    else:
        yield "valid_from", said.day
