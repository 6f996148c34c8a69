"""A traced quote on the terminal and as data."""

from decimal import Decimal

from shipcalc.cli.listing import to_json
from shipcalc.cli.look import Column, Look, bullets, heading, paragraph, table
from shipcalc.compare.tracing import LineTrace, Trace
from shipcalc.documents.office.comparison import change
from shipcalc.ratebook.changes.at_cell import AtCell

COLUMNS = (
    Column("Line"),
    Column("What", wraps=True),
    Column("Amount", "right"),
    Column("Cell", wraps=True),
    Column("Says today", wraps=True),
    Column("Today", "right"),
)


def trace_lines(traced: Trace, look: Look) -> list[str]:
    """Return the trace: of one line in sentences, of several as a table; then what the whole choice would come to."""
    option, today = traced.option, traced.today
    title = f"{option.title} to {traced.quote.to.name}, quoted {traced.quote.as_of.isoformat()}: {option.total:,}"
    lines = [look.strong(line) for line in paragraph(look, title)]
    if len(traced.lines) == 1:
        lines += _one(traced.lines[0], look, known_today=today is not None)
    else:
        rows = [
            (
                one.charge.line,
                one.charge.label,
                f"{one.charge.amount:,}",
                one.charge.source or "",
                _says(one),
                _amount(one, known_today=today is not None),
            )
            for one in traced.lines
        ]
        lines += ["", *table(look, COLUMNS, rows)]
    lines += [*heading(look, "Today"), *bullets(look, [*_total(traced), *traced.notes])]
    return lines


def trace_json(traced: Trace) -> str:
    """Return the trace as data; amounts as strings."""
    return to_json(
        {
            "choice": traced.option.title,
            "total": str(traced.option.total),
            "today": str(traced.today.total) if traced.today else None,
            "lines": [
                {
                    "line": one.charge.line,
                    "code": one.charge.code,
                    "label": one.charge.label,
                    "amount": str(one.charge.amount),
                    "cell": one.charge.source,
                    "reckoning": list(one.reckoning),
                    "row_today": one.there.row_name if one.there else None,
                    "cell_today": one.there.told if one.there else None,
                    "amount_today": str(one.today.amount) if one.today else None,
                    "source_today": one.today.source if one.today else None,
                    "change": str(one.change) if one.change is not None else None,
                }
                for one in traced.lines
            ],
            "notes": list(traced.notes),
        }
    )


def _one(one: LineTrace, look: Look, *, known_today: bool) -> list[str]:
    charge = one.charge
    told = [*one.reckoning, *_cell_today(one)]
    if one.change is not None and one.today is not None:
        told.append(f"Priced today, the line is {one.today.amount:,} ({_moved(one.change)}).")
    elif known_today:
        told.append("Priced today, there is no such line.")
    return [*heading(look, f"Line {charge.line}: {charge.label}, {charge.amount:,}"), *bullets(look, told)]


def _cell_today(one: LineTrace) -> list[str]:
    if not one.charge.source:
        return []
    if one.there is None:
        said = f"No row that is read stands at {one.charge.source} today"
    else:
        said = f"{one.there.cell} says {one.there.told} today ({one.there.row_name}: {one.there.header})"
    if one.has_moved and one.own is not None:
        own = f"{one.own.cell}, which says {one.own.told}{_since(one, one.own)}"
        return [f"{said}; that is another row than it was. The line's own rate stands in {own}."]
    return [f"{said}{_since(one, one.there) if one.there else ''}."]


def _since(one: LineTrace, at: AtCell) -> str:
    """Return whether a cell still says what the line was made from, where that can be told."""
    cost = one.charge.cost
    if at.number is None or cost is None or one.charge.code.endswith((".minimum", ".fuel", ".rounding")):
        return ""
    return ", as it did" if at.number == cost.rate else f"; the quote was made at {cost.rate:f}"


def _says(one: LineTrace) -> str:
    if one.has_moved and one.own is not None:
        return f"{one.own.told} ({one.own.cell.partition('!')[2]})"
    return one.there.told if one.there else ""


def _total(traced: Trace) -> list[str]:
    if traced.today is None:
        return []
    moved = traced.today.total - traced.option.total
    return [f"The whole choice comes to {traced.today.total:,} today ({_moved(moved)})."]


def _moved(amount: Decimal) -> str:
    return change(amount) if amount else "as before"


def _amount(one: LineTrace, *, known_today: bool) -> str:
    if one.today is None:
        return "no line" if known_today else "—"
    return f"{one.today.amount:,}" if one.change else "as before"
