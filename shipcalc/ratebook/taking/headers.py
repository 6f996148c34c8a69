"""The rows of headers on a page: which rows they are, and what a column means by all that stands over it.

Groups may stand above them ("Open" over two columns), units below them ("USD", "per mile").
"""

from collections.abc import Iterator, Mapping
from datetime import date

from shipcalc.ratebook.taking.answers import LEAVE_OUT, MONEY, PERCENT
from shipcalc.ratebook.taking.days import days_in, end_of_month
from shipcalc.ratebook.taking.figures import looks_like_price
from shipcalc.ratebook.taking.meanings import PLACES, PRICES, Meaning, meaning_of, with_traits
from shipcalc.ratebook.taking.page import Page
from shipcalc.ratebook.taking.traits import NO_TRAITS, Traits, bare_words, traits_in
from shipcalc.records import replace

LONGEST_LABEL = 48
_TELLING = PLACES | PRICES | {"charge", "minimum"}


def is_header(page: Page, row: int, told: Mapping[str, str]) -> bool:
    """Return whether a row is one of headers: two known fields at least, one of them a place or a price, and no figures."""
    cells = page.row(row)
    labels = {
        column: text for column, text in cells.items() if page.merged.get((row, column), (row, column)) == (row, column)
    }
    if len(labels) < 2 or any(text.endswith(":") or _is_figure(page, row, at) for at, text in labels.items()):
        return False
    meant = [one for text in labels.values() if (one := _meant(text, told)).field]
    of_places = any(one.is_place for one in meant)
    known = [one.field for one in meant if of_places or not _is_limit(one)]
    if of_places:
        known += [field for text in labels.values() if not meaning_of(text).field and (field := _dated_field(text))]
    return len(set(known)) >= 2 and bool(set(known) & _TELLING) and 2 * len(known) >= len(labels)


def _meant(header: str, told: Mapping[str, str]) -> Meaning:
    """Return what a header means by what was answered of it; one that is answered so is left out."""
    words = told.get(header, header)
    if words in (PERCENT, MONEY):
        return replace(meaning_of(header), said=words)
    return Meaning(header=words, field=LEAVE_OUT) if words == LEAVE_OUT else meaning_of(words)


def _is_limit(meant: Meaning) -> bool:
    """Return whether a label says a limit alone: it heads a price beside others, and is what stands behind "Height" as well."""
    return bool(meant.traits.limits) and meant.traits == Traits(limits=meant.traits.limits)


def _dated_field(text: str) -> str:
    dated = _dated([text], text)
    return dated.field if dated is not None else ""


def _is_figure(page: Page, row: int, column: int) -> bool:
    value = page.values[row, column]
    if isinstance(value, date):
        return False
    if isinstance(value, str):
        return looks_like_price(value) and not meaning_of(page.text(row, column)).traits.basis
    return True


def bands_of_headers(page: Page, told: Mapping[str, str]) -> Iterator[tuple[int, int]]:
    """Yield the first and the last row of each run of rows of headers, groups above and units below included."""
    row = 0
    while row < page.height:
        if not is_header(page, row, told):
            row += 1
            continue
        first = last = row
        while first > 0 and _heads_groups(page, first - 1, page.row(row)):
            first -= 1
        while last + 1 < page.height and (is_header(page, last + 1, told) or _heads_units(page, last + 1, row)):
            last += 1
        yield first, last
        row = last + 1


def _heads_groups(page: Page, row: int, below: Mapping[int, str]) -> bool:
    """Return whether a row above the headers names groups of columns: "Open" over two of them, "Destination" over others."""
    cells = page.row(row)
    own = {page.merged.get((row, column), (row, column)) for column in cells}
    if not cells or any(
        not isinstance(page.values[row, c], str) or len(text) > LONGEST_LABEL for c, text in cells.items()
    ):
        return False
    over_all = len(own) == 1 and (len(cells) >= len(below) or (len(cells) == 1 and min(cells) <= min(below)))
    says = any(meaning_of(text).field or traits_in(text)[0] != NO_TRAITS for text in cells.values())
    over_places = any(
        traits_in(text)[0] != NO_TRAITS and not meaning_of(text).is_place and meaning_of(below[at]).is_place
        for at, text in cells.items()
        if at in below and page.merged.get((row, at), (row, at)) == (row, at) and (row, at + 1) in page.values
    )
    return says and not over_all and not over_places and not any(looks_like_price(page.values[row, c]) for c in cells)


