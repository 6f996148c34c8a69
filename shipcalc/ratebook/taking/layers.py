"""Which lines of a mail speak of which table: its own title first, then the page, the page's name, the letter on other pages."""

from collections.abc import Sequence

from shipcalc.ratebook.taking.days import Order
from shipcalc.ratebook.taking.letter import Facts, Line, facts_in
from shipcalc.ratebook.taking.notes import marks_in
from shipcalc.ratebook.taking.page import Page
from shipcalc.ratebook.taking.traits import traits_in
from shipcalc.records import fields, replace


def facts_of_page(
    page: Page, tables: Sequence[tuple[int, int]], lines: Sequence[Line], letters: Sequence[Line], order: Order
) -> tuple[Facts, ...]:
    """Return what is said of each table of a page. `tables` are (first row, row after the last); `lines` are outside of them."""
    titles = [_title_rows(page, number, tables) for number in range(len(tables))]
    of_titles = {row for rows in titles for row in rows}
    rest = [line for line in lines if line.row not in of_titles]
    general = [facts_in(rest, order), Facts(traits=traits_in(page.sheet.name)[0]), facts_in(letters, order)]
    marks = marks_in((*lines, *letters))
    found = []
    for rows in titles:
        own = facts_in([line for line in lines if line.row in rows], order)
        limits = own.traits.limits
        for layer in general:
            own = over(own, layer)
        if limits:  # what a table's own title says of limits is not what another's says
            own = replace(own, traits=replace(own.traits, limits=limits))
        found.append(replace(own, where=(*own.where, *((f"note {sign}", text) for sign, text in marks))))
    return tuple(found)


def _title_rows(page: Page, number: int, tables: Sequence[tuple[int, int]]) -> frozenset[int]:
    """Return the rows right above a table that are its own title: on a page with one table there are none, all speak of it."""
    if len({first for first, _ in tables}) < 2:
        return frozenset()
    first = tables[number][0]
    end_before = max((end for start, end in tables if start < first), default=-1)
    rows: set[int] = set()
    row = first - 1
    blank = 0
    while row >= max(end_before, 0) and blank < 2:
        if page.row(row):
            rows.add(row)
        elif rows:
            break
        else:
            blank += 1
        row -= 1
    is_head = end_before < 0 and not any(page.row(above) for above in range(row + 1))
    return frozenset() if is_head else frozenset(rows)


def over(own: Facts, other: Facts) -> Facts:
    """Return facts, with the other's where these say nothing."""
    said = {
        f.name: getattr(own, f.name)
        for f in fields(Facts)
        if f.name not in ("traits", "where", "clash", "unclear_days")
    }
    if own.valid_from or own.valid_to:
        said |= {
            "valid_from": own.valid_from,
            "valid_to": own.valid_to
            or (other.valid_to if own.valid_from and other.valid_to and other.valid_to > own.valid_from else None),
        }
    kept = {name: value for name, value in said.items() if value not in (None, "")}
    return replace(
        other,
        **kept,
        traits=own.traits.over(other.traits),
        where=(*own.where, *other.where),
        clash=(*own.clash, *other.clash),
        unclear_days=(*own.unclear_days, *other.unclear_days),
    )
