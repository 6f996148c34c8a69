"""Charges by stage: the rows of the decision table whose conditions a shipment meets."""

from collections.abc import Collection, Iterator, Sequence

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.columns import Bool
from shipcalc.pricing.counted import ONE, lump_line, percent_line
from shipcalc.pricing.lines import Line
from shipcalc.ratebook.rows.overseas import StageCharge
from shipcalc.trade import Mode
from shipcalc.vehicles.vehicle import Vehicle


def stage_lines(
    rows: Sequence[StageCharge],
    vehicles: Sequence[Vehicle],
    *,
    mode: Mode,
    containers: int,
    to_country: str,
    without: Collection[str] = (),
    markup_ppm: int,
    alone: bool = False,
) -> Iterator[Line]:
    """Yield the lines of a load to a country, (n or 1, 1), which is handed over in some mode and so many containers.

    `without` names stages that this shipment does not have.
    A row for the whole shipment, or for each container, is charged where one vehicle meets it. `alone`: every vehicle is a
    shipment by itself, and has its own line of such a row.
    """
    for row in rows:
        if row.stage in without or row.mode not in (None, mode) or not is_for(row, to_country):
            continue
        meets: Bool = np.array([[_meets(row, vehicle)] for vehicle in vehicles], dtype=np.bool_)
        if meets.any():
            line = _line(row, containers, vehicles, meets, markup_ppm, alone)
            if line.amount.any():
                yield line


def arises(row: StageCharge, vehicles: Sequence[Vehicle], *, mode: Mode, to_country: str) -> bool:
    """Return whether a row is charged for a load to a country, season aside."""
    fits = row.mode in (None, mode) and is_for(row, to_country)
    return fits and any(_meets(row, vehicle) for vehicle in vehicles)


def estimated_codes(rows: Sequence[StageCharge]) -> frozenset[str]:
    """Return the codes of the lines that are said to be estimates."""
    return frozenset(f"stage.{row.code}" for row in rows if row.estimate)


def is_for(row: StageCharge, country: str) -> bool:
    """Return whether a row may be charged on the way to a country."""
    countries = {code.upper() for code in row.to_country}
    return (not countries or country in countries) and country not in {code.upper() for code in row.not_to_country}


def _meets(row: StageCharge, vehicle: Vehicle) -> bool:
    return (
        (not row.title or vehicle.title in row.title)
        and row.runs in (None, vehicle.runs)
        and (row.year_up_to is None or (vehicle.year is not None and vehicle.year <= row.year_up_to))
    )


def _line(
    row: StageCharge, containers: int, vehicles: Sequence[Vehicle], meets: Bool, markup_ppm: int, alone: bool
) -> Line:
    code, shared = f"stage.{row.code}", row.per != "vehicle" and not alone
    if row.percent_ppm is not None:
        values: Int64 = np.array([[vehicle.value_minor or 0] for vehicle in vehicles], dtype=np.int64)
        base = np.where(meets, values, 0)
        return percent_line(
            code=code,
            label=row.label,
            stage=row.stage,
            base=base.sum(axis=0, keepdims=True) if shared else base,
            ppm=row.percent_ppm,
            cell=row.at.cell("percent_ppm"),
            shared=shared,
        )
    count = containers if row.per == "container" else 1
    return lump_line(
        code=code,
        label=row.label if count == 1 else f"{row.label}, {count} containers",
        stage=row.stage,
        minor=ONE * (row.amount_minor or 0) * count,
        markup_ppm=markup_ppm,
        where=None if shared else meets,
        cell=row.at.cell("amount_minor"),
        shared=shared,
    )
