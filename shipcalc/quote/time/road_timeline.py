"""The dates of one way: what the buyer is told step by step, and what the papers are dated by."""

from collections.abc import Mapping
from datetime import date

from shipcalc.quote.model import Dates, Milestone, Window
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.request import Request
from shipcalc.quote.time.road_days import Days, Span, truck_dates
from shipcalc.ratebook.book import RateBook
from shipcalc.records import dataclass
from shipcalc.schedule.road import RoadDates

BORDER_WAIT = "Not before its papers have been with customs at the border for 72 hours."


@dataclass(frozen=True, slots=True)
class Timeline:
    """The dates, the windows of every stage for the papers, and warnings."""

    dates: Dates
    stages: Mapping[str, Window]
    warnings: tuple[str, ...]


def timeline(
    way: int, request: Request, book: RateBook, network: Network, ways: Ways, days: Days, *, agreed: date
) -> Timeline:
    """Return the dates of one way. A vehicle is picked up no earlier than its free days in the terminal need."""
    truck = truck_dates(int(ways.truck[way]), int(ways.export[way]), request, book, network)
    assert truck.delivery == window_of(days.terminal, way), "the truck's days are those that were compared"
    begun = {"agreed": (agreed, agreed), "ready": (request.ready, request.ready)}
    if network.at_home:
        return _to_the_door(truck, begun)
    if ways.export[way] < 0:
        waits = network.leaves_from is not None and network.leaves_from > request.ready
        return _over_the_border(truck, begun, window_of(days.release, way), window_of(days.delivery, way), waits)
    # Late: a quote by road should not wait for ships.
    from shipcalc.quote.time.timeline import over_the_sea

    return over_the_sea(way, request, book, network, ways, days, truck, begun)


def _to_the_door(truck: RoadDates, begun: Mapping[str, Window]) -> Timeline:
    days = "1 day" if truck.driving_days == 1 else f"{truck.driving_days} days"
    steps = (
        step("Ready at the yard", begun["ready"], "ready"),
        step("Picked up", truck.pickup, "pickup"),
        step("Delivered", truck.delivery, "delivery", f"{days} of driving.", office_note=truck.note),
    )
    stages = ended({**begun, "pickup": truck.pickup}, truck.delivery)
    return Timeline(Dates(pickup=truck.pickup, delivery=truck.delivery, timeline=steps), stages, ())


def _over_the_border(
    truck: RoadDates, begun: Mapping[str, Window], release: Window, delivery: Window, waits: bool
) -> Timeline:
    steps = (
        step("Ready at the yard", begun["ready"], "ready"),
        step("Picked up", truck.pickup, "pickup", BORDER_WAIT if waits else ""),
        step("Across the border", truck.delivery, "arrival", office_note=truck.note),
        step("Delivered", delivery, "delivery"),
    )
    stages = {**begun, "pickup": truck.pickup, "arrival": truck.delivery, "release": release}
    return Timeline(Dates(pickup=truck.pickup, delivery=delivery, timeline=steps), ended(stages, delivery), ())


def step(what: str, window: Window, stage: str, note: str = "", office_note: str = "") -> Milestone:
    """Return one step of a timeline."""
    return Milestone(what=what, earliest=window[0], latest=window[1], stage=stage, note=note, office_note=office_note)


def window_of(span: Span, way: int) -> Window:
    """Return the first and the last day of a step of one way."""
    return date.fromordinal(int(span.earliest[way])), date.fromordinal(int(span.latest[way]))


def ended(stages: Mapping[str, Window], delivery: Window) -> Mapping[str, Window]:
    """Return the moments with the last ones of all."""
    return {**stages, "delivery": delivery, "after delivery": (delivery[1], delivery[1])}
