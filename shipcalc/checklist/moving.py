"""The dates of a shipment move: what is open moves along, what is done stays as it was."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

from shipcalc.checklist.columns import MOMENTS_IN_WORDS
from shipcalc.checklist.items import Item
from shipcalc.checklist.known_ship import missed, narrowed
from shipcalc.checklist.ordering import with_dates_that_hold
from shipcalc.errors import WrongInput, asked
from shipcalc.quote.model import Window
from shipcalc.records import dataclass, replace
from shipcalc.schedule.working_days import OFFICE, YARD, is_working_day, working_day_until
from shipcalc.trade import MOMENTS, SHIP, Called

# The moments that a ship sets; the vehicle's way to the port does not move them, and they do not move it.
_BY_SHIP = frozenset({"cut-off", "sailing"})
# What is moved further is a slip of the pen.
MOST_DAYS = 3_650
_BEFORE_SHIP = frozenset({"agreed", "ready", "pickup", "port"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """The moments and the lines as they are now, and what has to be said about it."""

    moments: Mapping[str, Window]
    items: tuple[Item, ...]
    said: tuple[str, ...]


def moved(
    items: Sequence[Item],
    moments: Mapping[str, Window],
    stage: str,
    *,
    days: int,
    known: date | None = None,
    called: Called = SHIP,
) -> Moved:
    """Return the shipment with one of its moments moved by `days` (earlier, where negative), and all that comes after it.

    A ship's departure takes its cut-off along and leaves pickup and the way to the port as they are; a later pickup does not
    move a ship, so that it may now come too late for it, which is said. `known`: the one day on which the ship leaves, or another
    moment comes; what was wide before it is then as narrow as one. Open lines keep their distance to their moment, on a working
    day where they were due on one, and none is due after what waits for it. A day that somebody set by hand stays, and its line
    is named. Raises WrongInput for a moment that the shipment does not have, or that would come before the one before it, and for
    more days than anybody can mean.
    """
    if abs(days) > MOST_DAYS:
        remedy = f"give at most {MOST_DAYS:,} days, or a day that is no further off"
        raise WrongInput(f"{days:,} days cannot be meant", where=asked("days"), remedy=remedy)
    if stage not in moments:
        raise WrongInput(
            f"this shipment has no {stage}", where=asked("stage"), remedy=f"name one of: {', '.join(moments)}"
        )
    moving = _moving(stage, moments)
    shift = timedelta(days=days)
    after = {
        name: (window[0] + shift, window[1] + shift) if name in moving else window for name, window in moments.items()
    }
    if known is not None:
        after = narrowed(moments, known, stage, moving)
    _check_order(stage, moving, after)
    stays = [item for item in items if not item.is_open or item.due_by_hand]
    goes = [
        _shifted(item, _shift_of(item, moments, after)) if item.stage in moving else item
        for item in items
        if item.is_open and not item.due_by_hand
    ]
    now = (*stays, *with_dates_that_hold(goes, after))
    return Moved(moments=after, items=now, said=(*_said(after, moving, called), *_set_by_hand(now, moving)))


def _set_by_hand(items: Sequence[Item], moving: frozenset[str]) -> Iterator[str]:
    """Yield each open line that did not move since its day was set by hand, and what no longer fits with that day."""
    due = {item.id: item.due for item in items if item.is_open}
    for item in items:
        if not (item.is_open and item.due_by_hand):
            continue
        waits = [other.title for other in items if other.is_open and item.id in other.after and other.due < item.due]
        early = [other.title for other in items if other.id in item.after and due.get(other.id, date.min) > item.due]
        told = f"{item.title} ({item.id}): stays on {item.due.isoformat()}, the day that was set by hand"
        if waits or early:
            clashes = [*(f"“{title}” waits for it and is due before" for title in waits)]
            clashes += [f"“{title}” comes first and is due after" for title in early]
            yield f"{told}; look at it again: {'; '.join(clashes)}."
        elif item.stage in moving:
            yield f"{told}."


def _moving(stage: str, moments: Mapping[str, Window]) -> frozenset[str]:
    later = set(MOMENTS[MOMENTS.index(stage) :])
    if stage in _BY_SHIP:
        return frozenset(later | _BY_SHIP)
    if "sailing" in moments and stage in _BEFORE_SHIP:
        return frozenset(later & _BEFORE_SHIP)
    return frozenset(later)


def _shift_of(item: Item, was: Mapping[str, Window], now: Mapping[str, Window]) -> timedelta:
    """Return how far a line goes with its moment: by the end that it was counted from, as far as its day tells that."""
    stage = next((name for name in reversed(MOMENTS[: MOMENTS.index(item.stage) + 1]) if name in was), None)
    if stage is None:
        return timedelta(0)
    end = int(item.due >= was[stage][1])
    return now[stage][end] - was[stage][end]


def _shifted(item: Item, shift: timedelta) -> Item:
    if item.due == date.max:  # a line without a day
        return item
    due = item.due + shift
    return replace(item, due=working_day_until(due, OFFICE) if is_working_day(item.due, OFFICE) else due)


def _check_order(stage: str, moving: frozenset[str], moments: Mapping[str, Window]) -> None:
    """No moment begins before one that did not move and must come first."""
    fixed = [name for name in moments if name not in moving and MOMENTS.index(name) < MOMENTS.index(stage)]
    for name in reversed(fixed):
        if moments[stage][0] < moments[name][0]:
            raise WrongInput(
                f"{MOMENTS_IN_WORDS[stage].lower()} on {moments[stage][0].isoformat()} would come before "
                f"{MOMENTS_IN_WORDS[name].lower()} on {moments[name][0].isoformat()}",
                where=asked("stage"),
                remedy=f"move {name} first",
            )


def _said(moments: Mapping[str, Window], moving: frozenset[str], called: Called) -> Iterator[str]:
    for stage in ("ready", "pickup", "port"):
        for day in dict.fromkeys(moments[stage]) if stage in moving and stage in moments else ():
            if not is_working_day(day, YARD):
                yield f"{MOMENTS_IN_WORDS[stage]}: {day.isoformat()} is a Sunday or a holiday: ask whether anybody is there."
    if told := missed(moments, called):
        what_now = (
            f"Ask the line for the next {called.carrier}, and move the {called.departure}; storage may be charged."
        )
        yield f"{told[:1].upper()}{told[1:]}. {what_now}"
    elif "port" in moments and "cut-off" in moments and moments["port"][1] > moments["cut-off"][1]:
        yield (
            f"The vehicle may reach the terminal only on {moments['port'][1].isoformat()}, after the cut-off of "
            f"{moments['cut-off'][1].isoformat()}: it would then wait for the next {called.departure}, and storage may be "
            f"charged. Ask the line, and move the {called.departure} too."
        )
