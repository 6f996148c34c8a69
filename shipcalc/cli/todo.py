"""A checklist on the terminal: what is to be done, by whom and by when."""

from datetime import date

from shipcalc.actions.checklist import Checklist, ReadBack
from shipcalc.checklist.items import STATES, Item
from shipcalc.cli.listing import to_json
from shipcalc.cli.look import Column, Look, bullets, heading, paragraph, section, table
from shipcalc.cli.words import short_day, vehicle_names
from shipcalc.documents.wording import place
from shipcalc.records import asdict

COLUMNS = (Column("Due"), Column("Who"), Column("What", wraps=True), Column("Shows it", wraps=True))


def checklist_lines(made: Checklist, look: Look) -> list[str]:
    """Return what is to be done, in the order it can be worked off; * marks what the shipment stands still without."""
    quote = made.quote
    title = f"{vehicle_names(quote.vehicles)} to {place(quote.to)}: {made.option.title}"
    rows = [(_due(item.due, look), item.owner, _what(item), item.wanted) for item in made.items]
    return [
        *[look.strong(line) for line in paragraph(look, title)],
        "",
        *table(look, COLUMNS, rows),
        "",
        *paragraph(look, "* without this nothing moves"),
        *bullets(look, (*made.said, *made.option.warnings), "!"),
    ]


def checklist_json(made: Checklist) -> str:
    """Return `{"file": "…", "calendar": "…", "to_print": "…", "items": [{…}], "warnings": ["…"]}`."""
    return to_json(
        {
            "file": str(made.file),
            "calendar": str(made.calendar),
            "to_print": str(made.to_print),
            "items": [_as_data(item) for item in made.items],
            "warnings": [*made.said, *made.option.warnings],
        }
    )


# So many of the lines that can be done now are shown; the rest is in the workbook.
MOST_NEXT = 7


def read_back_lines(done: ReadBack, look: Look) -> list[str]:
    """Return how the list stands: a headline, what changed, what is late, what is next, what to ask about."""
    count = {state: sum(item.state == state for item in done.items) for state in STATES}
    late = f", {len(done.late)} late" if done.late else ", nothing late"
    title = (
        f"Version {done.version}, {done.today.isoformat()}: {count['open']} to do{late}, {count['done']} done, "
        f"{count['not needed']} not needed"
    )
    lines = [look.strong(line) for line in paragraph(look, title)]
    lines += [*heading(look, "Changed"), *bullets(look, done.changed or ("nothing",))]
    lines += section(look, "To know", done.said, "!")
    asked = [f"{item.title} ({item.id}) is done, but {other.title} ({other.id}) is not" for item, other in done.asked]
    lines += section(look, "To ask about", asked, "!")
    for what, items in (("Late", done.late), ("Next", done.next[:MOST_NEXT])):
        if items:
            rows = [(_due(item.due, look), item.owner, _what(item), item.wanted) for item in items]
            lines += [*heading(look, what), *table(look, COLUMNS, rows)]
    return lines


def read_back_json(done: ReadBack) -> str:
    """Return `{"file", "calendar", "version", "changed", "said", "late", "next", "asked", "items"}`; late and next are ids."""
    return to_json(
        {
            "file": str(done.file),
            "calendar": str(done.calendar),
            "version": done.version,
            "changed": list(done.changed),
            "said": list(done.said),
            "late": [item.id for item in done.late],
            "next": [item.id for item in done.next],
            "asked": [[item.id, other.id] for item, other in done.asked],
            "items": [_as_data(item) for item in done.items],
        }
    )


def _as_data(item: Item) -> dict[str, object]:
    return asdict(item) | {
        "due": None if item.due == date.max else item.due.isoformat(),
        "done_on": item.done_on.isoformat() if item.done_on else None,
    }


def _what(item: Item) -> str:
    return f"* {item.title}" if item.critical else item.title


def _due(when: date, look: Look) -> str:
    if when == date.max:
        return "no day"
    return short_day(when) if look.width else when.isoformat()
