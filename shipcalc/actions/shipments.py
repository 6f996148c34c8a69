"""Shipments under way: list, show, tick, assign, note, move, set; the checklist written and ticked copies read; files."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput, asked
from shipcalc.records import dataclass, replace

if TYPE_CHECKING:
    from shipcalc.actions.kept_quotes import Desk
    from shipcalc.checklist.items import Item, State
    from shipcalc.checklist.returned import Returned
    from shipcalc.documents.checklist.contacts_sheet import Details
    from shipcalc.register.contacts import Contact
    from shipcalc.register.doing import Change, Done
    from shipcalc.register.folder import Paper
    from shipcalc.register.shipments import Shipment, Standing
    from shipcalc.settings import Paper as Format

# The rows of the sheet Contacts that a reference names somebody for.
ON_CONTACTS = {
    "carrier": "Carrier's office",
    "forwarder": "Forwarder",
    "agent": "Terminal, arrival",
    "broker": "Customs broker there",
}


def number_of(text: str, desk: "Desk") -> str:
    """Return the number that is meant: `17` is one of this year."""
    from shipcalc.register.numbers import number_meant

    return number_meant(text, year=desk.today.year)


def find(text: str, desk: "Desk", *, most: int) -> "tuple[Standing, ...]":
    """Return the shipments under way, what is due first at the head."""
    from shipcalc.register.shipments import list_shipments

    with desk.register() as register, register.reading() as connection:
        return list_shipments(connection, today=desk.today, text=text, most=most)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A shipment, its files, and what has to be said of ship and ports today."""

    shipment: "Shipment"
    papers: "tuple[Paper, ...]"
    said: tuple[str, ...]


def show(number: str, desk: "Desk") -> Shown:
    """Return a shipment as it stands. Raises WrongInput where nobody has accepted the quote."""
    from shipcalc.register.folder import files_of
    from shipcalc.register.shipments import find_shipment

    meant = number_of(number, desk)
    with desk.register() as register, register.reading() as connection:
        shipment = find_shipment(connection, meant)
        papers = files_of(connection, meant)
    return Shown(shipment=shipment, papers=papers, said=misses_of(shipment, desk.today))


def misses_of(shipment: "Shipment", today: date) -> tuple[str, ...]:
    """Return what recorded days and ticks show to be missed or dear."""
    from shipcalc.checklist.misses import misses
    from shipcalc.trade import called_by

    called = called_by(leg.mode for leg in shipment.option.legs)[0]
    return tuple(misses(_with_gates(shipment), shipment.moments, shipment.free_days, today, called))


def _with_gates(shipment: "Shipment") -> "Sequence[Item]":
    """Return the lines; a vehicle that went through the gate is in the terminal, also where nobody has ticked its receipt, and
    one whose ship has left with it has missed nothing."""
    from shipcalc.checklist.misses import IN_THE_TERMINAL

    day, sailed = shipment.recorded.get("port"), "sailing" in shipment.recorded

    def told(item: "Item") -> "Item":
        if not item.is_open:
            return item
        if (day or sailed) and item.id.partition("/")[0] == IN_THE_TERMINAL:
            return replace(item, state="done", done_on=day)
        return replace(item, state="done") if sailed and item.stage == "cut-off" else item

    return [told(item) for item in shipment.items]


def _do(number: str, desk: "Desk", change: "Change", what: str) -> "Done":
    from shipcalc.register.doing import do

    with desk.register() as register:
        return do(register, number_of(number, desk), change, what=what, at=desk.at, who=desk.who)


def tick(
    number: str, line: str, desk: "Desk", *, state: "State", on: date | None, by: str, seen: int | None = None
) -> "Done":
    """Set a line to done, not needed or open; `seen` is the version of it that was looked at."""
    from shipcalc.register.doing import ticked

    return _do_line(
        number, line, desk, lambda shipment: ticked(shipment, line, state=state, on=on, by=by), "ticked", seen
    )


def _do_line(number: str, line: str, desk: "Desk", change: "Change", what: str, seen: int | None) -> "Done":
    """Change a line. Raises WrongInput where it is another version by now than was looked at: a change would be lost unseen."""
    from shipcalc.register.shipments import line_meant

    def changed(shipment: "Shipment") -> "Done":
        found = line_meant(shipment, line)
        if seen is not None and seen != found.version:
            told = f"“{found.item.title}” was changed at another desk meanwhile (version {found.version})"
            raise WrongInput(told, where=shipment.number, remedy="look at it again, then change it")
        return change(shipment)

    return _do(number, desk, changed, what)


