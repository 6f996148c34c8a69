"""A quote is accepted on a day: its dates move to what that day still allows, and what it no longer reaches is said.

Only the Quote is asked, so that an old one can be dated without its rate book. A sailing is kept as it was quoted; where the
vehicle can no longer be in time for it, the next one that the quote knows counts.
"""

from collections.abc import Mapping
from datetime import date, timedelta

from shipcalc.checklist.known_ship import missed, narrowed, out_of_reach
from shipcalc.errors import NoAnswer, WrongInput, asked
from shipcalc.quote.explain.paper_trail import due_with_their_task
from shipcalc.quote.model import Document, Milestone, Option, Quote, Task, Window
from shipcalc.quote.network.territory import is_domestic
from shipcalc.quote.time.booked import before_pickup, booked_on
from shipcalc.quote.time.soonest import in_their_turn
from shipcalc.records import dataclass, replace
from shipcalc.schedule.border import first_departure
from shipcalc.schedule.due import due_date
from shipcalc.schedule.working_days import OFFICE, YARD, working_day_from, working_day_until
from shipcalc.trade import MOMENTS, Called, called_by

_BEFORE_IT_LEAVES = frozenset(MOMENTS[: MOMENTS.index("pickup") + 1])
_FROM_THE_CUTOFF_ON = ("cut-off", "sailing", "arrival", "release")


@dataclass(frozen=True, slots=True, kw_only=True)
class Accepted:
    """The quote with one option dated from the day of acceptance, and what has to be said about it."""

    quote: Quote
    said: tuple[str, ...]


def accepted_on(quote: Quote, index: int, day: date, *, sailing: date | None = None) -> Accepted:
    """Return the quote with option `index` dated from its acceptance; `sailing`: the day on which its ship is known to leave.

    Raises NoAnswer where the quote had ended by then, or no ship that it knows is reached any more; WrongInput for a day before
    the quote was made.
    """
    if day < quote.as_of:
        raise WrongInput(
            f"a quote of {quote.as_of.isoformat()} cannot have been accepted on {day.isoformat()}",
            where=asked("accepted"),
            remedy="give the day on which the buyer said yes",
        )
    if day > quote.valid_until:
        raise NoAnswer(
            f"the quote of {quote.as_of.isoformat()} expired on {quote.valid_until.isoformat()}; it cannot be accepted on "
            f"{day.isoformat()}",
            where=quote.number or quote.to.name,
            remedy=f"make the quote anew; where the buyer said yes in time, give that day with {asked('accepted')}",
        )
    option = quote.options[index]
    was = _moments(quote, option)
    if sailing is not None and "sailing" not in was:
        raise WrongInput("nothing sails on the way that was chosen", where=asked("sailing"), remedy="leave it out")
    meant = was if sailing is None else narrowed(was, sailing)
    moments, said = _moments_from(meant, day, quote, option)
    called = called_by(leg.mode for leg in option.legs)[0]
    if told := missed(moments, called):
        raise NoAnswer(
            told, where=quote.number or quote.to.name, remedy="give the day of a later ship, or make the quote anew"
        )
    options = (*quote.options[:index], _dated(option, was, moments, day, quote.as_of), *quote.options[index + 1 :])
    return Accepted(quote=replace(quote, ready=moments["ready"][0], options=options), said=said)


def _moments(quote: Quote, option: Option) -> dict[str, Window]:
    known = {step.stage: (step.earliest, step.latest) for step in option.dates.timeline if step.stage}
    known = {"ready": (quote.ready, quote.ready)} | known
    known |= {"pickup": option.dates.pickup, "delivery": option.dates.delivery}
    return {stage: known[stage] for stage in MOMENTS if stage in known}


def _moments_from(
    was: Mapping[str, Window], day: date, quote: Quote, option: Option
) -> tuple[dict[str, Window], tuple[str, ...]]:
    late = max(_in_hand_late(option, day), _booked(option, day) - was["ready"][0])
    shift = slips = max(day - was["ready"][0], late)
    ready = was["ready"][0] + shift
    if "sailing" not in was and not is_domestic(quote.to.country):
        # The papers' 72 hours at the border count from the acceptance, however early the vehicle is ready.
        shift = max(shift, working_day_from(first_departure(day), YARD) - was["pickup"][0])
    if not shift:
        return dict(was), ()
    if "sailing" not in was:
        slip = _at_the_yard(was["pickup"], shift)[0] - was["pickup"][0]
        later = {stage: _later(window, slip) for stage, window in was.items()}
        return {**later, "ready": (ready, ready), "pickup": _at_the_yard(was["pickup"], shift)}, ()
    held = timedelta(days=option.dates.held_days)
    return _to_the_ship(
        was, ready, max(slips - held, late), _treatment(option), called_by(leg.mode for leg in option.legs)[0]
    )


