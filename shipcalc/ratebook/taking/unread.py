"""What the cells of a page's tables state and nobody has read: limits in headers, words at a trailer, cells beside them."""

import re
from collections.abc import Iterator, Mapping

from shipcalc.ratebook.taking.blocks import Block
from shipcalc.ratebook.taking.days import Order, days_in
from shipcalc.ratebook.taking.matrix import Matrix
from shipcalc.ratebook.taking.meanings import SURCHARGE, is_known_header, meaning_of
from shipcalc.ratebook.taking.notes import unread_in
from shipcalc.ratebook.taking.page import Page, Spot
from shipcalc.ratebook.taking.rate import LeftOut
from shipcalc.ratebook.taking.stated import limits_in, says_condition, says_money, states
from shipcalc.ratebook.taking.tables import Table, Tables, first_row
from shipcalc.ratebook.taking.trait_words import STANDARD
from shipcalc.ratebook.taking.traits import traits_in

KEPT_AS_NOTE = "holds for {} alone, for which the sheet has no column: it is kept as the rows' note"
SAYS_MORE = "says more than is taken of it: {}"
PRICE_HEADER = "header of prices"
BESIDE = "stands beside the tables and is in none of the prices"
STRUCK = "is struck out"
NAME_SAYS = "the name of the sheet {} says what no column takes: {}"
_OF_TRAITS = frozenset(("trailer", "mode", "basis", "container", "currency", "fuel_said", "free_days", "fuel"))
_OF_DAYS = frozenset(("valid_from", "valid_to", "validity"))


def unread_cells(one: Tables, named: frozenset[str], order: Order) -> Iterator[LeftOut]:
    """Yield what stands in the rows of a page's tables, and in its name, and is in no rate; `named` are cells told already."""
    page = one.page
    yield from _of_name(page, order)
    roles = _roles(one)
    told = {at for row in _rows(one) for at in page.row(row) if page.short(row, at) in named and (row, at) not in roles}
    beside: dict[int, list[Spot]] = {}
    rows = _rows(one)
    yield from (
        LeftOut(page.short(*spot), page.text(*spot), STRUCK)
        for spot in sorted(page.struck)
        if spot in page.values and spot[0] not in rows and page.merged.get(spot, spot) == spot
    )
    for row in sorted(rows):
        for at, text in page.row(row).items():
            spot = (row, at)
            if page.short(*spot) in named or page.merged.get(spot, spot) != spot:
                continue
            if spot in page.struck:
                yield LeftOut(page.short(*spot), text, STRUCK)
            elif spot not in roles and states(text) and at not in told:
                beside.setdefault(at, []).append(spot)
            elif spot in roles:
                yield from _of_cell(page.short(*spot), text, roles[spot], order)
    for spots in beside.values():
        texts = list(dict.fromkeys(page.text(*spot) for spot in spots))
        few = ", ".join(texts[:3]) + (" …" if len(texts) > 3 else "")
        yield LeftOut(page.short(*spots[0]), few, BESIDE)


def _rows(one: Tables) -> set[int]:
    rows = {row for table, end in zip(one.tables, one.ends, strict=True) for row in range(first_row(table), end)}
    return rows | (set(one.form.rows) if one.form is not None else set())


def _roles(one: Tables) -> Mapping[Spot, str]:
    """Return what each cell of the tables is: "header", a field, "" for those that are read strictly or named elsewhere."""
    roles: dict[Spot, str] = {}
    for table, end in zip(one.tables, one.ends, strict=True):
        roles |= _roles_in(table, end)
    for part in one.form.parts if one.form is not None else ():
        roles |= {(pair.row, at): "" for pair in part.pairs for at in (pair.at, *pair.cells)}
        roles |= {(pair.row, at): pair.field for pair in part.pairs for at in pair.cells if pair.cells != (pair.at,)}
        roles |= {spot: "title" for spot, _ in part.headings}
    return roles


