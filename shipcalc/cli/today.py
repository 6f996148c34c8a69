"""The office's day over all shipments: today."""

import shutil
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.at_register import Today, desk_of
from shipcalc.cli.look import Column, Look, heading, note, paragraph, show_found, table
from shipcalc.cli.options import AsJson, flag, option
from shipcalc.errors import how_many

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shipcalc.actions.today import Today as Found
    from shipcalc.checklist.office_day import Entry, Share, Standing
    from shipcalc.register.finding import Listed

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
# In a terminal a number of this year is enough: it is what commands take.
IN_TERMINAL = (Column("No.", "right"), *SHIPMENTS[1:])
ENTRIES = (Column("Due"), Column("Shipment"), Column("Who", wraps=True), Column("What", wraps=True))
ENTRIES_IN_TERMINAL = (Column("Due"), Column("No.", "right"), Column("Who"), Column("What", wraps=True))
ENDING = (Column("Until"), Column("Quote"), Column("Buyer", wraps=True), Column("Vehicles", wraps=True))
LEAST_ENTRIES = 3
# What all other columns take of a row in a terminal, and what its cells are cut to.
TAKEN, LONGEST_BUYER, LONGEST_WAIT, LONGEST_WHO = 57, 16, 10, 9
# Behind a stock number as much of the name as tells anything.
SHORTEST_NAME = 8
SHORT = {"port": "Gate", "cut-off": "Cut-off", "release": "Release", "delivery": "Door"}
SHORT_ROLES = {"customs broker": "broker"}


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
    show_found(
        found,
        today_json,
        lambda one, look: day_lines(one, look, None if full or not look.width else rows_of_terminal()),
        as_json=as_json,
    )
    if out is not None:
        note(f"written: {out}")


def rows_of_terminal() -> int:
    """Return how many lines a screen shows, the one with the prompt left out."""
    return shutil.get_terminal_size((80, 24)).lines - 1


