"""Charges by stage: the rows of the decision table whose conditions a shipment meets."""

from collections.abc import Collection, Iterator, Sequence
from datetime import date

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.columns import Bool
from shipcalc.pricing.counted import ONE, lump_line, percent_line
from shipcalc.pricing.facts import vehicle_facts
from shipcalc.pricing.line import Line
from shipcalc.ratebook.decisions import decision_table, holding_numbers, holds
from shipcalc.ratebook.rows.stage_charges import StageCharge
from shipcalc.trade import Mode
from shipcalc.vehicles.vehicle import Vehicle

_SEASON_ASIDE = ("shipment", "vehicle")


def stage_lines(
    rows: tuple[StageCharge, ...],
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
    table = decision_table(rows, *_SEASON_ASIDE)
    held = [frozenset(holding_numbers(table, told)) for told in _facts(vehicles, mode, to_country)]
    for number in sorted(frozenset().union(*held)):
        row = rows[number]
        if row.stage not in without:
            meets: Bool = np.array([[number in its] for its in held], dtype=np.bool_)
            line = _line(row, containers, vehicles, meets, markup_ppm, alone)
            if line.amount.any():
                yield line


def arises(row: StageCharge, vehicles: Sequence[Vehicle], *, mode: Mode, to_country: str) -> bool:
    """Return whether a row is charged for a load to a country, season aside."""
    return any(holds(row, told, *_SEASON_ASIDE) for told in _facts(vehicles, mode, to_country))


def is_in_season(row: StageCharge, leaves: tuple[date, date] | None) -> bool:
    """Return whether what leaves within a window, both days included, may leave in the row's season."""
    return holds(row, {"leaves": leaves}, "departure")


def estimated_codes(rows: Sequence[StageCharge]) -> frozenset[str]:
    """Return the codes of the lines that are said to be estimates."""
    return frozenset(f"stage.{row.code}" for row in rows if row.estimate)


def is_for(row: StageCharge, country: str) -> bool:
    """Return whether a row may be charged on the way to a country."""
    return holds(row, {"to_country": country}, "to_country")


def _facts(vehicles: Sequence[Vehicle], mode: Mode, to_country: str) -> list[dict[str, object]]:
    return [vehicle_facts(vehicle) | {"mode": mode, "to_country": to_country} for vehicle in vehicles]


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
