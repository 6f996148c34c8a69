"""A register as it should be, in plain lists and dictionaries: no database, no transactions, one desk that nobody interrupts.

What a quote costs, when a ship sails and which lines a checklist has is asked of the program's pure functions, which have tests
of their own; what is kept of it, and what becomes of that, is told here a second time.
"""

import copy
from collections.abc import Iterable, Mapping
from datetime import date

from shipcalc.checklist.items import Item
from shipcalc.quote.model import Quote, Window
from shipcalc.records import dataclass, field

Tick = tuple[str, date | None, str]


@dataclass
class Line:
    """A line of a checklist; `owner` is the role."""

    title: str
    owner: str
    due: date
    by_hand: bool = False
    tick: Tick = ("open", None, "")
    remark: str = ""
    assigned: str = ""
    version: int = 1

    @property
    def who(self) -> str:
        return f"{self.owner}: {self.assigned}" if self.assigned else self.owner


@dataclass
class Way:
    """A shipment. `key` is what its checklists bear; `read` are the sums of the copies that came back."""

    choice: int
    accepted_on: date
    key: str
    moments: Mapping[str, Window]
    lines: dict[str, Line]
    version: int = 1
    recorded: dict[str, date] = field(default_factory=dict)
    references: dict[str, str] = field(default_factory=dict)
    read: set[str] = field(default_factory=set)
    files: list[tuple[str, bool]] = field(default_factory=list)


@dataclass
class Kept:
    """A number: its revisions, how it stands, what happened."""

    revisions: list[Quote]
    state: str = "open"
    decided: tuple[date | None, str] = (None, "")
    choice: int | None = None
    history: list[str] = field(default_factory=lambda: ["kept"])

    @property
    def quote(self) -> Quote:
        return self.revisions[-1]

    def state_on(self, today: date) -> str:
        return "ended" if self.state == "open" and self.quote.valid_until < today else self.state

    @property
    def total(self) -> object:
        taken = self.choice if self.state == "accepted" else None
        return self.quote.options[self.quote.recommended if taken is None else taken].total


@dataclass(frozen=True)
class Copy:
    """A checklist that was handed out: what stood in it (`was`), what it says now, and the lines that somebody added."""

    number: str
    key: str
    version: int
    was: Mapping[str, tuple[Tick, str, str, str, date]]
    now: Mapping[str, tuple[Tick, str, str, str, date]]
    own: tuple[str, ...]
    own_due: date


@dataclass
class PlainRegister:
    """All that is kept. `given` is how many numbers were given, also such as a restored backup does not know of."""

    given: int = 0
    quotes: dict[str, Kept] = field(default_factory=dict)
    ways: dict[str, Way] = field(default_factory=dict)
    contacts: dict[tuple[str, str], str] = field(default_factory=dict)
    bills: list[tuple[object, ...]] = field(default_factory=list)

    def as_it_is(self) -> "PlainRegister":
        """Return a picture that later changes leave as it is."""
        quotes = [quote for kept in self.quotes.values() for quote in kept.revisions]
        return copy.deepcopy(self, {id(quote): quote for quote in quotes})

    def promised(self) -> dict[str, str]:
        """Return whom vehicles are promised to: stock number → number."""
        return {
            vehicle.stock_number: number
            for number, kept in self.quotes.items()
            if kept.state == "accepted"
            for vehicle in kept.quote.vehicles
        }

    def under_way(self, number: str) -> Way | None:
        """Return the shipment of a number whose buyer's yes holds."""
        return self.ways[number] if self.quotes[number].state == "accepted" else None


def lines_of(items: Iterable[Item]) -> dict[str, Line]:
    """Return the lines of a checklist as they begin."""
    return {item.id: Line(title=item.title, owner=item.owner, due=item.due) for item in items}


def said_of(line: Line) -> tuple[Tick, str, str, str, date]:
    """Return what a checklist shows of a line."""
    return line.tick, line.remark, line.title, line.who, line.due


def later_tick(mine: Tick, theirs: Tick) -> Tick:
    """Closed counts before open, the later day before the earlier; otherwise the first stays."""
    worth = [(tick[0] != "open", tick[1] or date.min) for tick in (mine, theirs)]
    return theirs if worth[1] > worth[0] else mine


def both_notes(mine: str, theirs: str) -> str:
    """Both notes stay; where one says all of the other, that one."""
    if mine in theirs:
        return theirs
    return mine if theirs in mine else f"{mine} / {theirs}"


def read_copy(way: Way, copied: Copy) -> None:
    """What only the copy changed is taken; what only the register changed stays; of both, by the rules above, or as it is here."""
    for key, line in way.lines.items():
        if key not in copied.now:
            continue
        tick0, remark0, title0, who0, due0 = copied.was[key]
        tick, remark, title, who, due = copied.now[key]
        if tick not in (tick0, line.tick):
            line.tick = tick if line.tick == tick0 else later_tick(line.tick, tick)
        if remark not in (remark0, line.remark):
            line.remark = remark if line.remark == remark0 else both_notes(line.remark, remark)
        if title != title0 == line.title:
            line.title = title
        if who != who0 == line.who:
            role, _, person = who.partition(":")
            line.owner, line.assigned = role.strip(), person.strip()
        if due != due0 == line.due:
            line.due, line.by_hand = due, True
    for title in copied.own:
        if not any(
            key.startswith("own-") and line.title.casefold() == title.casefold() for key, line in way.lines.items()
        ):
            way.lines[f"own-{len(way.lines) + 1}"] = Line(title=title, owner="yard", due=copied.own_due, by_hand=True)


def forget_way(way: Way, key: str) -> None:
    """Notes, who did what, links, drivers, copies and files tell of a buyer; sums, days and lines do not."""
    for line in way.lines.values():
        line.remark, line.tick = "", (*line.tick[:2], "")
    for name in ("tracking", "driver"):
        way.references.pop(name, None)
    way.key, way.files, way.read = key, [], set()
