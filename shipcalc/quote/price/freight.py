"""Which sea lanes are quoted, and by what; and which are estimated from their distance."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING

import numpy as np

from shipcalc.money import Int64
from shipcalc.pricing.ocean import charged_by
from shipcalc.pricing.port_charges import Asked, asked_at
from shipcalc.pricing.quoted import by_measure
from shipcalc.quote.network.network import Network
from shipcalc.quote.price.parts import Charged, Group, Part
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.ports import Port
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.pricing.loads import Freight, Load
    from shipcalc.pricing.quotations import Offer, Offers
    from shipcalc.quote.network.columns import Crossing
    from shipcalc.vehicles.vehicle import Vehicle


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
    for lanes, crossing, offers in _offered(network, freight):
        if offers:
            rows = tuple((size, *map(id, offer.rows)) for size, offer in offers)
            found.setdefault((crossing.load, *rows), (crossing.load, offers, []))[2].extend(lanes)
    return tuple(QuotedLanes(load, offers, np.array(lanes)) for load, offers, lanes in found.values())


def estimated_lanes(network: Network, freight: "Freight") -> tuple[EstimatedLanes, ...]:
    """Return the lanes on which something of the load is not quoted, together where it is charged by the same."""
    found: dict[tuple[Load, str, tuple[str, ...]], list[int]] = {}
    for lanes, crossing, offers in _offered(network, freight):
        if len(offers) < len(crossing.load.sizes):
            by = charged_by(crossing.service, crossing.load)
            found.setdefault((crossing.load, by, tuple(size for size, _ in offers)), []).extend(lanes)
    return tuple(EstimatedLanes(load, but, np.array(lanes)) for (load, _, but), lanes in found.items())


def beside_freight(network: Network, freight: "Freight", parts: Iterable[Charged]) -> Iterator[Charged]:
    """Yield what ports charge on the sea lanes, without the stages that the freight of a lane holds, as it is quoted."""
    held = tuple(_held(network, freight))
    for charged in parts:
        others = charged.columns.copy()
        for stages, lanes in held:
            own = np.full_like(others, -1)
            own[:, lanes], others[:, lanes] = others[:, lanes], -1
            yield Charged(_Without(charged.part, stages), own)
        yield Charged(charged.part, others)


def asked_at_ports(book: RateBook, day: date | None, ports: Sequence[Port], mode: str) -> tuple[tuple[Asked, ...], ...]:
    """Return what ports ask line by line; nothing at all where none of them does."""
    if day is None or not book.port_charges:
        return ()
    found = tuple(asked_at(book, day, port.port, mode) for port in ports)
    return found if any(found) else ()


def _held(network: Network, freight: "Freight") -> Iterator[tuple[frozenset[str], list[int]]]:
    """Yield the lanes whose freight holds the same stages."""
    held: dict[frozenset[str], list[int]] = {}
    for lanes, crossing, offers in _offered(network, freight):
        rows = [frozenset(offer.freight.row.includes) for _, offer in offers]
        if rows and len(rows) == len(crossing.load.sizes) and (stages := frozenset.intersection(*rows)):
            held.setdefault(stages, []).extend(lanes)
    yield from held.items()


@dataclass(frozen=True, slots=True, eq=False)
class _Without:
    """A part without some of its stages."""

    part: Part
    left_out: frozenset[str]

    @property
    def stages(self) -> Iterable[str]:
        """The cost stages that it has lines of."""
        return [stage for stage in self.part.stages if stage not in self.left_out]

    def amounts(self, stage: str, *, sold: bool, vehicles: int, alone: bool) -> Int64:
        """Return what a stage of it takes for all vehicles."""
        return self.part.amounts(stage, sold=sold, vehicles=vehicles, alone=alone)

    def groups(self, column: int, vehicles: "Sequence[Vehicle]") -> Iterator[Group]:
        """Yield the lines of one of its columns."""
        return (group for group in self.part.groups(column, vehicles) if group.stage not in self.left_out)


def _offered(
    network: Network, freight: "Freight"
) -> "Iterator[tuple[Sequence[int], Crossing, tuple[tuple[str, Offer], ...]]]":
    """Yield all sea lanes with their crossing and what is quoted there, those of one crossing with the same quotation together;
    by measure only of vehicles whose sizes are known.
    """
    for begins, crossing in zip(network.sea.first.tolist(), network.crossings, strict=True):
        sizes = crossing.load.sizes
        together: dict[int, tuple[Offers | None, list[int]]] = {}
        for lane, offers in enumerate(crossing.offers, begins):
            together.setdefault(id(offers), (offers, []))[1].append(lane)
        if not crossing.offers:
            yield range(begins, begins + len(crossing)), crossing, ()
        for offers, lanes in together.values():
            own = offers.of(sizes) if offers else ()
            yield lanes, crossing, tuple(one for one in own if freight.measured or not by_measure(one[1]))
