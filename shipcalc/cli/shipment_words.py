"""What is said of shipments in the terminal, and as data."""

from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.cli.look import (
    Column,
    Look,
    bullets,
    heading,
    pairs,
    paragraph,
    section,
    table,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shipcalc.actions.booking import Booking
    from shipcalc.actions.ship_news import News
    from shipcalc.actions.shipments import Shown
    from shipcalc.register.doing import Done
    from shipcalc.register.folder import Paper
    from shipcalc.register.shipments import Line, Shipment, Standing

LIST = (
    Column("Number"),
    Column("Next due"),
    Column("Open", "right"),
    Column("Late", "right"),
    Column("Buyer", wraps=True),
    Column("Vehicles", wraps=True),
    Column("To", wraps=True),
    Column("There by"),
)
LINES = (
    Column("No.", "right"),
    Column("Due"),
    Column("Who", wraps=True),
    Column("What", wraps=True),
    Column("State"),
    Column("Note", wraps=True),
)
FILES = (Column("What", wraps=True), Column("For"), Column("It is"), Column("File", wraps=True))

# So many of the open tasks are shown at first; a shipment overseas has some seventy.
MOST_TASKS = 16


def done_lines(done: "Done", look: Look) -> list[str]:
    """Return what was done to a shipment, and how it stands after it."""
    shipment = done.shipment
    title = f"{shipment.number}, version {shipment.version}"
    return [
        *[look.strong(line) for line in paragraph(look, title)],
        *bullets(look, done.changed or ("nothing changed",)),
        *section(look, "To know", done.said, "!"),
    ]


def done_json(done: "Done") -> str:
    """Return `{"number", "version", "changed", "said", "tasks", "moments", "references"}`."""
    from shipcalc.cli.listing import to_json

    return to_json(as_data(done.shipment) | {"changed": list(done.changed), "said": list(done.said)})


def as_data(shipment: "Shipment") -> dict[str, object]:
    """Return a shipment as data for JSON."""
    return {
        "number": shipment.number,
        "version": shipment.version,
        "accepted": shipment.accepted_on.isoformat(),
        "choice": shipment.choice + 1,
        "moments": {stage: [day.isoformat() for day in days] for stage, days in shipment.moments.items()},
        "recorded": {stage: day.isoformat() for stage, day in shipment.recorded.items()},
        "references": dict(shipment.references),
        "tasks": [task_data(line) for line in shipment.lines],
    }


def task_data(line: "Line") -> dict[str, object]:
    """Return a task as data for JSON."""
    from shipcalc.records import asdict

    item = line.item
    own: dict[str, object] = {
        "number": line.place,
        "assigned": line.assigned,
        "version": line.version,
        "paper": line.paper,
        "added": dict(line.added),
    }
    days = {"due": item.due.isoformat(), "done_on": item.done_on.isoformat() if item.done_on else None}
    return own | asdict(item) | days


def list_json(found: "Sequence[Standing]") -> str:
    """Return `{"shipments": […]}`, each with number, buyer, vehicles, to, accepted, open, late, next_due, moments."""
    from shipcalc.cli.listing import to_json

    rows = [
        {
            "number": one.number,
            "buyer": one.buyer,
            "vehicles": one.vehicles,
            "to": one.to,
            "accepted": one.accepted_on.isoformat(),
            "open": one.open,
            "late": one.late,
            "next_due": one.next_due.isoformat() if one.next_due else None,
            "moments": {stage: [day.isoformat() for day in days] for stage, days in one.moments.items()},
        }
        for one in found
    ]
    return to_json({"shipments": rows})


def list_lines(found: "Sequence[Standing]", look: Look) -> list[str]:
    """Return all shipments as a table."""
    from shipcalc.cli.words import short_day

    if not found and look.width is not None:
        return paragraph(look, "No shipment is under way that meets this. shipcalc quotes accept NUMBER begins one.")
    rows = [
        (
            one.number,
            "" if one.next_due is None else short_day(one.next_due) if look.width else one.next_due.isoformat(),
            str(one.open),
            str(one.late or ""),
            one.buyer,
            one.vehicles,
            one.to,
            one.moments["delivery"][1].isoformat() if "delivery" in one.moments else "",
        )
        for one in found
    ]
    return table(look, LIST, rows)


def shown_json(found: "Shown") -> str:
    """Return one shipment with its tasks, numbers and files as JSON."""
    from shipcalc.cli.listing import to_json

    return to_json(
        as_data(found.shipment) | {"files": [file_data(one) for one in found.papers], "said": list(found.said)}
    )


def shown_lines(found: "Shown", look: Look, *, all_lines: bool) -> list[str]:
    """Return one shipment: how it stands, its numbers, its files, and its open tasks, or all."""
    from shipcalc.checklist.columns import MOMENTS_IN_WORDS
    from shipcalc.checklist.references import in_words
    from shipcalc.cli.words import short_day, short_span
    from shipcalc.documents.wording import place

    shipment = found.shipment
    quote = shipment.quote
    names = ", ".join(vehicle.name for vehicle in quote.vehicles)
    still = [line for line in shipment.lines if line.item.is_open]
    title = f"{shipment.number}, version {shipment.version}: {names} to {place(quote.to)}"
    about = (
        f"{quote.buyer or 'no buyer named'}; {shipment.option.title}; accepted on {shipment.accepted_on.isoformat()}; "
    )
    lines = [look.strong(line) for line in paragraph(look, title)]
    lines += paragraph(look, f"{about}{len(still)} to do, {len(shipment.lines) - len(still)} done or not needed")
    lines += bullets(look, found.said, "!")
    days = [
        (MOMENTS_IN_WORDS[stage], f"{short_span(window)}{', it came true' if stage in shipment.recorded else ''}")
        for stage, window in shipment.moments.items()
    ]
    lines += [*heading(look, "Days"), *pairs(look, days)]
    references = in_words(dict(shipment.references))
    lines += [*heading(look, "References"), *pairs(look, references)] if references else []
    order = {item.id: place for place, item in enumerate(shipment.items)}
    shown = sorted(shipment.lines if all_lines else still, key=lambda line: order[line.item.id])
    more = 0 if all_lines or not look.width else max(len(shown) - MOST_TASKS, 0)
    shown = shown[: len(shown) - more]
    rows = [
        (
            str(line.place),
            short_day(line.item.due) if look.width else line.item.due.isoformat(),
            line.who,
            f"* {line.item.title}" if line.item.critical else line.item.title,
            line.item.state,
            "; ".join(
                part for part in (line.item.remark, *(f"{header}: {text}" for header, text in line.added)) if part
            ),
        )
        for line in shown
    ]
    columns: tuple[Column, ...] = LINES if any(row[5] for row in rows) or not look.width else LINES[:5]
    columns = columns if all_lines or not look.width else tuple(one for one in columns if one.title != "State")
    keep = [LINES.index(one) for one in columns]
    lines += [*heading(look, "Tasks"), *table(look, columns, [tuple(row[at] for at in keep) for row in rows])]
    later = f"; {more} more with --all" if more else ""
    lines += ["", *paragraph(look, f"* without this nothing moves{later}")]
    if found.papers:
        lines += [*heading(look, "Files"), *files_lines(found.papers, look)]
    return lines


def file_data(one: "Paper") -> dict[str, object]:
    """Return a file as data for JSON."""
    from shipcalc.records import asdict

    return asdict(one) | {"path": str(one.path)}


def files_json(found: "Sequence[Paper]") -> str:
    """Return `{"files": […]}`, each with path, what, task, sha256, bytes, copied, added_at, how."""
    from shipcalc.cli.listing import to_json

    return to_json({"files": [file_data(one) for one in found]})


def files_lines(found: "Sequence[Paper]", look: Look) -> list[str]:
    """Return the files of a shipment as a table."""
    if not found and look.width is not None:
        return paragraph(look, "No file is kept for it yet.")
    return table(look, FILES, [(one.what, one.task, one.how, str(one.path)) for one in found])


def news_json(told: "News") -> str:
    """Return what the news came to as JSON."""
    from shipcalc.cli.listing import to_json

    more = {
        "said": list(told.said),
        "next_ships": list(told.next_ships),
        "letter": told.letter,
        "letter_html": told.page,
    }
    return to_json(as_data(told.shipment) | {"changed": list(told.changed)} | more)


def news_lines(told: "News", look: Look, *, letter: Path | None) -> list[str]:
    """Return what the news came to: days that moved, what is missed, the letter to the buyer."""
    title = f"{told.shipment.number}, version {told.shipment.version}"
    lines = [look.strong(line) for line in paragraph(look, title)]
    lines += bullets(look, told.changed or ("nothing changed",))
    lines += section(look, "To know", told.said, "!")
    lines += section(look, "The next ship", told.next_ships)
    if letter is None:
        lines += [*heading(look, "For the buyer"), *told.letter.rstrip("\n").split("\n")]
    return lines


def booking_json(drafted: "Booking") -> str:
    """Return `{"number", "to", "subject", "text", "missing": [{"field", "where"}]}`."""
    from shipcalc.cli.listing import to_json
    from shipcalc.documents.letter import as_text

    return to_json(
        {
            "number": drafted.number,
            "to": drafted.to,
            "subject": drafted.letter.subject,
            "text": as_text(drafted.letter),
            "missing": [{"field": one.what, "where": one.where} for one in drafted.missing],
        }
    )


def booking_lines(drafted: "Booking", look: Look) -> list[str]:
    """Return the mail to the carrier as it is sent, then what is missing in it, and what to check before keys change hands."""
    from shipcalc.documents.letter import as_text
    from shipcalc.documents.papers.booking_mail import CAUTION

    to = [f"To: {drafted.to}"] if drafted.to else []
    lines = [*to, f"Subject: {drafted.letter.subject}", "", *as_text(drafted.letter).rstrip("\n").split("\n")]
    lines += section(look, "Missing", [f"{one.what}: {one.where}" for one in drafted.missing], "!")
    return lines + section(look, "Before a driver comes", [CAUTION], "!")