def assign(number: str, line: str, desk: "Desk", *, to: str, seen: int | None = None) -> "Done":
    """Give a line to a person."""
    from shipcalc.register.doing import assigned

    if ":" in to:
        raise WrongInput("a colon divides role and person", where=asked("to"), remedy="write the name alone")
    return _do_line(number, line, desk, lambda shipment: assigned(shipment, line, to=to), "assigned", seen)


def note(number: str, line: str, desk: "Desk", *, text: str, seen: int | None = None) -> "Done":
    """Write a note on a line."""
    from shipcalc.register.doing import noted

    return _do_line(number, line, desk, lambda shipment: noted(shipment, line, remark=text), "noted", seen)


def set_due(number: str, line: str, desk: "Desk", *, due: date, seen: int | None = None) -> "Done":
    """Set the day a line is due."""
    from shipcalc.register.doing import due_on

    return _do_line(number, line, desk, lambda shipment: due_on(shipment, line, due=due), "due day set", seen)


def move(
    number: str,
    stage: str,
    desk: "Desk",
    *,
    to: date | None,
    days: int | None,
    look: bool = False,
    seen: Sequence[str] | None = None,
) -> "Done":
    """Move a moment to another first day, or by some days, and all that comes after it; with `look` nothing is written.

    `seen` is what a look said would change. Raises WrongInput where it would be something else by now.
    """
    from shipcalc.register.doing import shifted
    from shipcalc.register.shipments import find_shipment

    def change(shipment: "Shipment") -> "Done":
        window = shipment.moments.get(stage)
        by = days if days is not None else (to - window[0]).days if to and window else 0
        done = shifted(shipment, stage, days=by, known=to if stage == "sailing" else None)
        if seen is not None and tuple(seen) != done.changed:
            told = "other days would move than were looked at: somebody changed them meanwhile"
            raise WrongInput(told, where=shipment.number, remedy="look at it again, then move them")
        return done

    if look:
        with desk.register() as register, register.reading() as connection:
            return change(find_shipment(connection, number_of(number, desk)))
    return _do(number, desk, change, "moved")


def name(number: str, references: Sequence[str], desk: "Desk") -> "Done":
    """Keep references, `booking=…`; a name from the address book may be begun only. Raises WrongInput for what is mistyped."""
    from shipcalc.checklist.references import BY_NAME, reference_in
    from shipcalc.register.doing import named

    told = dict(reference_in(text) for text in references)
    said: list[str] = []
    with desk.register() as register, register.reading() as connection:
        for key, value in told.items():
            if BY_NAME[key].role and value:
                told[key] = _in_book(connection, BY_NAME[key].role, value, said)
    done = _do(number, desk, lambda shipment: named(shipment, told), "references set")
    return replace(done, said=(*done.said, *said))


def _in_book(connection: object, role: str, value: str, said: list[str]) -> str:
    """Return the full name of somebody in the address book; what is not clear stays as it was typed, and is said."""
    from shipcalc.register.contacts import offered

    found = offered(connection, role, value)  # type: ignore[arg-type]
    if len(found) == 1:
        return found[0].name
    if found:
        said.append(f'{role} "{value}": the address book has {", ".join(one.name for one in found)}')
    else:
        said.append(
            f'{role} "{value}" is not in the address book: shipcalc contacts add {role.split(maxsplit=1)[0]} "{value}" keeps it'
        )
    return value


def write_checklist(number: str, desk: "Desk", *, out: Path, paper: "Format") -> tuple["Shipment", Path, Path]:
    """Write the checklist of the present version and its calendar into a folder. Raises WrongInput where it was worked in."""
    from shipcalc.actions.files import CHECKLIST_NAME, check_not_worked_in
    from shipcalc.checklist.making import shipment_key
    from shipcalc.checklist.references import in_words
    from shipcalc.documents.checklist.calendar import calendar_bytes
    from shipcalc.documents.checklist.workbook import Present, checklist_title, write_checklist_workbook
    from shipcalc.documents.logo import read_logo
    from shipcalc.register.shipments import find_shipment
    from shipcalc.sheets.saving import save

    with desk.register() as register, register.reading() as connection:
        shipment = find_shipment(connection, number_of(number, desk))
        known = _known(connection, shipment)
    references = in_words(dict(shipment.references))
    who = {line.item.id: line.who for line in shipment.lines}
    items = tuple(replace(item, owner=who[item.id]) for item in shipment.items)
    plain = Path(CHECKLIST_NAME)
    file = out / (plain if shipment.version == 1 else plain.with_stem(f"{plain.stem}-{shipment.version}"))
    check_not_worked_in(file)
    present = Present(
        items=items,
        moments=shipment.moments,
        version=shipment.version,
        written_on=desk.today,
        references=references,
        known=known,
        added={line.item.id: line.added for line in shipment.lines if line.added},
    )
    logo = read_logo(desk.settings.dealer.logo)
    write_checklist_workbook(shipment.quote, shipment.choice, file, paper=paper, present=present, logo=logo)
    calendar = file.with_suffix(".ics")
    entries = calendar_bytes(
        items,
        shipment.moments,
        key=shipment_key(shipment.quote, shipment.option),
        title=checklist_title(shipment.quote),
        version=shipment.version,
        written_on=desk.today,
        references=references,
    )
    save(calendar, entries)
    return shipment, file, calendar


