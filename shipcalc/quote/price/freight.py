"""Which sea lanes are quoted, and by what; and which are estimated from their distance."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from shipcalc.pricing.columns import Bool
from shipcalc.pricing.ocean import charged_by
from shipcalc.pricing.quoted import by_measure
from shipcalc.quote.network.network import Network
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.pricing.loads import Freight, Load
    from shipcalc.pricing.quotations import Offer


@dataclass(frozen=True, slots=True, eq=False)
class QuotedLanes:
    """Sea lanes of one load that the same rows price: `offers` by size of container."""

    load: "Load"
    offers: "tuple[tuple[str, Offer], ...]"
    lanes: tuple[int, ...]


@dataclass(frozen=True, slots=True, eq=False)
class EstimatedLanes:
    """Sea lanes of one load whose freight is charged by the same; `but` are sizes of container that are quoted there."""

    load: "Load"
    but: tuple[str, ...]
    lanes: tuple[int, ...]


def quoted_lanes(network: Network, freight: "Freight") -> tuple[QuotedLanes, ...]:
    """Return the lanes on which something of the load is quoted, together where it is by the same rows."""
    found: dict[tuple[object, ...], tuple[Load, tuple[tuple[str, Offer], ...], list[int]]] = {}
    for lane, number, offers in _lanes(network, freight):
        if offers:
            load = network.crossings[number].load
            rows = tuple((size, *map(id, offer.rows)) for size, offer in offers)
            found.setdefault((load, *rows), (load, offers, []))[2].append(lane)
    return tuple(QuotedLanes(load, offers, tuple(lanes)) for load, offers, lanes in found.values())


def estimated_lanes(network: Network, freight: "Freight") -> tuple[EstimatedLanes, ...]:
    """Return the lanes on which something of the load is not quoted, together where it is charged by the same."""
    found: dict[tuple[Load, str, tuple[str, ...]], list[int]] = {}
    for lane, number, offers in _lanes(network, freight):
        crossing = network.crossings[number]
        if len(offers) < len(crossing.load.sizes):
            by = charged_by(crossing.service, crossing.load)
            found.setdefault((crossing.load, by, tuple(size for size, _ in offers)), []).append(lane)
    return tuple(EstimatedLanes(load, but, tuple(lanes)) for (load, _, but), lanes in found.items())


def held_by_freight(network: Network, freight: "Freight") -> dict[str, Bool]:
    """Return for each stage on which lanes (z,) the freight holds what ports and packing charge there."""
    held: dict[str, Bool] = {}
    for lane, number, offers in _lanes(network, freight):
        if offers and len(offers) == len(network.crossings[number].load.sizes):
            rows = [frozenset(offer.freight.row.includes) for _, offer in offers]
            for stage in frozenset.intersection(*rows):
                held.setdefault(stage, np.zeros(len(network.sea), dtype=np.bool_))[lane] = True
    return held


def _lanes(network: Network, freight: "Freight") -> "Iterator[tuple[int, int, tuple[tuple[str, Offer], ...]]]":
    """Yield every sea lane with its crossing and what is quoted there; by measure only of vehicles whose sizes are known."""
    lane = 0
    for number, crossing in enumerate(network.crossings):
        sizes = crossing.load.sizes
        for offers in crossing.offers or (None,) * len(crossing):
            own = offers.of(sizes) if offers else ()
            yield lane, number, tuple(one for one in own if freight.measured or not by_measure(one[1]))
            lane += 1
