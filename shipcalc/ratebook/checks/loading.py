"""What must be true of the ways of loading: each can be done with what works on the vehicle, and each counts somewhere."""

from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.loading import LoadingWay
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.misread import nearest
from shipcalc.trade import CROSSING_BY_MODE, OCEAN_MODES

CONDITIONS = ("runs", "rolls", "steers", "brakes")
# What must work on a vehicle that goes by its own wheels (common practice, no source; a tow may hold what does not brake).
_MUST_WORK = {"driven": CONDITIONS, "towed": ("rolls", "steers")}


def wheels_turn(tables: Tables) -> Iterator[Problem]:
    """Nothing is driven aboard that does not run, roll, steer and brake, and nothing is towed that does not roll and steer."""
    for row in tables.loading_ways:
        if not CROSSING_BY_MODE[row.mode].is_driven_aboard:
            continue
        for field in _MUST_WORK.get(row.loading, ()):
            if getattr(row, field) is not True:
                message = f"a vehicle is {row.loading} aboard here whether it {field} or not"
                yield fault(row, field, message, "write yes, or change Loaded to static")


def ways_suit_modes(tables: Tables) -> Iterator[Problem]:
    """A container is packed, and what vehicles are driven aboard is driven onto."""
    for row in tables.loading_ways:
        driven = CROSSING_BY_MODE[row.mode].is_driven_aboard
        if (row.loading == "container") == driven:
            remedy = "write driven, towed or static" if driven else "write container"
            yield fault(row, "loading", f'"{row.loading}" does not suit {row.mode}', remedy)


def ways_count_somewhere(tables: Tables) -> Iterator[Problem]:
    """Of the rows that hold the first counts, so none stands below one that holds wherever it does."""
    above: list[LoadingWay] = []
    for row in tables.loading_ways:
        hides = next((other for other in above if _covers(other, row)), None)
        if hides is not None:
            where = short_cell(hides, "code")
            message = f'"{row.code}" never counts: "{hides.code}" at {where} holds before it'
            yield warning(row, "code", message, "move it above that row, or remove it")
        above.append(row)


def lines_are_known(tables: Tables) -> Iterator[Problem]:
    """A line that a way names sails, with that mode, on the sheet Ocean."""
    if tables.unread.get("Ocean", frozenset()):
        return
    for row in tables.loading_ways:
        known = {service.carrier.casefold(): service.carrier for service in tables.ocean if service.mode == row.mode}
        for line in row.lines:
            if line.casefold() not in known:
                near = nearest(line, known.values())
                remedy = f'write "{near}"' if near else "write a line that stands there"
                yield fault(row, "lines", f'"{line}" has no {row.mode} on the sheet Ocean', remedy)


def each_mode_is_loaded(tables: Tables) -> Iterator[Problem]:
    """Where the sheet is filled, every mode that is sold has a way for a vehicle on which all works."""
    rows = tables.loading_ways
    if not rows or tables.unread.get("Ways of loading", frozenset()):
        return
    sold = {service.mode for service in tables.ocean}
    for mode in OCEAN_MODES:
        own = [row for row in rows if row.mode == mode]
        if mode in sold and not any(_takes_what_works(row) for row in own):
            message = f"no row loads {mode} for a vehicle that runs, so none is ever offered"
            yield warning(rows[-1], "mode", message, f"add a row for {mode}")


def _takes_what_works(row: LoadingWay) -> bool:
    return all(getattr(row, field) is not False for field in CONDITIONS) and not row.lines


def _covers(one: LoadingWay, other: LoadingWay) -> bool:
    lines = {line.casefold() for line in one.lines}
    return (
        one.mode == other.mode
        and (not lines or (bool(other.lines) and lines >= {line.casefold() for line in other.lines}))
        and all(getattr(one, field) in (None, getattr(other, field)) for field in CONDITIONS)
    )


CHECKS = (wheels_turn, ways_suit_modes, ways_count_somewhere, lines_are_known, each_mode_is_loaded)
