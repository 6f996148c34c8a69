"""How vehicles go onto a ship or into a container, by what works on them: the rows of *Ways of loading*, and what they cost.

Of the rows of a mode that hold for a vehicle and a line, the first counts, and no other is named or charged.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from shipcalc.distinct import distinct
from shipcalc.money import Int64
from shipcalc.pricing.counted import lump_line
from shipcalc.pricing.line import Line
from shipcalc.ratebook.decisions import decision_table, holding
from shipcalc.ratebook.rows.loading import LoadingWay
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.trade import CROSSING_BY_MODE
from shipcalc.vehicles.vehicle import WORKS, Vehicle, what_fails

UNLOADED_AT = "destination terminal"

# A book without the sheet: what is driven, what is towed, what a container takes. Platforms are nowhere taken for granted.
WITHOUT_SHEET = (
    LoadingWay(
        code="driven",
        mode="roro",
        loading="driven",
        runs=True,
        rolls=True,
        steers=True,
        brakes=True,
        how="driven aboard",
        label="Driven aboard and lashed",
        unloading_minor=0,
    ),
    LoadingWay(
        code="towed",
        mode="roro",
        loading="towed",
        rolls=True,
        steers=True,
        brakes=True,
        how="in tow",
        label="Towed aboard and lashed",
    ),
    *(
        LoadingWay(
            code=f"{code}-{mode.replace(' ', '-')}",
            mode=mode,
            loading="container",
            rolls=rolls,
            runs=runs,
            how=how,
            label=label,
            unloading_minor=0 if runs else None,
        )
        for mode in ("container", "shared container")
        for code, rolls, runs, how, label in (
            ("driven", True, True, "driven in", "Driven into the container"),
            ("winched", True, None, "winched in", "Winched into the container"),
            ("skates", None, None, "lifted in on skates", "Forklift and skates into the container"),
        )
    ),
)


def way_for(vehicle: Vehicle, row: OceanService, ways: tuple[LoadingWay, ...]) -> LoadingWay | None:
    """Return how a service loads a vehicle; None where it has no way to, or takes only what can be driven."""
    if not vehicle.drives and not row.takes_inoperable:
        return None
    works = {work: getattr(vehicle, work) for work in WORKS}
    told = {"mode": row.mode, "carrier": row.carrier, **works}
    return next(iter(holding(decision_table(ways or WITHOUT_SHEET), told)), None)


def cannot_be_loaded(vehicle: Vehicle, row: OceanService) -> str:
    """Return why a service has no way to load a vehicle, as a sentence's end."""
    told = f"{vehicle.stock_number} {what_fails(vehicle)}" if not vehicle.drives else vehicle.stock_number
    if not row.takes_inoperable and not vehicle.drives:
        return f"{told}, and it takes only vehicles that can be driven"
    return f"{told}: it has no way to load such a vehicle (sheet Ways of loading)"


def loading_lines(
    vehicles: Sequence[Vehicle],
    services: Sequence[OceanService],
    of_lane: Int64,
    ways: tuple[LoadingWay, ...],
    *,
    markup_ppm: int,
) -> Iterator[Line]:
    """Yield the lines of loading, equipment and unloading of n vehicles over m lanes, by the service `of_lane` (m,) of each.

    What a service has no way to load has no lines there; `ocean.in_the_way` says so.
    """
    rows = ways or WITHOUT_SHEET
    asked = distinct(of_lane).tolist()
    of_service = np.zeros((len(vehicles), len(services)), dtype=np.int64)
    known: dict[tuple[bool, ...], list[int]] = {}
    for number, vehicle in enumerate(vehicles):
        works = tuple(getattr(vehicle, work) for work in WORKS)
        if works not in known:
            known[works] = [_position(rows, way_for(vehicle, services[service], rows)) for service in asked]
        of_service[number, asked] = known[works]
    chosen = of_service[:, of_lane]
    for number in distinct(chosen[chosen >= 0]).tolist():
        way, where = rows[number], chosen == number
        is_lashed_aboard = CROSSING_BY_MODE[way.mode].is_driven_aboard
        loaded_at = "loading on vessel" if is_lashed_aboard else "loading at origin"
        for field, label, stage in (
            ("loading_minor", way.label, loaded_at),
            ("equipment_minor", way.equipment or "Equipment for loading, hired for the way", loaded_at),
            ("unloading_minor", way.unloading_label or "Taken off at arrival", UNLOADED_AT),
        ):
            if getattr(way, field):
                yield lump_line(
                    code=f"loading.{way.code}.{field.removesuffix('_minor')}",
                    label=label,
                    stage=stage,
                    minor=getattr(way, field),
                    markup_ppm=markup_ppm,
                    where=where,
                    cell=way.at.cell(field),
                )


def _position(rows: Sequence[LoadingWay], way: LoadingWay | None) -> int:
    return -1 if way is None else rows.index(way)
