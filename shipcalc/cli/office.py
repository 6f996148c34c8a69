"""The office's commands, over weeks: checklist make, read, move."""

from datetime import date
from pathlib import Path
from typing import Annotated

from shipcalc.cli.look import note, show_found
from shipcalc.cli.options import AsJson, Choice, OutFolder, argument, day_of, day_of_quote, option
from shipcalc.errors import WrongInput

Today = Annotated[str, option("--as-of", "DATE", "The day to count from. Default: today.")]


def make(
    quote_file: Annotated[Path, argument("QUOTE.json", "A saved quote: quote.json of quote --out.")],
    choice: Choice = None,
    accepted: Annotated[
        str, option("--accepted", "DATE", "The day the buyer said yes: all is dated from it. Default: today.")
    ] = "",
    sailing: Annotated[str, option("--sailing", "DATE", "The day on which its ship is known to leave.")] = "",
    out: OutFolder = None,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Turn an accepted quote into tasks and papers with due dates: checklist.xlsx, a PDF to print, and a calendar.

    A quote that has ended is not accepted any more. The word make may be left out.
    """
    from shipcalc.actions.checklist import make_checklist
    from shipcalc.cli.todo import checklist_json, checklist_lines
    from shipcalc.settings import find_settings

    settings = find_settings(Path.cwd())
    made = make_checklist(
        quote_file,
        choice=choice,
        out=out,
        paper=settings.paper,
        logo=settings.dealer.logo,
        accepted=day_of(accepted, "--accepted") if accepted else None,
        today=day_of_quote(as_of),
        sailing=day_of(sailing, "--sailing") if sailing else None,
    )
    show_found(made, checklist_json, checklist_lines, as_json=as_json)
    note(f"written: {made.file}, {made.to_print}, {made.calendar}")


def read(
    files: Annotated[list[Path], argument("FILE...", "The ticked workbook, or several people's copies of it.")],
    out: OutFolder = None,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Read a ticked checklist back: what changed, what is late, what is next; and write the next version beside it.

    Columns may have been moved, rows sorted, lines, columns and notes added: all of it stays. Of two people's copies the later
    tick counts and both notes stay. No file is written over.
    """
    from shipcalc.actions.checklist import read_checklist
    from shipcalc.cli.todo import read_back_json, read_back_lines

    done = read_checklist(files, out=out, today=day_of_quote(as_of))
    show_found(done, read_back_json, read_back_lines, as_json=as_json)
    note(f"written: {done.file}, {done.calendar}")


def move(
    file: Annotated[Path, argument("FILE", "The checklist, as it stands now.")],
    sailing: Annotated[str, option("--sailing", "DATE", "The ship leaves on this day.")] = "",
    stage: Annotated[
        str,
        option("--stage", "STAGE", "What moves: ready, pickup, port, cut-off, sailing, arrival, release or delivery."),
    ] = "",
    to: Annotated[str, option("--to", "DATE", "Its new (first) day.")] = "",
    days: Annotated[int | None, option("--days", "N", "Instead of a day: so many days later, or earlier.")] = None,
    out: OutFolder = None,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """Move the dates: what is open gets new due dates, what is done stays; all that comes after the moved day moves along."""
    from shipcalc.actions.checklist import move_checklist
    from shipcalc.cli.todo import read_back_json, read_back_lines

    today = day_of_quote(as_of)
    what, day = _what_moves(sailing, stage, to, days, today)
    done = move_checklist(file, what, to=day, days=days, out=out, today=today)
    show_found(done, read_back_json, read_back_lines, as_json=as_json)
    note(f"written: {done.file}, {done.calendar}")


def _what_moves(sailing: str, stage: str, to: str, days: int | None, today: date) -> tuple[str, date | None]:
    """Return the moment that moves and its new day. Raises WrongInput where the options do not say both, once each."""
    remedy = "give --sailing DATE, or --stage with --to DATE or --days N"
    if sailing:
        if stage or to or days is not None:
            raise WrongInput("says already what moves and to when", where="--sailing", remedy="leave the others out")
        return "sailing", day_of(sailing, "--sailing", today=today)
    if not stage or (bool(to) == (days is not None)):
        raise WrongInput("it is not clear what moves and to when", where="checklist move", remedy=remedy)
    return stage.strip().casefold(), day_of(to, "--to", today=today) if to else None


COMMANDS = (
    ("make", make, "The tasks for an accepted quote.", "shipcalc checklist lindqvist/office/quote.json"),
    (
        "read",
        read,
        "What was ticked, what is late, what is next.",
        "shipcalc checklist read lindqvist/office/checklist.xlsx",
    ),
    (
        "move",
        move,
        "New dates for what is open.",
        "shipcalc checklist move lindqvist/office/checklist.xlsx --stage pickup --days 7",
    ),
)
