"""Shipments under way: list, show, tick, assign, note, move, set, checklist, read, files, news, booking."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.at_register import Number, Today, Who, desk_of
from shipcalc.cli.look import (
    look_of_stdout,
    note,
    paragraph,
    show,
    show_found,
    show_json,
)
from shipcalc.cli.options import AsJson, OutFolder, RatesFolder, argument, day_of, flag, option
from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from shipcalc.checklist.items import State
    from shipcalc.register.doing import Done

Task = Annotated[str, argument("TASK", "The line: its number in shipments show, or its id, begun will do.")]


def list_shipments(
    text: Annotated[
        list[str] | None,
        argument("[TEXT...]", "Words of buyer, vehicle or place, or of a booking or container number."),
    ] = None,
    most: Annotated[int, option("--most", "N", "At most so many. Default: 50.")] = 50,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """List the shipments under way, what is due first at the head. The word list may be left out."""
    from shipcalc.actions.shipments import find
    from shipcalc.cli import shipment_words as words

    found = find(" ".join(text or ()), desk_of(as_of), most=max(most, 1))
    show_found(found, words.list_json, words.list_lines, as_json=as_json)


def show_shipment(
    number: Number,
    all_lines: Annotated[bool, flag("--all", "All tasks, also those that are done or not needed.")] = False,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Show a shipment: its days, references, tasks with their numbers, files, and what has to be said today."""
    from shipcalc.actions.shipments import show as look_up
    from shipcalc.cli import shipment_words as words

    found = look_up(number, desk_of(as_of))
    show_found(
        found, words.shown_json, lambda one, look: words.shown_lines(one, look, all_lines=all_lines), as_json=as_json
    )