def _known(connection: object, shipment: "Shipment") -> "dict[str, Details]":
    """Return whom the address book knows of those who are named for a shipment, by their row on the sheet Contacts."""
    from shipcalc.checklist.references import BY_NAME
    from shipcalc.register.contacts import find_contact

    found: dict[str, Details] = {}
    for key, row in ON_CONTACTS.items():
        value = shipment.references.get(key, "")
        if value:
            contact = find_contact(connection, BY_NAME[key].role, value)  # type: ignore[arg-type]
            found[row] = _details(contact) if contact else (value, "", "", "", "")
    if driver := shipment.references.get("driver", ""):
        found["Driver"] = (driver, "", "", "", "")
    buyer = find_contact(connection, "buyer", shipment.quote.buyer)  # type: ignore[arg-type]
    if buyer is not None:
        found["Buyer"] = _details(buyer)
    return found


def _details(contact: "Contact") -> "Details":
    rest = ", ".join(part for part in (contact.address, contact.remark) if part)
    return contact.name, contact.telephone, contact.evening, contact.mail, rest


def read_copies(number: str, copies: Sequence[Path], desk: "Desk", *, look: bool) -> "Done":
    """Join ticked copies of a checklist with the register; with `look` nothing is written.

    A copy that was read before says nothing new, nor does the same file twice. Raises WrongInput for one of another shipment,
    FaultyWorkbook with cells that cannot be read.
    """
    from shipcalc.register.doing import Done
    from shipcalc.register.events import note_event
    from shipcalc.register.reading_copies import keep_read, was_read, with_copies
    from shipcalc.register.shipments import find_shipment, keep_changed

    returned, twice = _each_once(copies)
    meant = number_of(number, desk)
    with (
        desk.register() as register,
        register.reading() if look else register.writing("reading a checklist") as connection,
    ):
        was = find_shipment(connection, meant)
        before = {digest: was_read(connection, meant, digest) for digest in returned}
        new = {digest: copy for digest, copy in returned.items() if not before[digest]}
        done = with_copies(was, tuple(new.values()))
        if not look:
            for digest, copy in new.items():
                keep_read(connection, meant, copy, digest, at=desk.at)
            if done.shipment != was:
                keep_changed(connection, was, done.shipment)
                told = "; ".join(done.changed)
                note_event(connection, was.quote, "checklist read", at=desk.at, who=desk.who, told=told)
                done = Done(shipment=find_shipment(connection, meant), changed=done.changed, said=done.said)
    again = [
        f"{returned[digest].path.name} was read already ({at[:10]}): it says nothing new"
        for digest, at in before.items()
        if at
    ]
    return replace(done, said=(*done.said, *again, *twice, *misses_of(done.shipment, desk.today)))


def _each_once(copies: Sequence[Path]) -> "tuple[dict[str, Returned], list[str]]":
    """Read copies, and return them by what they hold; of two files that hold the same the second is only told."""
    from shipcalc.checklist.returned import read_returned
    from shipcalc.register.reading_copies import digest_of

    returned: dict[str, Returned] = {}
    twice: list[str] = []
    for file in dict.fromkeys(file.resolve() for file in copies):
        copy = read_returned(file)
        first = returned.setdefault(digest_of(copy), copy)
        if first is not copy:
            twice.append(f"{copy.path.name} holds the same as {first.path.name}: it says nothing new")
    return returned, twice


def add_files(
    number: str, paths: Sequence[Path], desk: "Desk", *, what: str, line: str, copy: bool
) -> "tuple[Paper, ...]":
    """Keep which files belong to a shipment, where they stand or copied beside the register; return all of its files."""
    from shipcalc.register.events import note_event
    from shipcalc.register.folder import add_file, files_of
    from shipcalc.register.shipments import find_shipment, line_meant

    meant = number_of(number, desk)
    with desk.register() as register, register.writing("adding files") as connection:
        shipment = find_shipment(connection, meant)
        task = line_meant(shipment, line).item.id if line else ""
        into = desk.files / meant if copy else None
        for path in paths:
            paper = add_file(connection, meant, path, what=what, task=task, into=into, at=desk.at)
            told = f"{paper.what}: {paper.path.name}{f', for {task}' if task else ''}"
            note_event(connection, shipment.quote, "file added", at=desk.at, who=desk.who, told=told)
        return files_of(connection, meant)
