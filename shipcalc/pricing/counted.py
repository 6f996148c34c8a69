"""Lines that count something: so many vehicles, containers, revenue tons or miles at a rate, or a flat sum."""

import numpy as np

from shipcalc.money import PPM, Int64, decimals, half_up, share
from shipcalc.pricing.columns import Bool
from shipcalc.pricing.line import RATE_SCALE, THOUSANDTHS, Line, marked_up

ONE: Int64 = np.ones((1, 1), dtype=np.int64)


def counted_line(
    *,
    code: str,
    label: str,
    stage: str,
    unit: str,
    quantity: Int64,
    rate_e4: int | Int64,
    markup_ppm: int,
    currency: str,
    cell: str = "",
    lane_cells: tuple[str, ...] = (),
    note: str = "",
    lane_notes: tuple[str, ...] = (),
    shared: bool = False,
    rate_places: int | None = None,
) -> Line:
    """Return quantity × rate, marked up, rounded once: columns (n or 1, m or 1), quantities of THOUSANDTHS in thousandths.

    A rate that is itself computed, as by nautical miles, is first rounded to `rate_places` decimals, as it is printed.
    """
    rate = rate_e4 * (PPM + markup_ppm)
    if rate_places is not None:
        step = RATE_SCALE // 10**rate_places
        rate = half_up(rate, step) * step
    per_minor = RATE_SCALE // 10 ** decimals(currency) * (1000 if unit in THOUSANDTHS else 1)
    return Line(
        code=code,
        label=label,
        unit=unit,
        quantity=quantity,
        rate=rate,
        amount=half_up(quantity * rate, per_minor),
        note=note,
        lane_notes=lane_notes,
        cell=cell,
        lane_cells=lane_cells,
        stage=stage,
        shared=shared,
    )


def lump_line(
    *,
    code: str,
    label: str,
    stage: str,
    minor: int | Int64,
    markup_ppm: int = 0,
    where: Bool | None = None,
    cell: str = "",
    lane_cells: tuple[str, ...] = (),
    note: str = "",
    lane_notes: tuple[str, ...] = (),
    shared: bool = False,
) -> Line:
    """Return a flat sum, marked up: for all, or (n or 1, m or 1) only where the condition holds."""
    fee = marked_up(minor, markup_ppm) if isinstance(minor, int) else minor + share(minor, markup_ppm)
    amount = ONE * fee
    return Line(
        code=code,
        label=label,
        unit="lump",
        quantity=ONE,
        rate=fee,
        amount=amount if where is None else np.where(where, amount, 0),
        note=note,
        lane_notes=lane_notes,
        cell=cell,
        lane_cells=lane_cells,
        stage=stage,
        shared=shared,
    )


def percent_line(
    *,
    code: str,
    label: str,
    stage: str,
    base: Int64,
    ppm: int | Int64,
    of: tuple[str, ...] = (),
    cell: str = "",
    lane_cells: tuple[str, ...] = (),
    note: str = "",
    shared: bool = False,
) -> Line:
    """Return a percentage of amounts, (n or 1, m or 1): of the lines with the codes `of`, or of the base as it stands."""
    return Line(
        code=code,
        label=label,
        unit="%",
        quantity=base,
        rate=ppm,
        amount=share(base, ppm),
        of=of,
        note=note,
        cell=cell,
        lane_cells=lane_cells,
        stage=stage,
        shared=shared,
    )
