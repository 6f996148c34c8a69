"""Which sea lanes are quoted, and by what; and which are estimated from their distance."""

from collections.abc import Collection, Iterator
from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.lines import Line
from shipcalc.pricing.ocean import charged_by
from shipcalc.pricing.quoted import by_measure
from shipcalc.quote.network.network import Network
from shipcalc.quote.price.parts import Charged, Priced, Rated
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.pricing.loads import Freight, Load
    from shipcalc.pricing.quotations import Offer


@dataclass(frozen=True, slots=True, eq=False)
class QuotedLanes:
    """Sea lanes of one load that the same rows price: `offers` by size of container."""

    load: "Load"
    offers: "tuple[tuple[str, Offer], ...]"
    lanes: Int64


@dataclass(frozen=True, slots=True, eq=False)
class EstimatedLanes:
    """Sea lanes of one load whose freight is charged by the same; `but` are sizes of container that are quoted there."""

    load: "Load"
    but: tuple[str, ...]
    lanes: Int64


def quoted_lanes(network: Network, freight: "Freight") -> tuple[QuotedLanes, ...]:
    """Return the lanes on which something of the load is quoted, together where it is by the same rows."""
    found: dict[tuple[object, ...], tuple[Load, tuple[tuple[str, Offer], ...], list[int]]] = {}
    for lane, number, offers in _lanes(network, freight):
        if offers:
            load = network.crossings[number].load
            rows = tuple((size, *map(id, offer.rows)) for size, offer in offers)
            found.setdefault((load, *rows), (load, offers, []))[2].append(lane)
    return tuple(QuotedLanes(load, offers, np.array(lanes)) for load, offers, lanes in found.values())


def estimated_lanes(network: Network, freight: "Freight") -> tuple[EstimatedLanes, ...]:
    """Return the lanes on which something of the load is not quoted, together where it is charged by the same."""
    found: dict[tuple[Load, str, tuple[str, ...]], list[int]] = {}
    for lane, number, offers in _lanes(network, freight):
        crossing = network.crossings[number]
        if len(offers) < len(crossing.load.sizes):
            by = charged_by(crossing.service, crossing.load)
            found.setdefault((crossing.load, by, tuple(size for size, _ in offers)), []).append(lane)
    return tuple(EstimatedLanes(load, but, np.array(lanes)) for (load, _, but), lanes in found.items())


def beside_freight(
    network: Network, freight: "Freight", priced: Priced, columns: Int64, markup_ppm: int
) -> Iterator[Charged]:
    """Yield what ports charge, each sea lane (z,) at its own of their `columns`; without the stages that its freight holds."""
    held: dict[frozenset[str], list[int]] = {}
    for lane, number, offers in _lanes(network, freight) if any(one.offers for one in network.crossings) else ():
        rows = [frozenset(offer.freight.row.includes) for _, offer in offers]
        if len(rows) == len(network.crossings[number].load.sizes) and (stages := frozenset.intersection(*rows)):
            held.setdefault(stages, []).append(lane)
    others = np.append(columns, -1)
    for stages, lanes in held.items():
        own = np.full_like(others, -1)
        own[lanes], others[lanes] = others[lanes], -1
        yield Charged(Rated(partial(_without, priced, stages), markup_ppm), own[np.newaxis, :])
    yield Charged(Rated(priced, markup_ppm), others[np.newaxis, :])


def _without(priced: Priced, stages: Collection[str], *, markup_ppm: int) -> Iterator[Line]:
    return (line for line in priced(markup_ppm=markup_ppm) if line.stage not in stages)


def _lanes(network: Network, freight: "Freight") -> "Iterator[tuple[int, int, tuple[tuple[str, Offer], ...]]]":
    """Yield every sea lane with its crossing and what is quoted there; by measure only of vehicles whose sizes are known."""
    lane = 0
    for number, crossing in enumerate(network.crossings):
        sizes = crossing.load.sizes
        for offers in crossing.offers or (None,) * len(crossing):
            own = offers.of(sizes) if offers else ()
            yield lane, number, tuple(one for one in own if freight.measured or not by_measure(one[1]))
            lane += 1
