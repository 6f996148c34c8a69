"""A carrier's classes with a guaranteed pick-up: each is its service once more, with other days and a surcharge."""

from collections.abc import Iterable, Iterator

import numpy as np

from shipcalc.money import Int64, share
from shipcalc.pricing.line import LINEHAUL, ONE, Line, marked_up
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.service_classes import ServiceClass
from shipcalc.records import replace


def classes_of(rows: Iterable[ServiceClass], row: Carrier) -> Iterator[tuple[ServiceClass, Carrier]]:
    """Yield the classes of a carrier's row, each with the row as it is in that class: picked up within its days."""
    for one in rows:
        if one.carrier.casefold() == row.carrier.casefold() and one.trailer in (None, row.trailer):
            first = min(row.pickup_from_days, one.within_days)
            yield one, replace(row, pickup_from_days=first, pickup_to_days=one.within_days)


def class_lines(row: ServiceClass, linehaul: Int64, markup_ppm: int) -> Iterator[Line]:
    """Yield the surcharge of a class."""
    label = f"{row.name}, pick-up within {row.within_days} {'day' if row.within_days == 1 else 'days'}"
    if row.percent_ppm is not None:
        yield Line(
            code="truck.class",
            label=label,
            unit="%",
            quantity=linehaul,
            rate=row.percent_ppm,
            amount=share(linehaul, row.percent_ppm),
            of=LINEHAUL,
            cell=row.at.cell("percent_ppm"),
        )
        return
    fee = marked_up(row.amount_minor or 0, markup_ppm)
    amount: Int64 = np.full((1, 1), fee, dtype=np.int64)
    yield Line(
        code="truck.class",
        label=label,
        unit="lump",
        quantity=ONE,
        rate=fee,
        amount=amount,
        cell=row.at.cell("amount_minor"),
    )
