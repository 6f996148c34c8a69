"""Quotations as forms: a label, and behind it what it says ("Port of loading | Savannah").

One or several on a page, one below the other (each with a heading, or where the labels begin again) or side by side.
"""

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from shipcalc.ratebook.taking.figures import looks_like_price
from shipcalc.ratebook.taking.headers import is_header
from shipcalc.ratebook.taking.letter import facts_of_text
from shipcalc.ratebook.taking.page import Page, Spot
from shipcalc.ratebook.taking.pairs import ONCE, PLACE, Pair, Part, pairs_of_row
from shipcalc.ratebook.taking.traits import traits_in
from shipcalc.records import dataclass, replace

_OPTION = re.compile(
    r"^\s*(?:\(?(?:\d{1,2}|[a-h]|[ivx]{1,4})[).:]\s|(?:option|offer|quot\w*|lane|route|case|variant\w*|alternative|item|no)\b\.?"
    r"\s*(?:no\.?\s*)?[\w-]{0,8}\s*[:).–—-]?\s*)",
    re.IGNORECASE,
)
_OF_CHARGES = re.compile(r"\b(?:sur)?charges?\b|\bfees\b|\bzuschl\w+|\bnebenkosten\b|\btoeslagen\b", re.IGNORECASE)
LONGEST_HEADING = 90
LEAST_PAIRS = 3


@dataclass(frozen=True, slots=True, eq=False)
class Form:
    """The quotations of a page in which labels stand before their values."""

    page: Page
    parts: tuple[Part, ...]
    rows: frozenset[int]


def form_of(page: Page) -> Form | None:
    """Return the form that a page is; None for a page of tables or of words."""
    below_headers = frozenset(_below_headers(page))
    pairs = [pair for row in range(page.height) if row not in below_headers for pair in pairs_of_row(page, row)]
    columns = _columns(pairs)
    if not any(pair.is_freight for pair in pairs) or len(pairs) < LEAST_PAIRS or _is_of_many(page, pairs):
        return None
    parts: list[Part] = []
    starts = sorted(columns)
    freights = [at for at in starts if any(pair.is_freight for pair in columns[at])]
    for at in starts:
        beyond = next((other for other in freights if other > at), page.width)
        headings = list(_headings(page, range(at, beyond), columns[at], below_headers)) if at in freights else []
        parts += _parts(page, columns[at], headings)
    if not any(part.has_freight and _says_where(part) for part in parts) and not _says_where(*parts):
        return None
    rows = {pair.row for pair in pairs} | {spot[0] for part in parts for spot, _ in part.headings}
    return Form(page, tuple(parts), frozenset(rows))


def _is_of_many(page: Page, pairs: Sequence[Pair]) -> bool:
    """Return whether most sums stand beside others: that is a table whose headers stand one below the other."""
    sums = [pair for pair in pairs if pair.is_sum]
    many = [one for one in sums if sum(looks_like_price(page.values[one.row, at]) for at in one.cells) > 1]
    return 2 * len(many) > len(sums)


def _says_where(*parts: Part) -> bool:
    fields = {pair.field for part in parts for pair in part.pairs}
    both = len({field[:2] for field in fields & PLACE} & {"po", "fr", "to"}) and (
        {"pol", "pod"} <= fields or {"from", "to"} <= {field.partition("_")[0] for field in fields} or "lane" in fields
    )
    return bool(both) or any(names_both_ends(text) for part in parts for _, text in part.headings)


@lru_cache(maxsize=512)
def names_both_ends(text: str) -> bool:
    """Return whether a heading names two ports, or says that it is from one place to another."""
    facts = dict(facts_of_text(text))
    return ("pol" in facts and "pod" in facts) or re.search(
        r"\S\s*(?:→|->|\bto\b|\bnach\b|\s[–—-])\s*\S", text
    ) is not None


def without_number(heading: str) -> str:
    """Return a heading without what counts it: "2) Savannah to Antwerp" → Savannah to Antwerp."""
    return _OPTION.sub("", heading)


def _below_headers(page: Page) -> Iterator[int]:
    """Yield the rows of tables: those of headers, and down to the next blank row."""
    inside = False
    for row in range(page.height):
        if not page.row(row):
            inside = False
        elif is_header(page, row, {}) and not any(pairs_of_row(page, row)):
            inside = True
        if inside:
            yield row


def _columns(pairs: Sequence[Pair]) -> dict[int, list[Pair]]:
    """Return the pairs by the column of their labels; labels that are set in a little belong to those before them."""
    found: dict[int, list[Pair]] = {}
    for pair in pairs:
        found.setdefault(pair.at, []).append(pair)
    for at in sorted(found)[1:]:
        left = max(other for other in found if other < at)
        if not {pair.row for pair in found[left]} & {pair.row for pair in found[at]}:
            found[left] = sorted((*found[left], *found.pop(at)), key=lambda pair: pair.row)
    return found


def _headings(page: Page, columns: range, pairs: Sequence[Pair], not_in: frozenset[int]) -> Iterator[tuple[Spot, str]]:
    """Yield the lines of one text that stand over quotations: they count them, or say from where to where, or in what."""
    rows = {pair.row for pair in pairs}
    last = max((pair.row for pair in pairs if pair.is_sum), default=0)
    first = min((pair.row for pair in pairs if pair.is_freight), default=last)
    for row in range(last):
        cells = page.row(row, columns)
        texts = set(cells.values())
        if row in rows or row in not_in or len(texts) != 1 or len(text := texts.pop()) > LONGEST_HEADING:
            continue
        at = min(cells)
        traits = traits_in(text)[0]
        says_what = bool(traits.basis or traits.mode or traits.trailer) and row + 1 in rows
        facts = dict(facts_of_text(text))
        over_charges = row > first and _OF_CHARGES.search(text) is not None
        if "reference" not in facts and (
            over_charges or says_what or _OPTION.match(text) or ("pol" in facts and "pod" in facts)
        ):
            yield (row, at), text


def _parts(page: Page, pairs: Sequence[Pair], headings: Sequence[tuple[Spot, str]]) -> Iterator[Part]:
    """Yield the parts of a column of labels: at a heading, and where a label that stands once comes again."""
    part = Part()
    before = -1
    events: list[tuple[int, Pair | tuple[Spot, str]]] = [(pair.row, pair) for pair in pairs]
    events += [(spot[0], (spot, text)) for spot, text in headings]
    for row, one in sorted(events, key=lambda event: event[0]):
        if isinstance(one, Pair):
            has_sum = any(pair.is_sum for pair in part.pairs)
            gap = any(not page.row(between) for between in range(before + 1, row))
            if has_sum and one.field in ONCE and (part.of(one.field) or (gap and one.field in PLACE)):
                yield part
                part = Part()
            part = replace(part, pairs=(*part.pairs, one))
        elif part.pairs:
            yield part
            part = Part((), (one,))
        else:
            part = replace(part, headings=(*part.headings, one))
        before = row
    if part.pairs or part.headings:
        yield part
