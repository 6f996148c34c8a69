"""What a line asks for a passage at sea that is dangerous or dear on the day, as the sheet *Passages* has it."""

from collections.abc import Iterator, Sequence

import numpy as np

from shipcalc.money import Int64
from shipcalc.places.sea.passages import PASSAGES
from shipcalc.pricing.counted import lump_line, percent_line
from shipcalc.pricing.line import Line
from shipcalc.ratebook.rows.ways import PassageState
from shipcalc.vehicles.vehicle import Vehicle

STAGE = "main carriage"
_READS = {passage.name: passage.reads for passage in PASSAGES}


def has_surcharge(row: PassageState) -> bool:
    """Return whether the manager has set a surcharge; a passage that is closed has none, since no ship takes it."""
    return row.state != "closed" and bool(row.surcharge_minor or row.surcharge_ppm)


def passage_lines(row: PassageState, vehicles: Sequence[Vehicle], *, markup_ppm: int) -> Iterator[Line]:
    """Yield the surcharge of one passage for each vehicle, (n or 1, 1): a sum, a share of the value, or both."""
    label = f"War risk surcharge, {_READS[row.passage.casefold()]}"
    code = f"sea.passage.{row.passage.casefold()}"
    if row.surcharge_minor:
        yield lump_line(
            code=code,
            label=label,
            stage=STAGE,
            minor=row.surcharge_minor,
            markup_ppm=markup_ppm,
            cell=row.at.cell("surcharge_minor"),
        )
    if row.surcharge_ppm:
        values: Int64 = np.array([[vehicle.value_minor or 0] for vehicle in vehicles], dtype=np.int64)
        yield percent_line(
            code=f"{code}.value",
            label=label,
            stage=STAGE,
            base=values,
            ppm=row.surcharge_ppm,
            cell=row.at.cell("surcharge_ppm"),
        )
