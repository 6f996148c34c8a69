"""An office's day over all shipments: what is late, what is due, who is waited for, what comes next."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta

from shipcalc.checklist.columns import MOMENTS_IN_WORDS
from shipcalc.quote.model import Window
from shipcalc.records import dataclass, replace
from shipcalc.trade import OWNERS

# How sources name a law.
_LAW = re.compile(r"\b(CFR|USC|[Ll]aw|Act|Regulation|SOLAS)\b")
# Whose tasks the dealer's own people do; everybody else is waited for.
OWN_PEOPLE = ("sales", "office", "yard")
# What is due, or asked of others, within so many days belongs to the day.
AHEAD_DAYS = 7
# The moments that somebody outside keeps: that the vehicle is ready, the yard knows.
COMING = tuple(stage for stage in MOMENTS_IN_WORDS if stage != "ready")


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenLine:
    """An open line of a shipment's checklist. `owner` is the role, `assigned` the person it was given to, `paper` the one that it
    makes and that is not there yet."""

    shipment: str
    id: str
    title: str
    owner: str
    assigned: str = ""
    due: date
    after: tuple[str, ...] = ()
    critical: bool = False
    wanted: str = ""
    source: str = ""
    vehicle: str | None = None
    paper: str = ""
    version: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class UnderWay:
    """A shipment under way: whose, with what, where to, and the days of its moments. `recorded` are moments that came true."""

    shipment: str
    buyer: str
    vehicles: str
    to: str
    moments: Mapping[str, Window]
    recorded: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One thing of the day. `id` is its line of the checklist, or the moment; without what is `critical` nothing moves;
    `legal`: a law is its source, or it is a port's cut-off; `ready`: it waits for nothing that is open; `overdue`: it is a moment
    whose last day is over, and nobody has recorded that it came; `version` is the line's, 0 for a moment."""

    shipment: str
    task: str
    owner: str
    due: date
    vehicle: str
    buyer: str
    id: str
    critical: bool = False
    legal: bool = False
    wanted: str = ""
    ready: bool = True
    overdue: bool = False
    version: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A shipment in one row: how much is late and due, whom it waits for, which papers are not there, its next moment."""

    shipment: str
    buyer: str
    vehicles: str
    to: str
    late: int
    due: int
    waiting: tuple[str, ...]
    papers: int
    next: Entry | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one of the dealer's own people, or a role that nobody was named for, has late and due."""

    who: str
    late: int
    due: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OfficeDay:
    """A day, each list by its days. `due` is due today or within a week, `waiting` what others can do now, `next` the next ship,
    gate or other moment of each shipment, `papers` those to be ready by the end of the week that are not
    in the shipment's folder."""

    today: date
    person: str
    late: tuple[Entry, ...]
    due: tuple[Entry, ...]
    waiting: tuple[Entry, ...]
    next: tuple[Entry, ...]
    papers: tuple[Entry, ...]
    shipments: tuple[Standing, ...]
    people: tuple[Share, ...] = ()


def office_day(lines: Sequence[OpenLine], under_way: Iterable[UnderWay], *, today: date, person: str = "") -> OfficeDay:
    """Return the day of an office, or of one `person` in it: a name that lines were given to, or a role."""
    known = {one.shipment: one for one in under_way}
    still_open = {(line.shipment, line.id) for line in lines}
    mine = [line for line in lines if line.shipment in known and is_for(line, person)]
    week = today + timedelta(days=AHEAD_DAYS)
    own = [line for line in mine if not _is_with_others(line)]

    def entries(which: Iterable[OpenLine]) -> tuple[Entry, ...]:
        return tuple(
            replace(entry_of(line, known[line.shipment]), ready=_can_be_done(line, still_open)) for line in which
        )

    late = entries(line for line in mine if line.due < today)
    due = entries(line for line in mine if today <= line.due <= week)
    waiting = entries(line for line in mine if _is_with_others(line) and _can_be_done(line, still_open))
    papers = entries(line for line in mine if line.paper and line.due <= week)
    moments = {one.shipment: _next_moment(one, today) for one in known.values()}
    shown = {entry.shipment for entry in (*late, *due, *waiting)} if person else set(known)
    coming = sorted(
        (entry for number in shown if (entry := moments[number]) is not None), key=lambda one: (one.due, one.shipment)
    )
    standings = _standings([known[number] for number in shown], late, due, waiting, papers, moments)
    return OfficeDay(
        today=today,
        person=person,
        late=late,
        due=due,
        waiting=waiting,
        next=tuple(coming),
        papers=papers,
        shipments=tuple(sorted(standings, key=lambda one: (-one.late, -one.due, one.shipment))),
        people=_shares([line for line in own if line.due <= week], today),
    )


