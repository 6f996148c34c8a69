"""Shipments that rows of the paperwork ask for: a paper, a task, something from the buyer."""

from collections.abc import Iterator
from typing import Any

from shipcalc.compare.basket import LARGE, Asked, several, zip_place_of
from shipcalc.compare.conditions import at_the_edges, otherwise, vehicle_for, wished_otherwise, wishes_for
from shipcalc.compare.trial import NEAR, Trial, cities_of
from shipcalc.ratebook.rows.paperwork import DocumentRow, FromBuyerRow, TaskRow
from shipcalc.records import replace
from shipcalc.vehicles.sizes import SIZE_FIELDS
from shipcalc.vehicles.vehicle import Vehicle

_TERMS = ("EXW", "FOB", "CIF", "DPU", "DDP")


def of_paper(row: DocumentRow | TaskRow | FromBuyerRow, trial: Trial) -> Iterator[Asked]:
    """Yield shipments that need the paper or the task, and some that miss one of its conditions each."""
    vehicle, wishes = vehicle_for(row, trial.day), wishes_for(row)
    met, beside, home = f"paper or task {row.code}", f"beside {row.code}", zip_place_of(NEAR)
    named = [place for code in row.to_country for place in cities_of(code)][:3]
    abroad = [place for code in ("DE", "JP") for place in cities_of(code) if row.overseas is not False]
    targets = [*named, *abroad, *([] if row.overseas else [home])]
    to = targets[0]
    yield from (trial.asked(target, vehicle, how=met, **wishes) for target in targets)
    yield trial.asked(to, several(vehicle, 2), how=f"two, {met}", **wishes)
    for other in (*otherwise(row, vehicle, trial.day), *at_the_edges(row, vehicle, trial.day)):
        for place in dict.fromkeys((to, home)):
            yield trial.asked(place, other, how=beside, **wishes)
    for told in wished_otherwise(row, wishes):
        for place in dict.fromkeys((to, home)):
            yield trial.asked(place, vehicle, how=beside, **told)
    for vehicles in (vehicle, several(vehicle, 2)):
        yield trial.asked(home, vehicles, how=f"collected, {row.code}", **wishes, collect=True)
    yield from _driven(row, vehicle, trial)
    if to.country != "US":
        for ocean in ("roro", "container"):
            yield trial.asked(to, vehicle, how=beside, **wishes | {"ocean": ocean})
        for term in dict.fromkeys((*row.term, *_TERMS)):
            for vehicles in (vehicle, several(vehicle, 2)):
                yield trial.asked(to, vehicles, how=f"{term}, {row.code}", **wishes, term=term)
        for term in row.term[:1]:
            for value_minor in (None, row.value_over_minor or 1):
                other = replace(vehicle, value_minor=value_minor)
                yield trial.asked(to, other, how=f"{term}, {beside}", **wishes, term=term)


def _driven(row: DocumentRow | TaskRow | FromBuyerRow, vehicle: Vehicle, trial: Trial) -> Iterator[Asked]:
    """Yield what is driven on its own wheels, which is seldom the best way, where the row asks for that."""
    drivers = [one for one in trial.book.carriers if one.trailer == "driven"]
    for driver in drivers[:1] if "driven" in (*row.mode, row.trailer) else ():
        start, to = trial.somewhere_in(driver.from_areas, trial.starts[0]), zip_place_of(NEAR)
        end = trial.somewhere_in(driver.to_areas, to)
        # Some drivers take only what no trailer does.
        sizes: Any = {field: getattr(LARGE, field) for field in SIZE_FIELDS}
        for one in (vehicle, replace(vehicle, **sizes)):
            for vehicles in (one, several(one, 2)):
                yield trial.asked(end, vehicles, start=start, how=f"driven, {row.code}", by=driver)
