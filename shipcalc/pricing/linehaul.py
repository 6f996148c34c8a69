"""The lines of linehaul: a lane's own price where a row of the sheet Lanes says one, else base fee, miles and minimum.

lane        the sum of the row, or its rate times the miles and what is missing to its minimum
a mile      base fee, the miles band by band, what a row adds or takes off in this direction, what is missing to the minimum
"""

from collections.abc import Iterator

import numpy as np

from shipcalc.money import PPM, Int64, share
from shipcalc.pricing.columns import Bool, LaneColumns
from shipcalc.pricing.lane_prices import LanesMet, met_by
from shipcalc.pricing.line import ONE, Line, Markup, marked_up, miles_times
from shipcalc.pricing.tariff import Service, miles_in_band
from shipcalc.records import dataclass

# A quote has a lane for each yard and port; only columns made for comparing have more, and there no sentences are read.
MOST_LANES_WITH_NOTES = 8
MOST_LANES_WITH_CELLS = 512
_BY_THE_MILE = ("truck.base", "truck.linehaul")
_EVERYWHERE: Bool = np.ones(1, dtype=np.bool_)


@dataclass(frozen=True, slots=True)
class _Asked:
    """What all lines of linehaul are made from; `by_mile` (m,) or (1,) is where no row says a price of its own."""

    service: Service
    lanes: LaneColumns
    met: LanesMet | None
    by_mile: Bool
    markup: Markup
    currency: str


def linehaul_lines(service: Service, lanes: LaneColumns, markup: Markup, currency: str) -> Iterator[Line]:
    """Yield what the way itself costs; where rows of Lanes say nothing, the sum never falls with the miles."""
    met = met_by(service.lanes, lanes.met)
    by_mile = _EVERYWHERE if met is None or met.price is None else ~met.price.where
    asked = _Asked(service, lanes, met, by_mile, markup, currency)
    total: Int64 = np.zeros((1, len(lanes)), dtype=np.int64)
    for line in (*_lane_lines(asked), *_mile_lines(asked)):
        total = total + line.amount
        yield line
    for line in _direction_lines(asked, total):
        total = total + line.amount
        yield line
    yield from _minimum_lines(asked, total)


def without_fuel(service: Service, lanes: LaneColumns) -> Bool | None:
    """Return the lanes (m,) whose price has the fuel in it, None where there are none."""
    met = met_by(service.lanes, lanes.met)
    if met is None or met.price is None:
        return None
    included = met.price.of(met.prices.fuel_included) & met.price.where
    return included if included.any() else None


def _lane_lines(asked: _Asked) -> Iterator[Line]:
    """Yield the sums, then the rates a mile, of lanes with a price of their own."""
    if asked.met is None or asked.met.price is None:
        return
    prices, rows = asked.met.prices, asked.met.price
    flat, rate_e4 = (
        np.where(rows.where, rows.of(prices.flat_minor), 0),
        np.where(rows.where, rows.of(prices.rate_e4), 0),
    )
    notes, offers = _notes(asked), _offers(asked)
    if flat.any():
        fee = marked_up(flat, asked.markup.linehaul_ppm)[np.newaxis, :]
        yield Line(
            code="truck.lane",
            label="Price for this lane",
            unit="lump",
            quantity=ONE,
            rate=fee,
            amount=fee,
            cell="",
            lane_cells=rows.cells("flat_minor", MOST_LANES_WITH_CELLS),
            lane_notes=notes,
            lane_offers=offers,
        )
    if rate_e4.any():
        rate = rate_e4[np.newaxis, :] * (PPM + asked.markup.linehaul_ppm)
        miles = np.where(rate_e4 > 0, asked.lanes.miles, 0)[np.newaxis, :]
        yield Line(
            code="truck.lane",
            label="Road miles, at the price for this lane",
            unit="mi",
            quantity=miles,
            rate=rate,
            amount=miles_times(miles, rate, asked.currency),
            cell="",
            lane_cells=rows.cells("rate_e4", MOST_LANES_WITH_CELLS),
            lane_notes=notes,
            lane_offers=offers,
        )


