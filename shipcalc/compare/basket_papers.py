"""Transports that rows of documents and tasks ask for."""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any, cast

from shipcalc.compare.basket import ROADSTER, Asked, several, transport
from shipcalc.compare.basket_places import NEAR, city_of, zip_place_of
from shipcalc.places.place import Place
from shipcalc.quote.model import Wishes
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.paperwork import DocumentRow, FromBuyerRow, TaskRow
from shipcalc.records import replace
from shipcalc.trade import TITLES, Trailer
from shipcalc.vehicles.vehicle import TitleKind, Vehicle

PaperRow = DocumentRow | TaskRow | FromBuyerRow

# Old enough to be a collector's piece wherever customs have such.
_AN_OLD_YEAR = 1930


def _of_kind(row: PaperRow, as_of: date) -> Vehicle:
    """Return a vehicle that meets the row's conditions."""
    changes: dict[str, Any] = {"title": cast("TitleKind", row.title[0])} if row.title else {}
    if row.runs is not None:
        changes["runs"] = row.runs
    if row.value_over_minor is not None:
        changes["value_minor"] = row.value_over_minor + 1
    if row.age_from is not None:
        changes["year"] = as_of.year - row.age_from - 1
    if row.age_under is not None:
        changes["year"] = as_of.year - row.age_under + 2
    if row.treatment:
        changes.update(year=_AN_OLD_YEAR, original_state=True)
    if row.battery:
        changes["fuel"] = "electric"
    return replace(ROADSTER, **changes)


def _years_at_the_edges(row: PaperRow, as_of: date) -> Iterator[int]:
    """Yield model years with which a vehicle is just old or young enough, or just not, whether it arrives this year or next."""
    for age in (row.age_from, row.age_under):
        yield from (as_of.year - age + later for later in (-1, 0, 1, 2) if age is not None)


def of_paper(row: PaperRow, book: RateBook, starts: Sequence[Place], as_of: date) -> Iterator[Asked]:
    """Yield shipments that need the paper or the task, and some that miss one of its conditions each."""
    vehicle, how = _of_kind(row, as_of), f"paper or task {row.code}"
    home, abroad = zip_place_of(NEAR), [place for code in ("DE", "JP") if (place := city_of(code)) is not None]
    named = [place for code in row.to_country if (place := city_of(code)) is not None]
    trailer = cast("Trailer | None", row.trailer)
    wishes = Wishes(trailer=trailer, lift_gate=bool(row.lift_gate))
    targets = [*named[:3], *(abroad if row.overseas is not False else ()), *([home] if not row.overseas else ())]
    for to in targets:
        yield transport((vehicle,), starts[0], to, as_of, wishes, how=how)
    to = targets[0] if targets else home
    yield transport(several(vehicle, 2), starts[0], to, as_of, wishes, how=f"two, {how}")
    for title in TITLES:
        yield transport((replace(vehicle, title=cast("TitleKind", title)),), starts[0], to, as_of, wishes, how=title)
    for other in (
        replace(vehicle, runs=not vehicle.runs),
        replace(vehicle, fuel="" if vehicle.fuel else "electric"),
        replace(vehicle, value_minor=100_000_000),
        replace(vehicle, value_minor=100_000),
        replace(vehicle, value_minor=None),
        replace(vehicle, value_minor=row.value_over_minor or 1),
        replace(vehicle, year=as_of.year - 2),
        replace(vehicle, year=as_of.year - 90),
        *(replace(vehicle, year=year) for year in _years_at_the_edges(row, as_of)),
    ):
        for place in dict.fromkeys((to, home)):
            yield transport((other,), starts[0], place, as_of, wishes, how=f"beside {row.code}")
    yield transport(
        (vehicle,), starts[0], to, as_of, replace(wishes, lift_gate=not wishes.lift_gate), how=f"beside {row.code}"
    )
    for kind in ("open", "enclosed"):
        yield transport((vehicle,), starts[0], home, as_of, Wishes(trailer=kind), how=f"beside {row.code}")
    if to.country != "US":
        for ocean in ("roro", "container"):
            yield transport((vehicle,), starts[0], to, as_of, replace(wishes, ocean=ocean), how=f"beside {row.code}")
        for term in dict.fromkeys((*row.term, "EXW", "FOB", "CIF", "DPU", "DDP")):
            yield transport((vehicle,), starts[0], to, as_of, replace(wishes, term=term), how=f"{term}, {row.code}")
        for term in row.term[:1]:
            for value_minor in (None, row.value_over_minor or 1):
                beside = replace(vehicle, value_minor=value_minor)
                yield transport(
                    (beside,), starts[0], to, as_of, replace(wishes, term=term), how=f"{term}, beside {row.code}"
                )
