"""What must be true of ferries."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.measures import METRES_PER_MILE, METRES_PER_NAUTICAL_MILE
from shipcalc.places.gazetteer.pages import PostalCode, postal_code
from shipcalc.places.straight import great_circle_mi_of
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import columns_of


def terminals_are_whole_zips(tables: Tables) -> Iterator[Problem]:
    """A terminal stands at one ZIP, not at the beginning of some."""
    for row in tables.ferries:
        for field in ("from_zip", "to_zip"):
            if len(getattr(row, field)) != 5:
                header = columns_of(Ferry)[field].header
                yield fault(row, field, f'"{header}" is not a whole ZIP', "write its five digits, e.g. 02601")


def terminals_are_known_and_near(tables: Tables) -> Iterator[Problem]:
    """Both terminals are ZIPs that there are, no farther apart than the crossing is; each stands in the middle of its ZIP."""
    for row in tables.ferries:
        ends = {field: postal_code(getattr(row, field)) for field in ("from_zip", "to_zip")}
        for field, end in ends.items():
            if end is None and len(getattr(row, field)) == _WHOLE_ZIP:
                yield fault(row, field, f"there is no ZIP {getattr(row, field)}", "write the terminal's, e.g. 02601")
        apart_mi = _apart_mi(*ends.values())
        if apart_mi is not None and apart_mi > _farthest_mi(row):
            far = f"{row.from_zip} and {row.to_zip} are {apart_mi:,.0f} miles apart"
            crossing = f", and the crossing is {row.crossing_nmi:g} sea miles" if row.crossing_nmi is not None else ""
            yield fault(row, "to_zip", far + crossing, "correct one of the two ZIPs, or the sea miles")


def _farthest_mi(row: Ferry) -> float:
    known_mi = (
        _FARTHEST_MI if row.crossing_nmi is None else row.crossing_nmi * METRES_PER_NAUTICAL_MILE / METRES_PER_MILE
    )
    return known_mi + 2 * _ZIP_REACHES_MI


def _apart_mi(one: PostalCode | None, other: PostalCode | None) -> float | None:
    if one is None or one.latitude is None or one.longitude is None:
        return None
    if other is None or other.latitude is None or other.longitude is None:
        return None
    return great_circle_mi_of(one.latitude, one.longitude, other.latitude, other.longitude)


def ferries_have_a_price_or_a_reason(tables: Tables) -> Iterator[Problem]:
    """A ferry that takes vehicles has a price, and one that does not says what to do instead."""
    for row in tables.ferries:
        if row.takes_vehicles and row.amount_minor is None:
            yield fault(row, "amount_minor", "the ferry has no price", 'write it, or "no" under Takes vehicles')
        if not row.takes_vehicles and row.remark is None:
            message = "vehicles cannot go by this ferry, and nothing says what to do instead"
            yield fault(row, "remark", message, "write where the vehicle is handed over")


def ferries_stand_once(tables: Tables) -> Iterator[Problem]:
    """Two terminals have one ferry, and a carrier one fare on it."""
    first: dict[tuple[frozenset[str], str], Ferry] = {}
    for row in tables.ferries:
        earlier = first.setdefault((row.terminals, (row.carrier or "").casefold()), row)
        if earlier is not row:
            message = f"the same terminals stand already at {short_cell(earlier, 'ferry')}"
            yield fault(row, "ferry", message, "remove one of the two rows")


def fares_have_ferries(tables: Tables) -> Iterator[Problem]:
    """A carrier's own fare stands beside the ferry's row for all, which says where and how it goes."""
    for_all = {row.terminals for row in tables.ferries if not row.carrier}
    for row in tables.ferries:
        if row.carrier and row.terminals not in for_all:
            message = "these terminals have no row without a carrier"
            yield fault(row, "carrier", message, "add the ferry with the price for all others")
        elif row.carrier and not row.takes_vehicles:
            yield fault(row, "takes_vehicles", "a carrier's own row is a price", "write it, or remove the row")


def ferries_have_sources(tables: Tables) -> Iterator[Problem]:
    """A figure that decides a price says where it is from."""
    for row in tables.ferries:
        if row.source is None:
            yield warning(row, "source", "the ferry has no source", 'name it; "own estimate" is one too')


_WHOLE_ZIP = 5
# How far a terminal may lie from the middle of its ZIP; and how far a ferry may go whose crossing nobody wrote down.
_ZIP_REACHES_MI, _FARTHEST_MI = 20.0, 150.0

CHECKS = (
    terminals_are_whole_zips,
    terminals_are_known_and_near,
    ferries_have_a_price_or_a_reason,
    ferries_stand_once,
    fares_have_ferries,
    ferries_have_sources,
)