def tick(
    number: Number,
    task: Task,
    on: Annotated[str, option("--on", "DATE", "The day it was done. Default: today.")] = "",
    who: Who = "",
    not_needed: Annotated[bool, flag("--not-needed", "It need not be done.")] = False,
    reopen: Annotated[bool, flag("--open", "It is open again.")] = False,
    seen: Annotated[
        int | None,
        option("--seen", "N", "The version of the line that was looked at: nothing is done where it is another now."),
    ] = None,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Set a task to done."""
    from shipcalc.actions.shipments import tick as keep

    if not_needed and reopen:
        raise WrongInput("a task is not needed or open, not both", where="--open", remedy="leave one out")
    desk = desk_of(as_of, who)
    day = day_of(on, "--on", today=desk.today) if on else desk.today
    state: State = "not needed" if not_needed else "open" if reopen else "done"
    _tell(keep(number, task, desk, state=state, on=day, by=who, seen=seen), as_json=as_json)


def assign(
    number: Number,
    task: Task,
    to: Annotated[str, option("--to", "NAME", "The person; left out, it is nobody's own any more.")] = "",
    who: Who = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Give a task to a person."""
    from shipcalc.actions.shipments import assign as keep

    _tell(keep(number, task, desk_of(as_of, who), to=to.strip()), as_json=as_json)


def note_task(
    number: Number,
    task: Task,
    text: Annotated[str, argument("TEXT", 'What is to be kept in mind; "" takes the note away.')],
    who: Who = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Write a note on a task, behind the one that is there."""
    from shipcalc.actions.shipments import note as keep

    _tell(keep(number, task, desk_of(as_of, who), text=text.strip()), as_json=as_json)


def move(
    number: Number,
    stage: Annotated[
        str,
        option("--stage", "STAGE", "What moves: ready, pickup, port, cut-off, sailing, arrival, release or delivery."),
    ] = "",
    task: Annotated[str, option("--task", "TASK", "Instead: the one task whose due day is set.")] = "",
    to: Annotated[str, option("--to", "DATE", "Its new (first) day.")] = "",
    days: Annotated[int | None, option("--days", "N", "Instead of a day: so many days later, or earlier.")] = None,
    look: Annotated[bool, flag("--look", "Only say what would move; nothing is written.")] = False,
    who: Who = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Move the dates: open tasks get new due days, what is done stays, what comes after the moved day moves along."""
    from shipcalc.actions.shipments import move as shift
    from shipcalc.actions.shipments import set_due

    desk = desk_of(as_of, who)
    if bool(stage) == bool(task) or bool(to) == (days is not None) or (task and not to):
        remedy = "give --stage with --to DATE or --days N, or --task with --to DATE"
        raise WrongInput("it is not clear what moves and to when", where="shipments move", remedy=remedy)
    day = day_of(to, "--to", today=desk.today) if to else None
    if task and look:
        raise WrongInput("one task moves nothing else", where="--look", remedy="leave it out")
    if task and day is not None:
        _tell(set_due(number, task, desk, due=day), as_json=as_json)
    else:
        _tell(shift(number, stage.strip().casefold(), desk, to=day, days=days, look=look), as_json=as_json)
    if look:
        note("only looked: nothing was written")


def set_references(
    number: Number,
    references: Annotated[
        list[str],
        argument(
            "NAME=VALUE...", "carrier, driver, forwarder, booking, container, seal, vessel, voyage, itn, bill, agent, …"
        ),
    ],
    who: Who = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Keep the numbers and names that the trade knows the shipment by; booking= takes one away.

    Names: carrier, driver, forwarder, booking, container, seal, vessel, voyage, itn, bill (of lading), agent (at the port),
    release, entry (customs), broker, tracking (a link).
    """
    from shipcalc.actions.shipments import name

    _tell(name(number, references, desk_of(as_of, who)), as_json=as_json)


def write_checklist(number: Number, out: OutFolder = None, as_of: Today = "", as_json: AsJson = False) -> None:
    """Write the checklist as it stands, as a workbook and to print, and its calendar; shipments read takes ticked copies back."""
    from shipcalc.actions.shipments import write_checklist as write
    from shipcalc.documents.checklist.to_print import to_print_beside

    desk = desk_of(as_of)
    shipment, file, calendar = write(number, desk, out=out or Path(), paper=desk.settings.paper)
    to_print = to_print_beside(file)
    if as_json:
        from shipcalc.cli.listing import to_json

        told = {"number": shipment.number, "version": shipment.version}
        show_json(to_json(told | {"file": str(file), "calendar": str(calendar), "to_print": str(to_print)}))
    else:
        show(
            paragraph(
                look_of_stdout(), f"{shipment.number}, version {shipment.version}: {file}, {to_print}, {calendar}"
            )
        )


def read(
    number: Number,
    copies: Annotated[list[Path], argument("FILE...", "The ticked workbook, or several people's copies of it.")],
    look: Annotated[bool, flag("--look", "Only say what would change; nothing is written.")] = False,
    who: Who = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Join ticked copies with what is kept: an old copy, too, wins or loses nothing unseen."""
    from shipcalc.actions.shipments import read_copies

    _tell(read_copies(number, copies, desk_of(as_of, who), look=look), as_json=as_json)
    if look:
        note("only looked: nothing was written")


def files(
    number: Number,
    paths: Annotated[
        list[Path] | None, argument("[FILE...]", "Files that belong to it. Without one they are listed.")
    ] = None,
    what: Annotated[str, option("--what", "TEXT", "What they are: title scan, photographs, signed receipt.")] = "",
    task: Annotated[str, option("--task", "TASK", "The task that they show to be done.")] = "",
    copy: Annotated[
        bool, flag("--copy", "Copy them beside the register, or into the folder that is set as files; else they stay.")
    ] = False,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Keep a shipment's files together, and say which were changed since or are missing."""
    from shipcalc.actions.shipments import add_files
    from shipcalc.cli import shipment_words as words

    found = add_files(number, paths or (), desk_of(as_of), what=what, line=task, copy=copy)
    show_found(found, words.files_json, words.files_lines, as_json=as_json)


def news(
    number: Number,
    picked_up: Annotated[str, option("--picked-up", "DATE", "The day it was picked up.")] = "",
    gate_in: Annotated[str, option("--gate-in", "DATE", "The day it went into the terminal.")] = "",
    sailing: Annotated[str, option("--sailing", "DATE", "The day its ship left, or is to leave.")] = "",
    arrived: Annotated[str, option("--arrived", "DATE", "The day its ship came in, or is to come.")] = "",
    released: Annotated[str, option("--released", "DATE", "The day customs and line let it go.")] = "",
    delivered: Annotated[str, option("--delivered", "DATE", "The day it was delivered.")] = "",
    container: Annotated[str, option("--container", "NO", "Its container.")] = "",
    vessel: Annotated[str, option("--vessel", "NAME", "Its ship.")] = "",
    letter: Annotated[
        Path | None,
        option(
            "--letter",
            "FILE",
            "Write the letter to the buyer into this file, as HTML and as a mail beside it.",
        ),
    ] = None,
    look: Annotated[bool, flag("--look", "Only say what would change; nothing is kept.")] = False,
    rates: RatesFolder = None,
    who: Who = "",
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Keep days that came true: they replace windows, what they miss is said, and a letter to the buyer is drafted."""
    from shipcalc.actions.ship_news import tell_news
    from shipcalc.actions.sources import find_sources
    from shipcalc.cli import shipment_words as words

    desk = desk_of(as_of, who)
    typed = {
        "pickup": ("--picked-up", picked_up),
        "port": ("--gate-in", gate_in),
        "sailing": ("--sailing", sailing),
        "arrival": ("--arrived", arrived),
        "release": ("--released", released),
        "delivery": ("--delivered", delivered),
    }
    days = {stage: day_of(text, name, today=desk.today) for stage, (name, text) in typed.items() if text}
    named = [f"{name}={value}" for name, value in (("container", container), ("vessel", vessel)) if value]
    sources = find_sources(folder=Path.cwd(), rates=rates, as_of=desk.today)
    told = tell_news(number, days, named, desk, sources, look=look)
    show_found(told, words.news_json, lambda one, look_: words.news_lines(one, look_, letter=letter), as_json=as_json)
    if letter is not None:
        from shipcalc.sheets.saving import save

        text = letter if letter.suffix not in (".html", ".eml") else letter.with_suffix(".txt")
        for file, content in (
            (text, told.letter.encode()),
            (letter.with_suffix(".html"), told.page.encode()),
            (letter.with_suffix(".eml"), told.mail),
        ):
            save(file, content)
            note(f"written: {file}")


def booking(
    number: Number,
    out: Annotated[
        Path | None, option("--out", "FILE", "Write it into this file too, and as a mail (.eml) beside it.")
    ] = None,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Draft the mail that books the truck: what travels, where, when, what works, what the carrier is to confirm. What is
    missing in it is said. Nobody is written to: read it, then send it."""
    from shipcalc.actions.booking import draft_booking
    from shipcalc.cli import shipment_words as words

    drafted = draft_booking(number, desk_of(as_of))
    show_found(drafted, words.booking_json, words.booking_lines, as_json=as_json)
    if out is not None:
        from shipcalc.documents.letter import as_text
        from shipcalc.sheets.saving import save

        text = out.with_suffix(".txt") if out.suffix == ".eml" else out
        for file, content in ((text, as_text(drafted.letter).encode()), (out.with_suffix(".eml"), drafted.mail)):
            save(file, content)
            note(f"written: {file}")


def _tell(done: "Done", *, as_json: bool) -> None:
    from shipcalc.cli import shipment_words as words

    show_found(done, words.done_json, words.done_lines, as_json=as_json)


COMMANDS = (
    ("list", list_shipments, "What is under way, by what is due.", "shipcalc shipments list"),
    ("show", show_shipment, "Days, tasks, references, files.", "shipcalc shipments show 3"),
    ("tick", tick, "A task is done.", 'shipcalc shipments tick 3 1 --who "Nadia"'),
    ("assign", assign, "A task is somebody's.", 'shipcalc shipments assign 3 2 --to "Per"'),
    ("note", note_task, "A note on a task.", 'shipcalc shipments note 3 2 "calls back on Friday"'),
    ("set", set_references, "Booking, container, carrier.", "shipcalc shipments set 3 booking=TH-4471 driver=Ines"),
    ("checklist", write_checklist, "The workbook, as it stands.", "shipcalc shipments checklist 3 --out lindqvist/way"),
    ("read", read, "Ticked copies come back.", "shipcalc shipments read 3 lindqvist/way/checklist-5.xlsx --look"),
    ("move", move, "New days for what is open.", "shipcalc shipments move 3 --stage pickup --days 3"),
    (
        "files",
        files,
        "Scans and photographs.",
        'shipcalc shipments files 3 lindqvist/way/checklist-5.xlsx --what "list"',
    ),
    ("booking", booking, "The mail to the carrier.", "shipcalc shipments booking 3"),
    ("news", news, "What came true; a letter.", "shipcalc shipments news 3 --picked-up today"),
)