def _mile_lines(asked: _Asked) -> Iterator[Line]:
    """Yield base fee and bands, zero where a lane has a price of its own."""
    service, miles = asked.service, asked.lanes.miles
    if not asked.by_mile.any():
        return
    charged = service.charged_mi[np.minimum(miles, service.last_mi)]
    notes = _later_break_notes(miles, charged)
    if service.row.base_minor:
        fee = marked_up(service.row.base_minor, asked.markup.linehaul_ppm)
        yield Line(
            code="truck.base",
            label="Base fee",
            unit="lump",
            quantity=ONE,
            rate=fee,
            amount=(asked.by_mile * np.int64(fee))[np.newaxis, :],
            cell=service.row.at.cell("base_minor"),
            offer=service.given.base if service.given else "",
        )
    for band in service.bands:
        part = miles_in_band(service, band, charged)[np.newaxis, :]
        part = part if asked.by_mile is _EVERYWHERE else part * asked.by_mile
        if not part.any():
            continue
        rate = band.rate_e4 * (PPM + asked.markup.linehaul_ppm)
        yield Line(
            code="truck.linehaul",
            label=_band_label(service, band.from_mi, band.to_mi),
            unit="mi",
            quantity=part,
            rate=rate,
            amount=miles_times(part, rate, asked.currency),
            lane_notes=notes,
            cell=band.at.cell("rate_e4"),
            offer=service.given.band(band.from_mi) if service.given else "",
        )


def _direction_lines(asked: _Asked, by_mile: Int64) -> Iterator[Line]:
    """Yield what a row adds to base fee and miles in its direction, and what it takes off; of what is marked up already."""
    if asked.met is None or asked.met.percent is None:
        return
    rows = asked.met.percent
    ppm = np.where(rows.where & asked.by_mile, rows.of(asked.met.prices.percent_ppm), 0)[np.newaxis, :]
    for where, label in ((ppm > 0, "Addition for this direction"), (ppm < 0, "Reduction for this direction")):
        if where.any():
            base, own = np.where(where, by_mile, 0), np.where(where, ppm, 0)
            yield Line(
                code="truck.direction",
                label=label,
                unit="%",
                quantity=base,
                rate=own,
                amount=share(base, own),
                of=_BY_THE_MILE,
                cell="",
                lane_cells=rows.cells("percent_ppm", MOST_LANES_WITH_CELLS),
            )


def _minimum_lines(asked: _Asked, total: Int64) -> Iterator[Line]:
    """Yield what is missing to the carrier's minimum, or to the one of the row that is met.

    Even where nothing is missing: at the carrier's own rates a cent may be, and its line is found by this one.
    """
    row, met = asked.service.row, asked.met
    own: Int64 = asked.by_mile * np.int64(row.minimum_minor)
    cells: tuple[str, ...] = ()
    for rows in (met.minimum, met.price) if met else ():
        if rows is not None and met is not None:
            here = rows.where if rows is met.price else rows.where & asked.by_mile
            own = np.where(here, rows.of(met.prices.minimum_minor), own)
            cells = rows.cells("minimum_minor", MOST_LANES_WITH_CELLS, here, cells or row.at.cell("minimum_minor"))
    if own.any():
        missing = np.maximum(marked_up(own, asked.markup.linehaul_ppm)[np.newaxis, :] - total, 0)
        yield Line(
            code="truck.minimum",
            label="Top-up to the trip minimum",
            unit="lump",
            quantity=ONE,
            rate=missing,
            amount=missing,
            cell=row.at.cell("minimum_minor"),
            lane_cells=cells,
            offer=asked.service.given.minimum if asked.service.given and not cells else "",
        )


def _band_label(service: Service, from_mi: int, to_mi: int | None) -> str:
    if service.row.bands == "graduated" and len(service.bands) > 1:
        return f"Road miles {from_mi + 1:,} to {to_mi:,}" if to_mi else f"Road miles from {from_mi + 1:,} on"
    return "Road miles"


def _notes(asked: _Asked) -> tuple[str, ...]:
    """Return for each lane what the buyer reads beside its price."""
    rows = asked.met and asked.met.price
    if not rows or len(asked.lanes) > MOST_LANES_WITH_CELLS:
        return ()
    return tuple("" if one is None else one.said for one in rows.each())


def _offers(asked: _Asked) -> tuple[str, ...]:
    """Return for each lane whose price it is, by what number and until when."""
    rows = asked.met and asked.met.price
    if not rows or len(asked.lanes) > MOST_LANES_WITH_CELLS:
        return ()
    return tuple("" if one is None else one.told(asked.currency) for one in rows.each())


def _later_break_notes(miles: Int64, charged: Int64) -> tuple[str, ...]:
    """Return for each lane the sentence that says it is charged as a longer one, or ""; nothing where nobody reads so many."""
    if len(miles) > MOST_LANES_WITH_NOTES:
        return ()
    return tuple(
        "" if own == longer else f"{own:,} miles charged as {longer:,}: the lower rate that starts there costs less."
        for own, longer in zip(miles.tolist(), charged.tolist(), strict=True)
    )