def _heads_units(page: Page, row: int, headers: int) -> bool:
    """Return whether a row below the headers says units alone: "USD", "per vehicle", "$/mi"."""
    cells = page.row(row)
    if not cells or min(cells) <= min(page.row(headers)):
        return False
    return all(
        isinstance(page.values[row, c], str) and not any(sign.isdigit() for sign in text) and _says_traits_alone(text)
        for c, text in cells.items()
    )


def _says_traits_alone(text: str) -> bool:
    traits, rest = traits_in(text)
    return (traits != NO_TRAITS or text.strip() == "%") and not bare_words(rest)


def meaning_at(page: Page, band: range, at: int, told: Mapping[str, str]) -> Meaning | None:
    """Return what a column means by its texts in the rows of headers: the lowest counts, what stands above it adds."""
    texts = list(dict.fromkeys(text for row in band if (text := _head_text(page, row, at, band))))
    if not texts:
        return None
    header = " / ".join(texts)
    if header not in told and (dated := _dated(texts, header)) is not None:
        return dated
    answer = told.get(header) or told.get(texts[-1], "")
    if answer and answer not in (PERCENT, MONEY):
        return replace(_meant(header if header in told else texts[-1], told), header=header)
    found = _meaning_of_texts(texts)
    return replace(found, header=header, said=answer)


def _meaning_of_texts(texts: list[str]) -> Meaning:
    together = meaning_of(" ".join(texts))
    meanings = [meaning_of(text) for text in texts]
    lowest = meanings[-1]
    traits = NO_TRAITS
    for text in texts[:-1]:
        traits = traits_in(text)[0].over(traits)
    if together.field and (not lowest.field or together.field not in PRICES):
        return with_traits(together, traits)
    if not lowest.field:
        lowest = next((meaning for meaning in reversed(meanings) if meaning.field), lowest)
        if lowest.field in PLACES and bare_words(texts[-1]) not in _PARTS_OF_A_PLACE:
            lowest = replace(lowest, field="skip") if len(texts) > 1 and lowest.header != texts[-1] else lowest
    elif lowest.field in ("city", "state", "zip", "zone", "country", "port", "place") and len(meanings) > 1:
        side = next((m.field for m in meanings[:-1] if m.field in ("from_place", "to_place", "pol", "pod")), "")
        if side in ("from_place", "to_place"):
            lowest = replace(lowest, field=f"{side.partition('_')[0]}_{lowest.field}")
    return with_traits(lowest, traits)


def _dated(texts: list[str], header: str) -> Meaning | None:
    """Return the meaning of a column that is headed by its month or by the day from which its prices hold; None for another."""
    days = [(text, said) for text in texts for said in days_in(text, "")]
    if len(days) != 1 or days[0][1].day is None or any(meaning_of(text).field in _DATED_FIELDS for text in texts):
        return None
    text, said = days[0]
    first = said.day
    others = bare_words(" ".join((*[one for one in texts if one != text], text[: said.start], text[said.end :])))
    meaning = meaning_of(others) if others else Meaning(header="", field="rate")
    if others in _UNTIL_WORDS:
        return Meaning(header=header, field="rate", valid_to=end_of_month(first) if said.is_month and first else first)
    if not meaning.is_price and others not in _FROM_WORDS:
        return None
    is_span = said.is_month and others not in _FROM_WORDS
    last = end_of_month(first) if is_span and first is not None else None
    return Meaning(header=header, field="rate", traits=meaning.traits, valid_from=first, valid_to=last)


_DATED_FIELDS = frozenset(("valid_from", "valid_to", "validity"))
_UNTIL_WORDS = frozenset(
    ("until", "till", "to", "thru", "through", "valid until", "valid to", "valid thru", "bis", "tot")
)
_FROM_WORDS = frozenset(
    (
        "from",
        "as of",
        "effective",
        "eff",
        "ab",
        "vanaf",
        "starting",
        "rates from",
        "prices from",
        "valid from",
        "rate from",
    )
)
_PARTS_OF_A_PLACE = frozenset(("code", "name", "un locode", "unlocode", "locode", "place", "city", "port"))


def _head_text(page: Page, row: int, at: int, band: range) -> str:
    """Return what stands over a column in a row of headers; a group's title reaches over columns without one."""
    if (row, at) in page.values:
        return page.text(row, at)
    if row == band[-1] or not any((below, at) in page.values for below in band if below > row):
        return ""
    left = at
    while left > 0 and (row, left) not in page.values:
        left -= 1
    text = page.text(row, left)
    above = _repeats(page, band[-1], left, at)
    return text if text and above and _says_traits(text) else ""


def _repeats(page: Page, row: int, left: int, at: int) -> bool:
    return all((row, column) in page.values for column in range(left, at + 1))


def _says_traits(text: str) -> bool:
    traits = traits_in(text)[0]
    return traits != NO_TRAITS
