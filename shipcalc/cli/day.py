"""The demo's day on the terminal: who asked for what, what came of it, how the office stands, what to open first."""

from shipcalc.actions.demo import Asking, Day, further
from shipcalc.cli.look import Column, Look, heading, paragraph, section, table
from shipcalc.cli.today import day_lines as office_lines
from shipcalc.cli.today import rows_of_terminal
from shipcalc.cli.words import amount, short_span
from shipcalc.documents.wording import place

COLUMNS = (
    Column("Buyer", wraps=True),
    Column("Vehicle", wraps=True),
    Column("To", wraps=True),
    Column("Price", "right"),
    Column("Delivered"),
)


def day_lines(day: Day, look: Look) -> list[str]:
    """Return the day's quotes as a table, the buyers who could not be served with the reason, the office's day, and where to
    begin."""
    served = [row for row in day.askings if row.quote is not None]
    refused = [f"{row.buyer.name}, {row.buyer.to}: {row.refusal}" for row in day.askings if row.quote is None]
    title = f"A day at {day.dealer}, {day.as_of.isoformat()}. Everything here is invented."
    lines = paragraph(look, title)
    lines += ["", *table(look, COLUMNS, [_row(row) for row in served])]
    lines += section(look, "No price for", refused)
    lines += [
        *heading(look, "The office, as shipcalc today shows it"),
        *office_lines(day.office, look, rows_of_terminal()),
    ]
    lines += section(look, f"To look further, go to the folder {day.folder}", further(day))
    files = f"{len(day.files)} files in {day.folder}"
    return [
        *lines,
        "",
        *paragraph(look, files),
        *[look.strong(line) for line in paragraph(look, f"Open first: {day.open_first}")],
    ]


def _row(asking: Asking) -> tuple[str, ...]:
    quote = asking.quote
    assert quote is not None, "only those that were served"
    option = quote.options[quote.recommended]
    names = ", ".join(vehicle.name for vehicle in quote.vehicles)
    price = f"{amount(option.total)} {quote.currency}"
    return (asking.buyer.name, names, place(quote.to), price, short_span(option.dates.delivery))
