"""What the office does to a shipment, line by line: ticked, given to somebody, noted, moved, recorded, named."""

from collections.abc import Callable, Mapping
from datetime import date

from shipcalc.checklist.carrying_over import joined_remark
from shipcalc.checklist.items import Item, State
from shipcalc.checklist.moving import moved
from shipcalc.checklist.references import BY_NAME
from shipcalc.quote.model import Quote, Window
from shipcalc.records import dataclass, replace
from shipcalc.register.events import note_event
from shipcalc.register.opening import Register
from shipcalc.register.shipments import Line, Shipment, find_shipment, keep_changed, line_meant
from shipcalc.trade import MOMENTS, called_by


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """A shipment after a change, what the change was in sentences, and what has to be said about it."""

    shipment: Shipment
    changed: tuple[str, ...]
    said: tuple[str, ...] = ()


Change = Callable[[Shipment], Done]


def do(
    register: Register,
    number: str,
    change: Change,
    *,
    what: str,
    at: str,
    who: str = "",
    seen: Mapping[str, int] | None = None,
) -> Done:
    """Change a shipment in one transaction, and note it; what changes nothing is not noted. `seen`: see `keep_changed`."""
    with register.writing(what) as connection:
        was = find_shipment(connection, number)
        done = change(was)
        if done.shipment != was:
            keep_changed(connection, was, done.shipment, seen)
            note_event(connection, _noted(was), what, at=at, who=who, told="; ".join(done.changed))
            done = replace(done, shipment=find_shipment(connection, number))
    return done


def _noted(shipment: Shipment) -> Quote:
    return shipment.quote


def ticked(shipment: Shipment, text: str, *, state: State, on: date | None, by: str) -> Done:
    """Return the shipment with a line set to done, not needed or open again."""
    line = line_meant(shipment, text)
    item = replace(
        line.item, state=state, done_on=on if state != "open" else None, done_by=by if state != "open" else ""
    )
    day = f" on {on.isoformat()}" if on and state != "open" else ""
    return Done(shipment=_with(shipment, line, item), changed=(f"{item.title}: {state}{day}{f', {by}' if by else ''}",))


def assigned(shipment: Shipment, text: str, *, to: str) -> Done:
    """Return the shipment with a line given to a person; an empty name gives it back to whose it is by its role."""
    line = line_meant(shipment, text)
    lines = tuple(replace(one, assigned=to) if one is line else one for one in shipment.lines)
    return Done(shipment=replace(shipment, lines=lines), changed=(f"{line.item.title}: for {to or line.item.owner}",))


def noted(shipment: Shipment, text: str, *, remark: str) -> Done:
    """Return the shipment with a note on a line, behind the one that is there; an empty one takes it away."""
    line = line_meant(shipment, text)
    item = replace(line.item, remark=joined_remark(line.item.remark, remark) if remark and line.item.remark else remark)
    return Done(shipment=_with(shipment, line, item), changed=(f"{item.title}: “{item.remark}”",))


def due_on(shipment: Shipment, text: str, *, due: date) -> Done:
    """Return the shipment with a line due on a day that somebody set: it stays there when dates move."""
    line = line_meant(shipment, text)
    item = replace(line.item, due=due, due_by_hand=True)
    told = f"{item.title}: due {due.isoformat()}, was {line.item.due.isoformat()}"
    return Done(shipment=_with(shipment, line, item), changed=(told,))


def shifted(
    shipment: Shipment, stage: str, *, days: int, known: date | None = None, was: Mapping[str, Window] | None = None
) -> Done:
    """Return the shipment with one of its moments on other days, and all that comes after it. Raises as `moving.moved`.

    `was`: the days before, where they are not those of the shipment any more.
    """
    from shipcalc.checklist.changes import moves

    items = [line.item for line in shipment.lines]
    called = called_by(leg.mode for leg in shipment.option.legs)[0]
    after = moved(items, shipment.moments, stage, days=days, known=known, called=called)
    now = {item.id: item for item in after.items}
    lines = tuple(replace(line, item=_as_kept(now[line.item.id])) for line in shipment.lines)
    changed = moves(after.items, {item.id: item for item in items}, after.moments, was or shipment.moments)
    return Done(shipment=replace(shipment, lines=lines, moments=after.moments), changed=tuple(changed), said=after.said)


def came_true(shipment: Shipment, stage: str, day: date) -> Done:
    """Return the shipment with a moment that has come, on its day: what comes after it is dated by that day alone.

    What comes before it has come too, on that day at the latest.
    """
    before = MOMENTS[: MOMENTS.index(stage)]
    past = {
        name: (min(first, day), min(last, day)) if name in before else (first, last)
        for name, (first, last) in shipment.moments.items()
    }
    done = shifted(
        replace(shipment, moments=past), stage, days=_days_to(shipment, stage, day), known=day, was=shipment.moments
    )
    return replace(done, shipment=replace(done.shipment, recorded={**shipment.recorded, stage: day}))


def _days_to(shipment: Shipment, stage: str, day: date) -> int:
    return (day - shipment.moments[stage][0]).days if stage in shipment.moments else 0


def named(shipment: Shipment, references: Mapping[str, str]) -> Done:
    """Return the shipment with references; an empty value takes one away."""
    now = {name: value for name, value in {**shipment.references, **references}.items() if value}
    changed = tuple(f"{BY_NAME[name].label}: {value or 'taken away'}" for name, value in references.items())
    return Done(shipment=replace(shipment, references=now), changed=changed)


def _as_kept(item: Item) -> Item:
    """Return a line as it is kept: how far it may slip is worked out when it is read."""
    return replace(item, slack_days=None)


def _with(shipment: Shipment, line: Line, item: Item) -> Shipment:
    return replace(shipment, lines=tuple(replace(one, item=item) if one is line else one for one in shipment.lines))
