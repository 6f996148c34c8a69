"""Ocean freight as it is quoted: amounts for each unit of a basis, or for the shipment, with the quotation's surcharges.

freight        amount × what its basis counts, never under the row's minimum for a vehicle or a container
surcharges     the same of their own bases, or percentages of the freight
"""

from collections.abc import Iterator, Sequence

import numpy as np

from shipcalc.money import E4, Int64, decimals, half_up, share
from shipcalc.pricing.counted import ONE, counted_line, lump_line, percent_line
from shipcalc.pricing.line import THOUSANDTHS, Line
from shipcalc.pricing.loads import Freight, Load
from shipcalc.pricing.ocean import STAGE
from shipcalc.pricing.quotations import Offer, Quoted
from shipcalc.ratebook.rows.quotations import size_of
from shipcalc.records import dataclass, replace
from shipcalc.trade import CROSSING_BY_MODE

_MEASURES = ("per W/M", "per m³")


def by_measure(offer: Offer) -> bool:
    """Return whether the sizes of the vehicles count."""
    return any(row.basis in _MEASURES for row in offer.rows)


def quoted_lines(
    offers: Sequence[tuple[str, Offer]], load: Load, freight: Freight, *, markup_ppm: int, currency: str
) -> Iterator[Line]:
    """Yield the lines of a load whose sizes of container are quoted so, (n or 1, 1): they are the same on every lane.

    What counts vehicles or the shipment is charged once, however many sizes of container the same row is for.
    """
    counts = {kind.container: count for kind, count in load.boxes}
    charged: set[int] = set()
    for size, offer in offers:
        how = _How(size, load, freight, ONE * counts.get(size, 0), markup_ppm, currency)
        name = ", ".join(filter(None, (CROSSING_BY_MODE[load.mode].freight, size)))
        own = tuple(_counted(offer.freight, "ocean.freight", name, how))
        yield from own
        base = sum((line.amount for line in own[1:]), start=own[0].amount)
        for number, one in enumerate(offer.surcharges, 1):
            row = one.row
            label, code = row.surcharge or "", f"ocean.surcharge.{number}"
            if row.percent_ppm is not None:
                yield _of_freight(one, code, label, base, own, how)
            elif _by_container(row.basis) or id(row) not in charged:
                charged.add(id(row))
                yield from _counted(one, code, label, how)


@dataclass(frozen=True, slots=True, eq=False)
class _How:
    """What a row is counted by: vehicles as freight, and the containers of one size (1, 1)."""

    size: str
    load: Load
    freight: Freight
    containers: Int64
    markup_ppm: int
    currency: str

    def named(self, text: str, basis: str | None, divider: str) -> str:
        """Return a code or a label with the size of container, where the row counts these."""
        return f"{text}{divider}{self.size}" if _by_container(basis) and self.size not in text else text


def _by_container(basis: str | None) -> bool:
    return basis == "per container" or bool(size_of(basis))


def _counted(quoted: Quoted, code: str, label: str, how: _How) -> Iterator[Line]:
    """Yield an amount for each unit of its basis, and the rest to its minimum."""
    row = quoted.row
    code, label = how.named(code, row.basis, "."), how.named(label, row.basis, ", ")
    line = _by_basis(quoted, code, label, how)
    yield line
    if quoted.minimum_minor:
        units = line.quantity if line.unit in ("container", "vehicle") else np.ones_like(line.amount)
        least = quoted.minimum_minor + share(quoted.minimum_minor, how.markup_ppm)
        top_up = lump_line(
            code=f"{code}.minimum",
            label=f"Top-up to the minimum, {label[:1].lower()}{label[1:]}" if row.surcharge else _FREIGHT_TOP_UP,
            stage=line.stage,
            minor=np.maximum(least * units - line.amount, 0),
            cell=row.at.cell("minimum_e4"),
            shared=line.shared,
        )
        yield replace(top_up, offer=quoted.told)


_FREIGHT_TOP_UP = "Top-up to the minimum freight"


def _by_basis(quoted: Quoted, code: str, label: str, how: _How) -> Line:
    row, currency = quoted.row, how.currency
    stage, cell = row.stage or STAGE, row.at.cell("amount_e4")
    if row.basis == "per shipment":
        minor = half_up(quoted.amount_e4 * 10 ** decimals(currency), E4)
        lump = lump_line(
            code=code, label=label, stage=stage, minor=ONE * minor, markup_ppm=how.markup_ppm, cell=cell, shared=True
        )
        return replace(lump, offer=quoted.told)
    freight = how.freight
    unit, quantity = {
        "per W/M": ("W/M", freight.revenue_tons),
        "per m³": ("m³", freight.cubic_metres),
        "per vehicle": ("vehicle", np.ones_like(freight.revenue_tons)),
    }.get(row.basis or "", ("container", how.containers))
    line = counted_line(
        code=code,
        label=label,
        stage=stage,
        unit=unit,
        quantity=quantity,
        rate_e4=quoted.amount_e4,
        rate_places=4 if unit in THOUSANDTHS else decimals(currency),
        markup_ppm=how.markup_ppm,
        currency=currency,
        cell=cell,
        shared=unit == "container",
    )
    return replace(line, offer=quoted.told)


def _of_freight(quoted: Quoted, code: str, label: str, base: Int64, of: Sequence[Line], how: _How) -> Line:
    """Return a percentage of the freight and the rest to its minimum."""
    ppm = quoted.row.percent_ppm
    assert ppm is not None, "asked only of percentages"
    named = how.size and not how.size.startswith(label)
    line = percent_line(
        code=f"{code}.{how.size}" if how.size else code,
        label=f"{label}, {how.size}" if named else label,
        stage=STAGE,
        base=base,
        ppm=ppm,
        of=tuple(one.code for one in of),
        cell=quoted.row.at.cell("percent_ppm"),
        shared=of[0].shared,
    )
    return replace(line, offer=quoted.told)