def today_json(found: "Found") -> str:
    """Return `{"late", "due", "waiting", "next", "papers", "people", "ending", "shipments"}`, entries with shipment, task, owner,
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
            "people": [asdict(one) for one in day.people],
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


def day_lines(found: "Found", look: Look, rows: int | None) -> list[str]:
    """Return the day; on a screen of so many `rows`, what does not fit is counted, and what a law asks for comes first."""
    day = found.day
    whole = rows is None
    title = f"{day.today.isoformat()}: {how_many(len(day.shipments), 'shipment')} under way"
    counts = f"{len(day.late)} late, {len(day.due)} due in a week, {len(day.waiting)} with others"
    lines = [look.strong(line) for line in paragraph(look, f"{title}, {counts}")]
    lines += _people(day.people, look)
    if day.shipments:
        columns = IN_TERMINAL if look.width else SHIPMENTS
        lines += table(look, columns, [_standing(one, look, day.today) for one in day.shipments], most_lines=1)
    elif look.width is not None:
        lines += paragraph(look, "Nothing is under way. shipcalc quotes accept begins a shipment.")
    lines += _ending(found.ending, look, day.today, whole=whole)
    for name, entries in (
        ("Late", day.late),
        ("Due", day.due),
        ("Waiting for others", day.waiting),
        ("Papers missing", day.papers),
    ):
        room = len(entries) if whole or rows is None else rows - len(lines) - 2
        if entries and room >= min(LEAST_ENTRIES, len(entries)):
            shown_entries = sorted(entries, key=_pressing)[:room] if len(entries) > room else entries
            lines += [*([""] if whole else []), look.strong(_counted(name, shown_entries, entries))]
            cells = [_entry(one, look, day.today) for one in shown_entries]
            heads = ENTRIES_IN_TERMINAL if look.width else ENTRIES
            lines += table(look, heads, cells, most_lines=None if whole else 1)
    return lines


def _pressing(entry: "Entry") -> tuple[bool, bool, bool, date]:
    """What can be done now comes before what waits for it, what a law asks for before the rest."""
    return not entry.ready, not entry.legal, not entry.critical, entry.due


def _people(people: "Sequence[Share]", look: Look) -> list[str]:
    """Return whose it is that is late and due."""
    told = [
        f"{one.who} {', '.join(f'{count} {what}' for count, what in ((one.late, 'late'), (one.due, 'due')) if count)}"
        for one in people
    ]
    return paragraph(look, "; ".join(told)) if told else []


def _ending(ending: "Sequence[Listed]", look: Look, today: date, *, whole: bool) -> list[str]:
    """Return the quotes that end this week: a table, or, where all is to fit on a screen, a sentence."""
    from shipcalc.cli.words import short_day  # late: it knows all that papers say

    if not ending:
        return []
    if whole:
        ends = [(short_day(one.valid_until), one.number, one.buyer, one.vehicles) for one in ending]
        return [*heading(look, "Quotes that end this week"), *table(look, ENDING, ends)]
    told = [
        f"{_short_number(one.number, today)} {one.buyer} {short_day(one.valid_until)}" for one in ending[:LEAST_ENTRIES]
    ]
    more = len(ending) - len(told)
    rest = f"; {more} more (--full)" if more else ""
    return paragraph(look, f"Quotes that end this week: {'; '.join(told)}{rest}")


def _counted(name: str, shown: "Sequence[object]", all_of_it: "Sequence[object]") -> str:
    return name if len(shown) == len(all_of_it) else f"{name}: {len(shown)} of {len(all_of_it)} (--full)"


def _standing(one: "Standing", look: Look, today: date) -> "Sequence[str]":
    from shipcalc.cli.words import short_day  # late: it knows all that papers say

    counts = tuple(str(count) if count else "" for count in (one.late, one.due, one.papers))
    if look.width is None:
        late = ", overdue" if one.next and one.next.overdue else ""
        coming = f"{one.next.due.isoformat()} {one.next.task}{late}" if one.next else ""
        return (one.shipment, one.vehicles, one.buyer, *counts, ", ".join(one.waiting), coming)
    moment = SHORT.get(one.next.id, one.next.task) if one.next else ""
    coming = f"{'late:' if one.next.overdue else short_day(one.next.due)} {moment}" if one.next else ""
    waits = ", ".join(SHORT_ROLES.get(role, role) for role in one.waiting)
    return (
        _short_number(one.shipment, today),
        _vehicles(one.vehicles, look.width - TAKEN - LONGEST_BUYER),
        one.buyer if len(one.buyer) <= LONGEST_BUYER else f"{one.buyer[: LONGEST_BUYER - 1].rstrip()}…",
        *counts,
        _cut(waits, LONGEST_WAIT),
        coming,
    )


def _short_number(number: str, today: date) -> str:
    """Return `14` for `Q-2026-0014` in its own year."""
    year, _, count = number.removeprefix("Q-").partition("-")
    return count.lstrip("0") if year == str(today.year) and count.isdigit() else number


def _vehicles(names: str, most: int) -> str:
    """Return `HV-1014 1937 Brambling…`, or the stock number alone where there is no room for more."""
    if len(names) > most and most < len(names.partition(" ")[0]) + SHORTEST_NAME:
        several = names.count("; ")
        return f"{names.partition(' ')[0]}{f' +{several}' if several else ''}"
    return _cut(names, most)


def _cut(text: str, most: int) -> str:
    """Return a text in one line of a narrow table, cut behind a word."""
    if len(text) <= most:
        return text
    cut = text[: most - 1]
    return f"{(cut.rpartition(' ')[0] or cut).rstrip(' ,')}…"


def _entry(entry: "Entry", look: Look, today: date) -> "Sequence[str]":
    from shipcalc.cli.words import short_day  # late: it knows all that papers say

    told = f"* {entry.task}" if entry.critical else entry.task
    if look.width is None:
        return (entry.due.isoformat(), entry.shipment, entry.owner, f"{told} ({entry.vehicle})")
    role, _, person = entry.owner.partition(": ")
    who = _cut(person or SHORT_ROLES.get(role, role), LONGEST_WHO)
    return (short_day(entry.due), _short_number(entry.shipment, today), who, told)


COMMANDS = (("today", today, "What the office has to do.", "shipcalc today --person office"),)
