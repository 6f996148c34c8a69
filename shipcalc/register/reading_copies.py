"""A ticked copy comes back to the register: what was changed in it since it was written is joined with what was changed here.

Each copy says what its lines were when it was written. What only the copy changed is taken; what only the register changed
stays; of what both changed, the later tick counts, both notes stay, and other words stay as they are here: all of it is said.
Columns that people added come along with their line, and stand in the next copy that is written.
"""

import hashlib
from collections.abc import Iterator, Sequence

from sqlalchemy import Connection, insert, select

from shipcalc.checklist.changes import changes
from shipcalc.checklist.columns import HEADERS
from shipcalc.checklist.items import Item
from shipcalc.checklist.joining import line_joined
from shipcalc.checklist.making import shipment_key
from shipcalc.checklist.returned import NO_DATE, OwnLine, Returned
from shipcalc.checklist.typed import text_in
from shipcalc.errors import WrongInput, how_many
from shipcalc.files import read_file
from shipcalc.records import replace
from shipcalc.register.doing import Done
from shipcalc.register.shipments import Line, Shipment
from shipcalc.register.tables import copies

OWN = "own"


def digest_of(copy: Returned) -> str:
    """Return what tells one copy from another: what it holds."""
    return hashlib.sha256(read_file(copy.path)).hexdigest()


def was_read(connection: Connection, number: str, digest: str) -> str:
    """Return when a copy was read already, "" where it was not."""
    asked = select(copies.c.read_at).where(copies.c.number == number, copies.c.sha256 == digest)
    return str(connection.execute(asked).scalar() or "")


def keep_read(connection: Connection, number: str, copy: Returned, digest: str, *, at: str) -> None:
    """Keep that a copy was read."""
    row = {"number": number, "sha256": digest, "name": copy.path.name, "version": copy.last.version, "read_at": at}
    connection.execute(insert(copies), row)


def check_same_shipment(shipment: Shipment, copy: Returned) -> None:
    """Raise WrongInput for a copy of another shipment's checklist."""
    if copy.last.key != shipment_key(shipment.quote, shipment.option):
        told = f"is not the checklist of {shipment.number} but of {copy.last.title}"
        raise WrongInput(told, where=str(copy.path), remedy="name a copy that was written for this shipment")


def with_copies(shipment: Shipment, returned: Sequence[Returned]) -> Done:
    """Return a shipment with what copies of its checklist changed, oldest version first, and all that has to be said of it."""
    now = shipment
    said: list[str] = []
    for copy in sorted(returned, key=lambda one: one.last.version):
        check_same_shipment(shipment, copy)
        now = _with_copy(now, copy, said)
    before = {line.item.id: _told(line) for line in shipment.lines}
    items = [_told(line) for line in now.lines]
    new = tuple(f"new line: {item.title}" for item in items if item.id not in before)
    return Done(shipment=now, changed=(*changes(items, before), *_added_now(shipment, now), *new), said=tuple(said))


def _added_now(was: Shipment, now: Shipment) -> Iterator[str]:
    """Yield what stands newly in columns that people added, a sentence for each column."""
    before = {line.item.id: dict(line.added) for line in was.lines}
    counts: dict[str, int] = {}
    for line in now.lines:
        there, here = before.get(line.item.id, {}), dict(line.added)
        for header in {**there, **here}:
            if there.get(header) != here.get(header):
                counts[header] = counts.get(header, 0) + 1
    for header, count in counts.items():
        yield f"your column “{header}”: {how_many(count, 'line')}"


def _with_copy(shipment: Shipment, copy: Returned, said: list[str]) -> Shipment:
    if copy.last.version < shipment.version:
        said.append(
            f"{copy.path.name} was written from version {copy.last.version}; the register is at {shipment.version}"
        )
    theirs = {item.id: item for item in copy.items}
    lines = [_joined(line, theirs.get(line.item.id), copy, said) for line in shipment.lines]
    said += _left_out(shipment, copy)
    for own in copy.own:
        lines = _with_own(lines, own)
    return replace(shipment, lines=tuple(lines))


def _joined(line: Line, theirs: Item | None, copy: Returned, said: list[str]) -> Line:
    was = copy.last.items.get(line.item.id)
    if theirs is None or was is None:
        return line
    files = f"the register and {copy.path.name}"
    kept = _kept(line, line_joined(_told(line), was, theirs, was, files, said))
    return replace(kept, added=_added(line, copy, files, said))


def _added(line: Line, copy: Returned, files: str, said: list[str]) -> tuple[tuple[str, str], ...]:
    """Return what stands in columns that people added: what the copy changed, where the register did not change it too."""
    key, now = line.item.id, dict(line.added)
    theirs = {header: text_in(value) for header, value in copy.added.get(key, {}).items()}
    was = copy.last.added.get(key, {})
    for header in dict.fromkeys((*theirs, *(header for header in was if header in copy.columns))):
        mine, other, stood = now.get(header, ""), theirs.get(header, ""), was.get(header, "")
        if other in (stood, mine):
            continue
        if mine != stood and mine and other:
            said.append(f"{line.item.title} ({key}): “{header}” was changed on both sides ({files}); both stay")
            other = f"{mine} / {other}"
        now[header] = other
    return tuple((header, text) for header, text in now.items() if text)


def _told(line: Line) -> Item:
    """Return a line as a checklist shows it: the person behind the role."""
    return replace(line.item, owner=line.who)


def _kept(line: Line, item: Item) -> Line:
    """Return a line from what a checklist shows of it."""
    role, _, person = item.owner.partition(":")
    return replace(line, item=replace(item, owner=role.strip(), slack_days=None), assigned=person.strip())


def _left_out(shipment: Shipment, copy: Returned) -> Iterator[str]:
    """Yield what was deleted in a copy."""
    known = {line.item.id for line in shipment.lines}
    for item in copy.missing:
        if item.id in known:
            yield f"{item.title} ({item.id}) was deleted in {copy.path.name} and stays: set it to not needed instead"


def _with_own(lines: list[Line], own: OwnLine) -> list[Line]:
    """Return the lines with one that somebody added; one of the same words is the same line, and the later tick counts."""
    title = own.item.title or own.item.remark or f"line {own.row}"
    for place, line in enumerate(lines):
        if line.item.title.casefold() == title.casefold() and line.item.id.startswith(f"{OWN}-"):
            was = replace(line.item, state="open", done_on=None, done_by="")
            theirs = replace(own.item, id=line.item.id, title=line.item.title, due=line.item.due, owner=line.who)
            joined = line_joined(_told(line), was, theirs, was, "", [])
            kept = replace(_kept(line, joined), added=line.added or _of_own(own))
            return [*lines[:place], kept, *lines[place + 1 :]]
    place = max((line.place for line in lines), default=0) + 1
    due = own.item.due if own.item.due != NO_DATE else max(line.item.due for line in lines)
    item = replace(own.item, id=f"{OWN}-{place}", title=title, due=due, due_by_hand=True)
    return [*lines, _kept(Line(item=item, place=place, added=_of_own(own)), item)]


def _of_own(own: OwnLine) -> tuple[tuple[str, str], ...]:
    ours = frozenset(HEADERS.values())
    told = ((header, text_in(value)) for header, value in own.cells.items() if header not in ours)
    return tuple((header, text) for header, text in told if text)