def _shares(lines: Iterable[OpenLine], today: date) -> tuple[Share, ...]:
    """Return what each person has, who has most that is late at the head."""
    counts: dict[str, list[int]] = {}
    for line in lines:
        counts.setdefault(line.assigned or line.owner, [0, 0])[line.due >= today] += 1
    shares = [Share(who=who, late=late, due=due) for who, (late, due) in counts.items()]
    return tuple(sorted(shares, key=lambda one: (-one.late, -one.due, one.who)))


def is_for(line: OpenLine, person: str) -> bool:
    """Return whether a line is a person's, by name or role; for nobody named, everybody's."""
    wanted = person.strip().casefold()
    return not wanted or wanted in (line.owner.casefold(), line.assigned.casefold())


def _is_with_others(line: OpenLine) -> bool:
    return bool(line.owner) and line.owner not in OWN_PEOPLE


def _can_be_done(line: OpenLine, still_open: set[tuple[str, str]]) -> bool:
    return not any((line.shipment, before) in still_open for before in line.after)


def entry_of(line: OpenLine, shipment: UnderWay) -> Entry:
    """Return a line as an entry."""
    return Entry(
        shipment=line.shipment,
        task=line.title,
        owner=f"{line.owner}: {line.assigned}" if line.assigned else line.owner,
        due=line.due,
        vehicle=line.vehicle or shipment.vehicles,
        buyer=shipment.buyer,
        id=line.id,
        critical=line.critical,
        legal=_LAW.search(line.source) is not None,
        wanted=line.wanted,
        version=line.version,
    )


def _next_moment(shipment: UnderWay, today: date) -> Entry | None:
    """Return the next moment that has not come true: until its last day is over it may still come.

    Where the last days of all are over, it is the first behind what has come true, overdue since its last day.
    """
    for stage, (first, last) in shipment.moments.items():
        if last >= today and stage not in shipment.recorded and stage in COMING:
            return moment_entry(shipment, stage, max(first, today) if stage != "cut-off" else last)
    stages = list(shipment.moments)
    come = max((stages.index(stage) for stage in shipment.recorded if stage in stages), default=-1)
    overdue = next((stage for stage in stages[come + 1 :] if stage in COMING), None)
    if overdue is None:
        return None
    return replace(moment_entry(shipment, overdue, shipment.moments[overdue][1]), overdue=True)


def moment_entry(shipment: UnderWay, stage: str, day: date) -> Entry:
    """Return a moment of a shipment as an entry: its owner is nobody."""
    return Entry(
        shipment=shipment.shipment,
        task=MOMENTS_IN_WORDS[stage],
        owner="",
        due=day,
        vehicle=shipment.vehicles,
        buyer=shipment.buyer,
        id=stage,
        legal=stage == "cut-off",
    )


def _standings(
    shipments: Iterable[UnderWay],
    late: Sequence[Entry],
    due: Sequence[Entry],
    waiting: Sequence[Entry],
    papers: Sequence[Entry],
    moments: Mapping[str, Entry | None],
) -> Iterator[Standing]:
    counts = [_counted(entries) for entries in (late, due, papers)]
    for one in shipments:
        owners = {entry.owner.partition(":")[0] for entry in waiting if entry.shipment == one.shipment}
        yield Standing(
            shipment=one.shipment,
            buyer=one.buyer,
            vehicles=one.vehicles,
            to=one.to,
            late=counts[0].get(one.shipment, 0),
            due=counts[1].get(one.shipment, 0),
            waiting=tuple(owner for owner in OWNERS if owner in owners),
            papers=counts[2].get(one.shipment, 0),
            next=moments[one.shipment],
        )


def _counted(entries: Iterable[Entry]) -> dict[str, int]:
    counts: dict[str, int] = {}
    for entry in entries:
        counts[entry.shipment] = counts.get(entry.shipment, 0) + 1
    return counts
