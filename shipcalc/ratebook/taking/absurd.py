"""A basis told by a line that would make every price of a table absurd, a mile for 500: it is not that of the table."""

from collections.abc import Iterator
from decimal import Decimal

from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.bands import BandTable
from shipcalc.ratebook.taking.blocks import Block
from shipcalc.ratebook.taking.figures import Figure, figure_in
from shipcalc.ratebook.taking.matrix import Matrix
from shipcalc.ratebook.taking.priced import MOST_PER_MILE
from shipcalc.ratebook.taking.rate import LeftOut
from shipcalc.records import replace

BY_DISTANCE = ("mi", "km")
WHY = "would make a mile cost as much as a trip, so that the prices of the table are taken as those of whole trips"


def within_reason(table: Block | Matrix | BandTable, around: Around) -> tuple[Around, tuple[LeftOut, ...]]:
    """Return what is said of a table, without a basis by distance that none of its prices can have; the line is named."""
    facts = around.facts
    if facts.traits.unit not in BY_DISTANCE or isinstance(table, BandTable):
        return around, ()
    numbers = list(_numbers(table, around))
    if not numbers or min(numbers) <= MOST_PER_MILE:
        return around, ()
    plain = replace(facts, traits=replace(facts.traits, unit=""))
    where = dict(facts.where).get("traits.unit", "")
    named = (LeftOut(where, f"per {facts.traits.unit}", WHY, is_taken=True),) if where else ()
    return replace(around, facts=plain), named


def _numbers(table: Block | Matrix, around: Around) -> Iterator[Decimal]:
    """Yield the prices of a table that are figures."""
    page = table.page
    columns = [column.at for column in table.prices] if isinstance(table, Block) else table.columns
    for spot in ((row, at) for row in table.rows for at in columns):
        if spot in page.values:
            found = figure_in(page.values[spot], page.formats.get(spot, ""), around.mark)
            if isinstance(found, Figure) and not found.percent:
                yield found.number
