"""A label and what stands behind it ("Port of loading | Savannah"), as rows of a form have them; one quotation of them."""

import re
from collections.abc import Iterator, Sequence

from shipcalc.ratebook.taking.figures import is_included, looks_like_price
from shipcalc.ratebook.taking.meanings import PRICES, SURCHARGE, Meaning, meaning_of
from shipcalc.ratebook.taking.page import Page, Spot
from shipcalc.ratebook.taking.traits import NO_TRAITS, bare_words, traits_in
from shipcalc.records import dataclass, replace

ISSUED = frozenset(
    "date|issued|issue date|date of issue|issued on|quote date|quotation date|offer date|datum|angebotsdatum|fecha".split(
        "|"
    )
)
OF_TRAITS = frozenset(("trailer", "mode", "container", "currency", "basis"))
PLACE = frozenset(("pol", "pod", "from_place", "to_place", "from_city", "to_city", "from_zip", "to_zip", "lane"))
# What a quotation says once; the label again is the next one's.
ONCE = PLACE | {"trailer", "mode", "container", "reference"}
# What is said once for all quotations of a page, where only the first one has it.
OF_ALL = frozenset(("reference", "valid_from", "valid_to", "validity", "issued", "currency"))
_FACTS = ONCE | OF_ALL | {"free_days", "basis"}
# The number of a quotation behind "Quote" or "Offer", which may head a price as well.
_NUMBER = re.compile(r"[A-Z]{1,6}[-/ .]?[A-Z0-9]*\d[A-Z0-9]*(?:[-/.][A-Z0-9]+)*")


@dataclass(frozen=True, slots=True)
class Pair:
    """A label with what stands behind it: the cells up to the next label; one cell of both has its text in `text` alone."""

    label: str
    field: str
    meaning: Meaning
    row: int
    at: int
    cells: tuple[int, ...]
    text: str

    @property
    def is_freight(self) -> bool:
        """Return whether it is the price of a carriage."""
        return self.meaning.is_price

    @property
    def is_sum(self) -> bool:
        """Return whether it is a price or a surcharge."""
        return self.is_freight or self.field.startswith(SURCHARGE)


@dataclass(frozen=True, slots=True)
class Part:
    """One quotation of a form, or what is said of several; `headings` are the lines above it."""

    pairs: tuple[Pair, ...] = ()
    headings: tuple[tuple[Spot, str], ...] = ()

    @property
    def has_freight(self) -> bool:
        """Return whether a freight is quoted in it."""
        return any(pair.is_freight for pair in self.pairs)

    def of(self, *fields: str) -> tuple[Pair, ...]:
        """Return the pairs of some fields."""
        return tuple(pair for pair in self.pairs if pair.field in fields)


def label_of(text: str) -> tuple[str, Meaning]:
    """Return the field that a label heads, "" for none."""
    bare = text.strip().rstrip(" :.")
    words = bare_words(bare)
    if words in ISSUED:
        return "issued", Meaning(header=bare, field="issued")
    meaning = meaning_of(bare)
    if meaning.field in _FACTS or meaning.field.startswith(SURCHARGE):
        return meaning.field, meaning
    if meaning.field == "fuel":
        return f"{SURCHARGE}bunker", replace(meaning, field=f"{SURCHARGE}bunker")
    is_price = meaning.field in PRICES and re.search(r"[^\W\d_]{3}", bare) is not None
    return (meaning.field, meaning) if is_price else ("", meaning)


def pairs_of_row(page: Page, row: int) -> Iterator[Pair]:
    """Yield the labels of a row, each with the cells behind it up to the next label."""
    cells = page.row(row)
    ats = [at for at in cells if page.merged.get((row, at), (row, at)) == (row, at)]
    labels = {at: label_of(cells[at]) for at in ats if isinstance(page.values[row, at], str)}
    number = 0
    while number < len(ats):
        at = ats[number]
        number += 1
        label, colon, value = cells[at].partition(":")
        if colon and value.strip() and label_of(label)[0] and isinstance(page.values[row, at], str):
            field, meaning = label_of(label)
            yield Pair(label.strip(), field, meaning, row, at, (at,), value.strip())
            continue
        field, meaning = labels.get(at, ("", Meaning(header="")))
        beside = []
        while field and number < len(ats) and not _begins_pair(cells, ats[number], field):
            beside.append(ats[number])
            number += 1
        if field and beside and _may_say(page, row, beside, field):
            text = " ".join(cells[one] for one in beside)
            if field in PRICES and _NUMBER.fullmatch(text):
                field, meaning = "reference", Meaning(header=meaning.header, field="reference")
            yield Pair(cells[at].strip().rstrip(" :"), field, meaning, row, at, tuple(beside), text)


def _begins_pair(cells: dict[int, str], at: int, before: str) -> bool:
    """Return whether a cell is a label, and no value of the label `before` it: "40′HC" behind "Equipment" is a value."""
    text = cells[at]
    if any(sign.isdigit() for sign in text) and ":" not in text:
        return False
    field, meaning = label_of(text.partition(":")[0])
    is_trait = bool(field) and not bare_words(traits_in(text)[1])
    return bool(field) and not (is_trait and (before in OF_TRAITS or meaning.is_price or before.startswith(SURCHARGE)))


def _may_say(page: Page, row: int, beside: Sequence[int], field: str) -> bool:
    texts = [page.text(row, at) for at in beside]
    if field in PRICES or field.startswith(SURCHARGE):
        return any(any(sign.isdigit() for sign in text) or is_included(text) for text in texts)
    if field in PLACE:
        says_trait = traits_in(texts[0])[0] != NO_TRAITS and not bare_words(traits_in(texts[0])[1])
        return not says_trait and not looks_like_price(page.values[row, beside[0]])
    return True
