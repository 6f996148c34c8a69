"""Several people's copies of one checklist become one: the later tick counts, every note stays, and it is said."""

from collections.abc import Iterator, Sequence

from shipcalc.checklist.carrying_over import Tick, joined, joined_remark, tick_of
from shipcalc.checklist.items import Item
from shipcalc.checklist.returned import OwnLine, Returned
from shipcalc.errors import WrongInput
from shipcalc.records import dataclass, replace
from shipcalc.sheets.reading import CellValue, is_blank

_PLAIN = {"due": "Due", "title": "What is to be done", "owner": "Who"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """The copy that the next version is made from, its lines with what all copies say, and where copies disagreed."""

    into: Returned
    items: tuple[Item, ...]
    own: tuple[OwnLine, ...]  # of the other copies only
    said: tuple[str, ...]


def joined_copies(copies: Sequence[Returned]) -> Joined:
    """Return the copies as one list. The newest version is taken as it is, and what was changed in the others comes into it.

    Raises WrongInput where they are of different shipments.
    """
    into = max(copies, key=lambda copy: copy.last.version)
    others = [copy for copy in copies if copy is not into]
    for copy in others:
        if copy.last.key != into.last.key:
            raise WrongInput(
                f"is the checklist of another shipment than {into.path.name}",
                where=str(copy.path),
                remedy="give copies of one shipment only",
            )
    items = {item.id: item for item in (*into.items, *into.missing)}
    own = {_own_key(line): line for line in into.own}
    more: list[OwnLine] = []
    said: list[str] = []
    for copy in others:
        for item in copy.items:
            was, newest = copy.last.items[item.id], into.last.items.get(item.id)
            if item.id in items and newest is not None:
                items[item.id] = line_joined(
                    items[item.id], newest, item, was, f"{into.path.name} and {copy.path.name}", said
                )
        more.extend(line for line in copy.own if own.setdefault(_own_key(line), line) is line)
    return Joined(into=into, items=tuple(items.values()), own=tuple(more), said=tuple(said))


def line_joined(now: Item, newest: Item, theirs: Item, was: Item, files: str, said: list[str]) -> Item:
    """Return a line with what another copy changed in it. `newest` and `was` are the versions that the two began from."""
    name = f"{now.title} ({now.id})"
    if _tick(theirs) not in (_tick(was), _tick(now)):
        if _tick(now) == _tick(newest) == _tick(was):
            now = _ticked(now, _tick(theirs))
        else:
            later = joined(_tick(now), _tick(theirs))
            said.append(
                f"{name}: {_told(now)} in one copy and {_told(theirs)} in the other ({files}); the later counts: {later.state}"
            )
            now = _ticked(now, later)
    if theirs.remark not in (was.remark, now.remark):
        if now.remark == newest.remark == was.remark:
            now = replace(now, remark=theirs.remark)
        else:
            now = replace(now, remark=joined_remark(now.remark, theirs.remark))
            said.append(f"{name}: both copies have a note ({files}); both stay")
    return _with_plain(now, newest, theirs, was, files, said)


def _with_plain(now: Item, newest: Item, theirs: Item, was: Item, files: str, said: list[str]) -> Item:
    for field, header in _PLAIN.items():
        mine, other = getattr(now, field), getattr(theirs, field)
        if other in (getattr(was, field), mine):
            continue
        if mine == getattr(newest, field):
            now = replace(now, **{field: other}, due_by_hand=now.due_by_hand or field == "due")
        else:
            said.append(f'{now.title} ({now.id}): {header} is "{mine}" and "{other}" ({files}); "{mine}" stays')
    return now


def _tick(item: Item) -> Tick:
    """Return how a line stands, without its note."""
    return replace(tick_of(item), remark="")


def _ticked(item: Item, tick: Tick) -> Item:
    return replace(item, state=tick.state, done_on=tick.done_on, done_by=tick.done_by)


def _told(item: Item) -> str:
    by = f" by {item.done_by}" if item.done_by else ""
    return f"{item.state}{by} on {item.done_on.isoformat()}" if item.done_on else f"{item.state}{by}, without a day"


def _own_key(line: OwnLine) -> tuple[tuple[str, str], ...]:
    """Return what tells one added line from another: all that is typed on it."""
    return tuple(sorted((header, str(value)) for header, value in line.cells.items() if not is_blank(value)))


def added_cells(copies: Sequence[Returned], into: Returned) -> Iterator[tuple[str, str, CellValue, str]]:
    """Yield (id, header, value, file) of what stands in columns that people added to the other copies."""
    for copy in copies:
        if copy is not into:
            for key, cells in copy.added.items():
                for header, value in cells.items():
                    yield key, header, value, copy.path.name