def _roles_in(table: Table, end: int) -> dict[Spot, str]:
    page = table.page
    if isinstance(table, Block):
        heads = range(table.first_row, table.header_row + 1)
        own = {
            (row, column.at): PRICE_HEADER if column.meaning.is_price else "header"
            for row in heads
            for column in table.columns
        }
        rows = range(table.header_row + 1, end)
        joined = " / ".join(column.header for column in table.prices)
        own |= {
            spot: ""
            for spot, role in own.items()
            if role == "header" and page.text(*spot) in joined and page.text(*spot)
        }
        return own | {(row, column.at): column.meaning.field for row in rows for column in table.columns}
    if isinstance(table, Matrix):
        rows = range(table.header_row + 1, end)
        found = {(row, at): "" for row in rows for at in (table.label_column, *table.columns)}
        found |= {(table.header_row, at): "" for at in table.columns}
        return found | {(table.header_row, table.label_column): "header"}
    rows = range(table.header_row, end)
    ats = range(max(band.at for band in table.bands) + 1 if table.is_across else page.width)
    return {(row, at): "" for row in rows for at in ats}


def _of_cell(where: str, text: str, role: str, order: Order) -> Iterator[LeftOut]:
    if role in ("header", PRICE_HEADER):
        yield from _of_header(where, text, role)
    elif role == "title":
        if (limits := limits_in(text)) or says_condition(traits_in(text)[1]):
            yield LeftOut(
                where, text, KEPT_AS_NOTE.format(", ".join(limits)) if limits else SAYS_MORE.format(text), is_taken=True
            )
    elif role in _OF_TRAITS:
        yield from _of_traits(where, text, role)
    elif role in _OF_DAYS:
        rest = text
        for day in reversed(days_in(text, order)):
            rest = f"{rest[: day.start]} {rest[day.end :]}"
        is_no_day = not days_in(text, order) and re.search(r"[^\W\d_]{3}", text) is not None
        if is_no_day or (days_in(text, order) and says_condition(rest)):
            yield LeftOut(where, text, SAYS_MORE.format(rest.strip()), is_taken=True)
    elif role in ("pol", "pod") and ((limits := limits_in(text)) or says_condition(text) or _is_more_than_port(text)):
        yield LeftOut(where, text, SAYS_MORE.format(", ".join(limits) or text), is_taken=True)


def _is_more_than_port(text: str) -> bool:
    """Return whether figures, a currency or a mark stand beside a port: "Houston +$90"; codes of ports have figures, too."""
    rest = re.sub(r"\b[A-Z]{2} ?[A-Z2-9]{3}\b", " ", text)
    return says_money(rest) or re.search(r"[\d*†‡#+]", rest) is not None


def _of_header(where: str, text: str, role: str) -> Iterator[LeftOut]:
    """Yield what a header says beside what its column is: a limit, a number, a condition."""
    traits, rest = traits_in(text)
    if traits.limits and role == PRICE_HEADER:
        yield LeftOut(where, text, KEPT_AS_NOTE.format(", ".join(traits.limits)), is_taken=True)
    elif traits.limits:
        yield LeftOut(where, text, SAYS_MORE.format(", ".join(traits.limits)))
    elif (
        not (is_known_header(text) or meaning_of(text).field.startswith(SURCHARGE))
        and not days_in(text, "")
        and states(rest.replace("%", " "))
    ):
        yield LeftOut(where, text, SAYS_MORE.format(rest), is_taken=True)


def _of_traits(where: str, text: str, role: str) -> Iterator[LeftOut]:
    traits, rest = traits_in(text)
    if traits.limits:
        yield LeftOut(where, text, KEPT_AS_NOTE.format(", ".join(traits.limits)), is_taken=True)
    elif role == "free_days" and (says_money(text) or len(re.findall(r"\d+", text)) > 1):
        yield LeftOut(where, text, SAYS_MORE.format(text))
    elif role in ("free_days", "fuel", "fuel_said", "basis"):
        if says_condition(rest.replace("%", " ")) and len(rest.split()) > 2:
            yield LeftOut(where, text, SAYS_MORE.format(rest), is_taken=True)
    elif states(rest) or traits.variant not in ("", STANDARD):
        yield LeftOut(
            where, text, SAYS_MORE.format(" ".join(one for one in (rest, traits.variant) if one)), is_taken=True
        )


def _of_name(page: Page, order: Order) -> Iterator[LeftOut]:
    name = page.sheet.name
    if (
        name
        and (more := unread_in(name, order))
        and any((limits_in(name), says_condition(name), traits_in(name)[0].variant))
    ):
        yield LeftOut("", name, NAME_SAYS.format(name, more), is_taken=True)
