"""The office's day over all shipments: today."""

import shutil
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.at_register import Today, desk_of
from shipcalc.cli.look import Column, Look, heading, note, paragraph, show_found, table
from shipcalc.cli.options import AsJson, flag, option
from shipcalc.errors import how_many

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shipcalc.actions.today import Today as Found
    from shipcalc.checklist.office_day import Entry, Standing

SHIPMENTS = (
    Column("Shipment"),
    Column("Vehicle"),
    Column("Buyer"),
    Column("Late", "right"),
    Column("Due", "right"),
    Column("Papers", "right"),
    Column("Waits for", wraps=True),
    Column("Next"),
)
ENTRIES = (Column("Due"), Column("Shipment"), Column("Who", wraps=True), Column("What", wraps=True))
ENDING = (Column("Until"), Column("Quote"), Column("Buyer", wraps=True), Column("Vehicles", wraps=True))
LEAST_ENTRIES = 3
# What all other columns take of a row, buyers of the longest name included.
TAKEN, LONGEST_BUYER = 67, 15
SHORT = {"port": "Gate", "cut-off": "Cut-off"}


def today(
    person: Annotated[
        str, option("--person", "NAME", "Only what is for one person, or one role: office, yard, buyer.")
    ] = "",
    full: Annotated[bool, flag("--full", "All of it, not only what fits on the screen.")] = False,
    out: Annotated[Path | None, option("--out", "FILE", "A workbook (.xlsx), or one calendar of all (.ics).")] = None,
    as_of: Today = "",
    as_json: AsJson = False,
) -> None:
    """What is late and due, who is waited for, which papers are missing, the next ship or gate: over all shipments."""
    from shipcalc.actions.today import today_of

    found = today_of(desk_of(as_of), person=person, out=out)
    rows = None if full else shutil.get_terminal_size((80, 24)).lines - 1
    show_found(found, today_json, lambda one, look: _lines(one, look, rows), as_json=as_json)
    if out is not None:
        note(f"written: {out}")


def today_json(found: "Found") -> str:
    """Return `{"late", "due", "waiting", "next", "papers", "ending", "shipments"}`, entries each with shipment, task, owner,
    due, vehicle, buyer."""
    from shipcalc.cli.kept import list_json
    from shipcalc.cli.listing import to_json
    from shipcalc.records import asdict

    day = found.day
    import json

    return to_json(
        {
            "today": day.today.isoformat(),
            "person": day.person,
            **{
                name: [_entry_json(one) for one in getattr(day, name)]
                for name in ("late", "due", "waiting", "next", "papers")
            },
            "ending": json.loads(list_json(found.ending))["quotes"],
            "shipments": [
                asdict(one) | {"next": _entry_json(one.next) if one.next else None, "waiting": list(one.waiting)}
                for one in day.shipments
            ],
        }
    )


def _entry_json(entry: "Entry") -> dict[str, object]:
    from shipcalc.records import asdict

    return asdict(entry) | {"due": entry.due.isoformat()}


def _lines(found: "Found", look: Look, rows: int | None) -> list[str]:
    """Return the day; in a terminal of so many `rows`, what does not fit is counted."""
    from shipcalc.cli.words import short_day  # late: it knows all that papers say

    day = found.day
    whole = look.width is None or rows is None
    title = f"{day.today.isoformat()}: {how_many(len(day.shipments), 'shipment')} under way"
    counts = f"{len(day.late)} late, {len(day.due)} due within a week, {len(day.waiting)} waiting for others"
    lines = [look.strong(line) for line in paragraph(look, f"{title}, {counts}")]
    if day.shipments:
        lines += table(
            look, SHIPMENTS, [_standing(one, look) for one in day.shipments], most_lines=None if whole else 1
        )
    elif look.width is not None:
        lines += paragraph(look, "Nothing is under way. shipcalc quotes accept begins a shipment.")
    if found.ending:
        ends = [(short_day(one.valid_until), one.number, one.buyer, one.vehicles) for one in found.ending]
        shown = ends if whole else ends[:LEAST_ENTRIES]
        lines += [*heading(look, _counted("Quotes that end this week", shown, ends))]
        lines += table(look, ENDING, shown, most_lines=None if whole else 1)
    for name, entries in (("Late", day.late), ("Due", day.due), ("Waiting for others", day.waiting)):
        room = len(entries) if whole or rows is None else rows - len(lines) - 3
        if entries and room >= min(LEAST_ENTRIES, len(entries)):
            shown_entries = entries[:room]
            lines += heading(look, _counted(name, shown_entries, entries))
            lines += table(look, ENTRIES, [_entry(one, look) for one in shown_entries], most_lines=None if whole else 1)
    return lines


def _counted(name: str, shown: "Sequence[object]", all_of_it: "Sequence[object]") -> str:
    return name if len(shown) == len(all_of_it) else f"{name}: {len(shown)} of {len(all_of_it)} (--full)"


def _standing(one: "Standing", look: Look) -> "Sequence[str]":
    from shipcalc.cli.words import short_day  # late: it knows all that papers say

    counts = tuple(str(count) if count else "" for count in (one.late, one.due, one.papers))
    if look.width is None:
        coming = f"{one.next.due.isoformat()} {one.next.task}" if one.next else ""
        return (one.shipment, one.vehicles, one.buyer, *counts, ", ".join(one.waiting), coming)
    coming = f"{short_day(one.next.due)} {SHORT.get(one.next.id, one.next.task)}" if one.next else ""
    names = _cut(one.vehicles.partition(" ")[2], look.width - TAKEN), _cut(one.buyer, LONGEST_BUYER)
    return (one.shipment, *names, *counts, ", ".join(one.waiting), coming)


def _cut(text: str, most: int) -> str:
    """Return a name in one line of a narrow table."""
    return text if len(text) <= most else f"{text[: most - 2].rstrip()} …"


def _entry(entry: "Entry", look: Look) -> "Sequence[str]":
    told = f"* {entry.task}" if entry.critical else entry.task
    return (_day(entry, look), entry.shipment, entry.owner, f"{told} ({entry.vehicle})" if look.width is None else told)


def _day(entry: "Entry", look: Look) -> str:
    from shipcalc.cli.words import short_day  # late: it knows all that papers say

    return short_day(entry.due) if look.width else entry.due.isoformat()


COMMANDS = (("today", today, "What the office has to do.", "shipcalc today --person office"),)
