"""What must be true of ferries."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.columns import columns_of
from shipcalc.ratebook.ferry_rows import Ferry
from shipcalc.ratebook.remarks import fault, short_cell, warning
from shipcalc.ratebook.tables import Tables


def terminals_are_whole_zips(tables: Tables) -> Iterator[Problem]:
    """A terminal stands at one ZIP, not at the beginning of some."""
    for row in tables.ferries:
        for field in ("from_zip", "to_zip"):
            if len(getattr(row, field)) != 5:
                header = columns_of(Ferry)[field].header
                yield fault(row, field, f'"{header}" is not a whole ZIP', "write its five digits, e.g. 02601")


def ferries_have_a_price_or_a_reason(tables: Tables) -> Iterator[Problem]:
    """A ferry that takes vehicles has a price, and one that does not says what to do instead."""
    for row in tables.ferries:
        if row.takes_vehicles and row.amount_minor is None:
            yield fault(row, "amount_minor", "the ferry has no price", 'write it, or "no" under Takes vehicles')
        if not row.takes_vehicles and row.remark is None:
            message = "vehicles cannot go by this ferry, and nothing says what to do instead"
            yield fault(row, "remark", message, "write where the vehicle is handed over")


def ferries_stand_once(tables: Tables) -> Iterator[Problem]:
    """Two terminals have one ferry."""
    first: dict[tuple[str, ...], Ferry] = {}
    for row in tables.ferries:
        earlier = first.setdefault(tuple(sorted((row.from_zip, row.to_zip))), row)
        if earlier is not row:
            message = f"the same terminals stand already at {short_cell(earlier, 'ferry')}"
            yield fault(row, "ferry", message, "remove one of the two rows")


def ferries_have_sources(tables: Tables) -> Iterator[Problem]:
    """A figure that decides a price says where it is from."""
    for row in tables.ferries:
        if row.source is None:
            yield warning(row, "source", "the ferry has no source", 'name it; "own estimate" is one too')


CHECKS = (terminals_are_whole_zips, ferries_have_a_price_or_a_reason, ferries_stand_once, ferries_have_sources)
