"""A checklist on the terminal: what is to be done, by whom and by when."""

from dataclasses import asdict
from datetime import date

from shipcalc.actions.checklist import Checklist
from shipcalc.checklist.items import Item
from shipcalc.cli.listing import to_json
from shipcalc.cli.look import Column, Look, bullets, paragraph, table
from shipcalc.cli.words import short_day, vehicle_names
from shipcalc.documents.wording import place

COLUMNS = (Column("Due"), Column("Who"), Column("What", wraps=True), Column("Shows it", wraps=True))


def checklist_lines(made: Checklist, look: Look) -> list[str]:
    """Return what is to be done, in the order it can be worked off; * marks what the shipment stands still without."""
    quote, several = made.quote, len(made.quote.vehicles) > 1
    title = f"{vehicle_names(quote.vehicles)} to {place(quote.to)}, {made.option.title.lower()}"
    rows = [(_due(item.due, look), item.owner, _what(item, several=several), item.wanted) for item in made.items]
    return [
        *[look.strong(line) for line in paragraph(look, title)],
        "",
        *table(look, COLUMNS, rows),
        "",
        *paragraph(look, "* without this the shipment stands still"),
        *bullets(look, made.option.warnings, "!"),
    ]


def checklist_json(made: Checklist) -> str:
    """Return `{"file": "…", "items": [{…}], "warnings": ["…"]}`."""
    items = [asdict(item) | {"due": item.due.isoformat(), "done_on": None} for item in made.items]
    return to_json({"file": str(made.file), "items": items, "warnings": list(made.option.warnings)})


def _what(item: Item, *, several: bool) -> str:
    told = f"{item.title}, {item.vehicle}" if several and item.vehicle else item.title
    return f"* {told}" if item.critical else told


def _due(when: date, look: Look) -> str:
    return short_day(when) if look.width else when.isoformat()
