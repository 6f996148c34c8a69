"""Checklist: what is left to do for a quote, by whom and by when: made, read back when ticked, moved to new dates."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput
from shipcalc.records import dataclass
from shipcalc.settings import Paper

if TYPE_CHECKING:
    from shipcalc.checklist.items import Item
    from shipcalc.checklist.joining import Joined
    from shipcalc.checklist.returned import Returned
    from shipcalc.quote.model import Option, Quote, Window


@dataclass(frozen=True, slots=True)
class Checklist:
    """The quote as it was accepted, the choice that was taken, what is to be done in working order, and what was written.

    `said`: what the day of acceptance no longer reaches.
    """

    quote: "Quote"
    option: "Option"
    items: "tuple[Item, ...]"
    file: Path
    calendar: Path
    to_print: Path
    said: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadBack:
    """How a checklist stands on a day, and the next version that was written.

    `changed`: what people changed, `said`: what had to be decided or left; `late`, `next` and `asked` are lines: past their day,
    waiting for nothing, and done although something they wait for is not (with that line).
    """

    today: date
    version: int
    changed: tuple[str, ...]
    said: tuple[str, ...]
    items: "tuple[Item, ...]"
    late: "tuple[Item, ...]"
    next: "tuple[Item, ...]"
    asked: "tuple[tuple[Item, Item], ...]"
    file: Path
    calendar: Path


def make_checklist(
    quote_file: Path,
    *,
    choice: int | None,
    out: Path | None,
    paper: Paper,
    logo: Path | None = None,
    accepted: date | None,
    today: date,
    sailing: date | None = None,
) -> Checklist:
    """Write the checklist of a saved quote and its calendar into `out` (default: beside the quote) and return them.

    All is dated from `accepted`, else from today (from the day of the quote, where that is still to come). Raises NoAnswer for
    a quote that had ended by then, or whose ship is no longer reached. `sailing` is the day on which the ship is known to leave.

    Raises WrongInput for a file that is no quote, a choice it does not have, a quote without tasks, and where somebody has
    worked in the checklist that would be written over.
    """
    from shipcalc.actions.files import (
        CHECKLIST_NAME,
        DATA_NAME,
        check_not_worked_in,
        option_index,
        read_quote,
        write_first_calendar,
    )
    from shipcalc.checklist.accepting import accepted_on
    from shipcalc.checklist.making import checklist, free_days, gates
    from shipcalc.checklist.misses import misses
    from shipcalc.documents.checklist.to_print import to_print_beside
    from shipcalc.documents.checklist.workbook import write_checklist_workbook
    from shipcalc.documents.logo import read_logo
    from shipcalc.trade import called_by

    quote = read_quote(quote_file)
    index = option_index(quote, choice)
    if not quote.options[index].tasks:
        raise WrongInput(
            "has no tasks to make a checklist of",
            where=str(quote_file),
            remedy=f"name the {DATA_NAME} that shipcalc quote --out wrote for the office",
        )
    said_yes = accepted or max(today, quote.as_of)
    taken = accepted_on(quote, index, said_yes, sailing=sailing)
    quote, option = taken.quote, taken.quote.options[index]
    file = (quote_file.parent if out is None else out) / CHECKLIST_NAME
    check_not_worked_in(file)
    write_checklist_workbook(quote, index, file, paper=paper, logo=read_logo(logo))
    items = checklist(quote, option)
    calendar = file.with_suffix(".ics")
    write_first_calendar(quote, option, items, calendar)
    called = called_by(leg.mode for leg in option.legs)[0]
    warned = misses(items, gates(quote, option), free_days(option), said_yes, called)
    return Checklist(quote, option, items, file, calendar, to_print_beside(file), (*taken.said, *warned))


def read_checklist(files: Sequence[Path], *, out: Path | None, today: date) -> ReadBack:
    """Read a ticked checklist, or several people's copies of one, and write the next version beside the newest (or into `out`).

    Raises WrongInput for a file that is no checklist or one of another shipment, FaultyWorkbook with cells that cannot be read.
    """
    from shipcalc.checklist.changes import changes
    from shipcalc.checklist.joining import joined_copies
    from shipcalc.checklist.returned import read_returned

    copies = [read_returned(file) for file in _once(files)]
    joined = joined_copies(copies)
    changed = changes(joined.items, joined.into.last.items)
    return _written(joined, copies, changed, out=out, today=today)


def move_checklist(
    file: Path, stage: str, *, to: date | None, days: int | None, out: Path | None, today: date
) -> ReadBack:
    """Move a moment of the shipment to another first day, or by some days, and write the next version.

    Open lines move along, closed ones stay as they are. Raises WrongInput as `read_checklist`, for a moment that the shipment
    does not have, and where it would come before what must be earlier.
    """
    from shipcalc.checklist.changes import changes, moves
    from shipcalc.checklist.joining import joined_copies
    from shipcalc.checklist.moving import moved
    from shipcalc.checklist.returned import read_returned
    from shipcalc.records import replace

    returned = read_returned(file)
    joined = joined_copies([returned])
    moments = returned.last.moments
    if days is None:
        assert to is not None, "either a day or a number of days"
        days = (to - moments[stage][0]).days if stage in moments else 0
    after = moved(joined.items, moments, stage, days=days, known=to if stage == "sailing" else None)
    typed = changes(joined.items, returned.last.items)
    lines = {item.id: item for item in joined.items}
    changed = (*typed, *moves(after.items, lines, after.moments, moments))
    into = replace(joined, items=after.items, said=(*joined.said, *after.said))
    return _written(into, [returned], changed, out=out, today=today, moments=after.moments, sorts=True)


def _once(files: Sequence[Path]) -> list[Path]:
    return list({file.resolve(): file for file in files}.values())


def _written(
    joined: "Joined",
    copies: "Sequence[Returned]",
    changed: tuple[str, ...],
    *,
    out: Path | None,
    today: date,
    moments: "Mapping[str, Window] | None" = None,
    sorts: bool = False,
) -> ReadBack:
    from shipcalc.checklist.misses import misses
    from shipcalc.checklist.progress import closed_too_soon, overdue, ready_to_do
    from shipcalc.documents.checklist.calendar import calendar_bytes
    from shipcalc.documents.checklist.next_version import NextVersion, write_next_version
    from shipcalc.sheets.saving import save

    into = joined.into
    days = into.last.moments if moments is None else moments
    version = into.last.version
    while True:
        version, file = _next_file(into.path if out is None else out / into.path.name, version)
        to_say = NextVersion(version=version, written_on=today, moments=days, items=joined.items, sorts=sorts)
        try:
            said = write_next_version(joined, copies, to_say, file)
            break
        except FileExistsError:  # somebody else has just written that one: theirs stays, this is the one after it
            continue
    key, calendar = into.last.key, file.with_suffix(".ics")
    entries = calendar_bytes(joined.items, days, key=key, title=into.last.title, version=version, written_on=today)
    save(calendar, entries)
    lines = (*joined.items, *(line.item for line in (*into.own, *joined.own)))
    in_order = sorted(lines, key=lambda item: item.due)
    return ReadBack(
        today=today,
        version=version,
        changed=changed,
        said=(*joined.said, *said, *misses(in_order, days, into.last.free_days, today), *_mistyped(in_order)),
        items=tuple(in_order),
        late=overdue(in_order, today),
        next=tuple(item for item in ready_to_do(in_order) if item.due >= today),
        asked=closed_too_soon(in_order),
        file=file,
        calendar=calendar,
    )


def _mistyped(items: "Sequence[Item]") -> "Iterator[str]":
    """Yield what is wrong with container numbers that people wrote into their notes."""
    from shipcalc.vehicles.container_number import mistyped_in

    for item in items:
        for wrong in mistyped_in(item.remark):
            yield f"Note on “{item.title}”: {wrong}."


def _next_file(path: Path, version: int) -> tuple[int, Path]:
    """Return the next version that is not there yet, and its file: checklist.xlsx → checklist-2.xlsx. Nothing is written over."""
    stem, _, number = path.stem.rpartition("-")
    name = stem if stem and number.isdigit() else path.stem
    version += 1
    while (file := path.with_name(f"{name}-{version}.xlsx")).exists():
        version += 1
    return version, file