def _in_hand_late(option: Option, day: date) -> timedelta:
    """Return how much later than quoted that comes which takes days and must be in hand before the vehicle leaves."""
    waits = (
        working_day_from(day + timedelta(days=task.takes_days), OFFICE) - task.due
        for task in option.tasks
        if task.takes_days and task.stage in _BEFORE_IT_LEAVES
    )
    return max([timedelta(0), *waits])


def _booked(option: Option, day: date) -> date:
    """Return the day by which the deposit is in and the truck is booked, if the buyer says yes on `day`."""
    first = before_pickup(option.tasks)
    return booked_on([task for task in option.tasks if task.code.casefold() in first], day)


def _treatment(option: Option) -> timedelta:
    """Return how long something is done to the vehicle between the terminal and its ship."""
    return timedelta(days=max((task.takes_days or 0 for task in option.tasks if task.stage == "cut-off"), default=0))


def _to_the_ship(
    was: Mapping[str, Window], ready: date, shift: timedelta, treatment: timedelta, called: Called
) -> tuple[dict[str, Window], tuple[str, ...]]:
    """Return the moments of a shipment by sea whose vehicle sets out later: on the quote's first ship, else on its last."""
    pickup = _at_the_yard(was["pickup"], shift)
    port = _later(was["port"], pickup[0] - was["pickup"][0])
    moved = {**was, "ready": (ready, ready), "pickup": pickup, "port": (port[0], max(port))}
    first, last = was["sailing"]
    if port[0] + treatment <= was["cut-off"][0]:
        return moved, ()
    if port[0] + treatment > was["cut-off"][1] or first == last:
        raise NoAnswer(
            out_of_reach(last, port[0], was["cut-off"][1], called),
            where=asked("accepted"),
            remedy=f"make the quote anew: it will find the next {called.carrier}",
        )
    after = {
        stage: _with_the_last(was[stage], last - first) for stage in (*_FROM_THE_CUTOFF_ON, "delivery") if stage in was
    }
    told = (
        f"The {called.carrier} of {first.isoformat()} can no longer be reached; the next is that of {last.isoformat()}."
    )
    return {**moved, **after}, (told,)


def _with_the_last(window: Window, later: timedelta) -> Window:
    """Return the window of a moment by the last ship alone, which sails so much later than the first."""
    return min(window[0] + later, window[1]), window[1]


def _at_the_yard(window: Window, shift: timedelta) -> Window:
    first, last = (working_day_from(day + shift, YARD) for day in window)
    return first, last


def _later(window: Window, shift: timedelta) -> Window:
    return window[0] + shift, window[1] + shift


def _dated(option: Option, was: Mapping[str, Window], moments: Mapping[str, Window], day: date, agreed: date) -> Option:
    if day == agreed and moments == was:
        return option
    now = {"agreed": (day, day), **moments, "after delivery": moments["delivery"]}
    shifts = {stage: window[0] - was[stage][0] for stage, window in moments.items()} | {"agreed": day - agreed}

    def moved(paper: Task | Document) -> date:
        """Return the day by how far its moment moved, where nobody knows what it counts from."""
        stage = next(name for name in reversed(MOMENTS[: MOMENTS.index(paper.stage) + 1]) if name in shifts)
        return max(working_day_until(paper.due + shifts[stage], OFFICE) if shifts[stage] else paper.due, day)

    tasks = in_their_turn(
        [replace(task, due=moved(task) if task.days is None else _due(task, task.days, now)) for task in option.tasks],
        now,
    )
    papers = [replace(paper, due=moved(paper)) for paper in option.documents]
    sails_as_quoted = all(moments.get(stage) == was.get(stage) for stage in _FROM_THE_CUTOFF_ON)
    gone = () if sails_as_quoted else option.dates.warned
    return replace(
        option,
        warnings=tuple(told for told in option.warnings if told not in gone),
        dates=replace(
            option.dates,
            warned=tuple(told for told in option.dates.warned if told not in gone),
            pickup=moments["pickup"],
            delivery=moments["delivery"],
            timeline=tuple(_step(step, moments) for step in option.dates.timeline),
        ),
        documents=due_with_their_task(papers, tasks),
        tasks=tasks,
    )


def _due(task: Task, days: int, moments: Mapping[str, Window]) -> date:
    return due_date(task.stage, days, task.counts_from or None, moments=moments)


def _step(step: Milestone, moments: Mapping[str, Window]) -> Milestone:
    if step.stage not in moments:
        return step
    return replace(step, earliest=moments[step.stage][0], latest=moments[step.stage][1])
