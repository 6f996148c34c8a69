"""When every way gets there, as columns; and step by step for one of them."""

from collections.abc import Mapping
from datetime import date, timedelta

from shipcalc.quote.model import Dates, Window
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.request import Request
from shipcalc.quote.time.road_days import Days, Span, truck_dates, truck_days
from shipcalc.quote.time.steps import Timeline, ended, step, window_of
from shipcalc.ratebook.book import RateBook
from shipcalc.records import replace
from shipcalc.schedule.road import RoadDates

BORDER_WAIT = "Not before its papers have been with customs at the border for 72 hours."


def days(request: Request, book: RateBook, network: Network, ways: Ways) -> Days:
    """Return when every way gets there."""
    trucks = truck_days(request, book, network)
    if not network.at_home:
        # Late: ships and borders, which no quote at home need import.
        from shipcalc.quote.time.sea_days import days_beyond

        return days_beyond(request, book, network, ways, trucks)
    at = (ways.truck, ways.export)
    there = Span(trucks.earliest[at], trucks.latest[at])
    return Days(there, there, there, there, there, there)


def timeline(one: OneWay, days: Days, *, agreed: date) -> Timeline:
    """Return the dates of one way. A vehicle is picked up no earlier than its free days in the terminal need."""
    request, network, way = one.request, one.network, one.number
    truck = truck_dates(one.truck, one.end, request, one.book, network)
    latest = truck.delivery[1]
    truck = _in_time_for_its_ship(truck, window_of(days.terminal, way))
    begun = {"agreed": (agreed, agreed), "ready": (request.ready, request.ready)}
    if one.at_home:
        return _to_the_door(truck, begun)
    # Late: a quote at home should not wait for borders and ships.
    if one.ship is None:
        from shipcalc.quote.time.border_hours import crossing_on_the_way, hours_told

        waits = network.leaves_from is not None and network.leaves_from > request.ready
        gate = crossing_on_the_way(one.book.border_ports, request.starts[0], request.to)
        told = hours_told(gate) if gate else ""
        return _over_the_border(truck, begun, window_of(days.release, way), window_of(days.delivery, way), waits, told)
    from shipcalc.quote.time.sea_timeline import over_the_sea

    return over_the_sea(one, days, truck, begun, is_tight=truck.delivery[1] < latest)


def _in_time_for_its_ship(truck: RoadDates, at_terminal: Window) -> RoadDates:
    """Return the truck's days; where one ship is meant, it is picked up no later than it must be for it."""
    assert truck.delivery[0] == at_terminal[0], "the truck's days are those that were compared"
    too_late = truck.delivery[1] - at_terminal[1]
    assert too_late >= timedelta(0), "nothing but a known ship changes a truck's days"
    pickup = (truck.pickup[0], max(truck.pickup[0], truck.pickup[1] - too_late))
    return replace(truck, pickup=pickup, delivery=at_terminal)


def _to_the_door(truck: RoadDates, begun: Mapping[str, Window]) -> Timeline:
    days = "1 day" if truck.driving_days == 1 else f"{truck.driving_days} days"
    steps = (
        step("Ready to leave", begun["ready"], "ready"),
        step("Picked up", truck.pickup, "pickup"),
        step("Delivered", truck.delivery, "delivery", f"{days} of driving.", office_note=truck.note),
    )
    stages = ended({**begun, "pickup": truck.pickup}, truck.delivery)
    return Timeline(Dates(pickup=truck.pickup, delivery=truck.delivery, timeline=steps), stages, ())


def _over_the_border(
    truck: RoadDates, begun: Mapping[str, Window], release: Window, delivery: Window, waits: bool, gate: str
) -> Timeline:
    steps = (
        step("Ready to leave", begun["ready"], "ready"),
        step("Picked up", truck.pickup, "pickup", BORDER_WAIT if waits else ""),
        step("Across the border", truck.delivery, "arrival", gate, office_note=truck.note),
        step("Delivered", delivery, "delivery"),
    )
    stages = {**begun, "pickup": truck.pickup, "arrival": truck.delivery, "release": release}
    return Timeline(Dates(pickup=truck.pickup, delivery=delivery, timeline=steps), ended(stages, delivery), ())
