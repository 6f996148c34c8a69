"""Where the places of a block are arrived at: the ports that serve them, and what holds them."""

from collections.abc import Sequence
from functools import lru_cache

from shipcalc.bulk.plan import Plan
from shipcalc.errors import NoAnswer, named
from shipcalc.places.place import Place
from shipcalc.quote.model import Wishes
from shipcalc.quote.network.beyond import road_to_buyer
from shipcalc.quote.network.distances import Lane, factor_rules
from shipcalc.quote.network.holds import check_holds, shut_countries
from shipcalc.quote.network.port_ends import NO_PORTS, Arrivals
from shipcalc.quote.network.ports import arrival_ports
from shipcalc.quote.request import Request
from shipcalc.ratebook.rows.ports import Port
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, eq=False)
class Landfall:
    """A place abroad: the ports that serve it, the countries that no way there may pass; `held` says why nothing goes there."""

    place: Place
    arrivals: Arrivals
    shut: frozenset[str]
    held: str = ""


# What landfalls ask of a rate book: its prices of another day leave them as they are.
ASKED = ("holds", "ports", "gateways", "on_carriage", "ferries_abroad", "road_factors")


class _Asking:
    """A plan as the key of its landfalls: the same as another that asks the same of the same sheets."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self._asked = (plan.destinations, *(getattr(plan.book, sheet) for sheet in ASKED))

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, _Asking) or self.plan.as_of != other.plan.as_of:
            return False
        return all(one is another for one, another in zip(self._asked, other._asked, strict=True))

    def __hash__(self) -> int:
        return id(self.plan.destinations)


def landfalls(plan: Plan, places: range) -> tuple[Landfall, ...]:
    """Return the landfalls of some places of a plan; the plan of another day has the same ones, where only prices change."""
    return _landfalls(_Asking(plan), places)


@lru_cache(maxsize=4)
def _landfalls(asking: _Asking, places: range) -> tuple[Landfall, ...]:
    """Blocks of the same places follow each other, so that few are remembered."""
    plan = asking.plan
    return tuple(_landfall(plan, place) for place in plan.destinations.places[places.start : places.stop])


def ports_of(found: Sequence[Landfall]) -> tuple[Port, ...]:
    """Return every port at which some place is arrived, each once."""
    return tuple({id(port.row): port.row for landfall in found for port in landfall.arrivals.ports}.values())


def road_all_the_way(plan: Plan, start: Place, landfall: Landfall) -> Lane | None:
    """Return the road from a start to a place, None where none leads there."""
    return road_to_buyer(start, landfall.place, factor_rules(plan.book), plan.book, landfall.shut)


def _landfall(plan: Plan, place: Place) -> Landfall:
    request = Request(vehicles=plan.vehicles[:1], starts=plan.starts[:1], to=place, ready=plan.ready, wishes=Wishes())
    shut = shut_countries(request, plan.book, plan.as_of)
    try:
        check_holds(request, plan.book, plan.as_of)
    except NoAnswer as no:
        return Landfall(place, NO_PORTS, shut, named(no.what))
    return Landfall(place, arrival_ports(plan.book, place, shut), shut)
