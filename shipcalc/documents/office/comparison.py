"""The workbook of a comparison: what a change of the rate book does, then every changed cell, every price, every carrier."""

from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path

from shipcalc.compare.books import Effect
from shipcalc.compare.comparison import Comparison, Moves, by_weight, carriers_exchanged, moves, side_effects, steps
from shipcalc.documents import wording
from shipcalc.errors import how_many
from shipcalc.money import decimals, to_decimal
from shipcalc.records import replace
from shipcalc.sheets import look
from shipcalc.sheets.charts import put_bars
from shipcalc.sheets.writing import Book, Page

MOST_LARGEST = 12
# Words to the right of figures need a little room.
_BESIDE = replace(look.LABEL, name="Beside a figure", indent=1)
_HEAD_BESIDE = replace(look.HEADER, name="Column header, beside a figure", indent=1)
_CHART_CM = (16.5, 7.6)
_CHANGE = '+#,##0{cents};−#,##0{cents};"—"'


def write_comparison_workbook(compared: Comparison, path: Path) -> None:
    """Write the workbook. Raises WrongInput where the file cannot be written."""
    book = Book(
        title="Two rate books compared",
        subject=f"{compared.old_name} and {compared.new_name}",
        creator="shipcalc",
        made=compared.as_of,
    )
    _summary(book, compared)
    _changes(book, compared)
    _effects(book, "Basket", compared.basket, compared)
    if compared.alone:
        _effects(book, "Services alone", compared.alone, compared)
    if compared.open_quotes:
        _effects(book, "Open quotes", compared.open_quotes, compared, promised=True)
    _carriers(book, compared)
    book.save(path)


def headline(what: str, found: Moves, currency: str) -> str:
    """Return how prices move in one sentence: `12 of 90 prices change: 10 dearer, 2 cheaper, by −40 to 95 USD.`"""
    moved = found.dearer + found.cheaper
    if not found.priced:
        return f"None of {what} can be priced by both books."
    if not moved:
        if found.priced == 1:
            return f"The one recommended price of {what} does not change."
        return f"None of the {found.priced} recommended prices of {what} changes."
    parts = [f"{found.dearer} dearer" if found.dearer else "", f"{found.cheaper} cheaper" if found.cheaper else ""]
    span = (
        f"by {change(found.least)}"
        if found.least == found.most
        else f"from {change(found.least)} to {change(found.most)}"
    )
    told = ", ".join(part for part in parts if part)
    middle = "" if found.least == found.most else f"; the middle one is {change(found.middle)}"
    of_all = f"{moved} of {found.priced} recommended prices of {what} {'changes' if moved == 1 else 'change'}"
    return f"{of_all}: {told}, {span} {currency}{middle}."


def change(amount: Decimal) -> str:
    """Return a change with its sign: +45.00, −12.50."""
    return f"{amount:+,.2f}".replace("-", "−").removesuffix(".00")


def _summary(book: Book, compared: Comparison) -> None:
    page = book.page("What it does", widths=(58, 14, 14, 14, 52), landscape=True)
    page.paragraph(1, "A:E", "What a change of the rate book does", look.TITLE_WRAPPED)
    then = f", for pickups on {wording.long_day(compared.on)}" if compared.on != compared.as_of else ""
    told = f"{compared.old_name} → {compared.new_name}  ·  priced as of {wording.long_day(compared.as_of)}{then}  ·  "
    page.paragraph(2, "A:E", f"{told}amounts in {wording.currency_name(compared.currency)}", look.SUBTITLE_WRAPPED)
    row = 4
    for sentence in summary(compared):
        row = page.paragraph(row, "A:E", sentence, look.TEXT)
    row = _chart(page, row + 1, compared)
    _largest(page, row + 1, compared)
    page.footer(f"{compared.old_name} → {compared.new_name}")


def summary(compared: Comparison) -> tuple[str, ...]:
    """Return the comparison in a few sentences, the weightiest first."""
    counts = {what: sum(row.what == what for row in compared.rows) for what in ("changed", "added", "removed")}
    cells = sum(len(row.cells) for row in compared.rows)
    sheets = ", ".join(dict.fromkeys(row.sheet for row in compared.rows))
    rows = [f"{count} {what}" for what, count in counts.items() if count]
    of_cells = f" ({how_many(cells, 'cell')})" if cells else ""
    told = [
        f"Rows: {', '.join(rows)}{of_cells}, on {sheets}." if rows else "The sheets say the same in both books.",
        headline(compared.basket_name, moves(compared.basket), compared.currency),
    ]
    also = side_effects(compared.basket)
    if also:
        told.append(f"Also: {'; '.join(also)}.")
    if compared.alone:
        told.append(
            headline("the changed carriers, each looked at by itself,", moves(compared.alone), compared.currency)
        )
    if compared.open_quotes:
        told.append(headline("the open quotes", moves(compared.open_quotes), compared.currency))
    return *told, *compared.notes


def _chart(page: Page, row: int, compared: Comparison) -> int:
    found = steps(compared.basket)
    page.put(f"A{row}", "How many prices change, by how much", look.HEADING)
    page.put(f"B{row}", "Prices", look.HEADER_FIGURE)
    first = row + 1
    for offset, (label, count) in enumerate(found):
        page.put(f"A{first + offset}", label, look.BODY)
        page.put(f"B{first + offset}", count, look.FIGURE)
    last = first + len(found) - 1
    wide, high = _CHART_CM
    put_bars(
        page,
        f"C{row}",
        labels=f"A{first}:A{last}",
        series=[("Prices", f"B{first}:B{last}")],
        width_cm=wide,
        height_cm=high,
    )
    return max(last + 1, row + 16)


def _largest(page: Page, row: int, compared: Comparison) -> None:
    page.put(f"A{row}", "The largest changes", look.HEADING)
    heads = ("Was", "Is", "Change", "Carrier")
    for column, head in zip("BCDE", heads, strict=True):
        page.put(f"{column}{row}", head, _HEAD_BESIDE if head == "Carrier" else look.HEADER_FIGURE)
    for effect in by_weight(compared.basket)[:MOST_LARGEST]:
        row += 1
        page.put(f"A{row}", effect.asked.name, look.BODY)
        _prices(page, row, effect, compared.currency)
        page.put(f"E{row}", _carrier(effect), _BESIDE)


def _prices(page: Page, row: int, effect: Effect, currency: str) -> None:
    cents = "." + "0" * decimals(currency) if decimals(currency) else ""
    was, now, moved = "B", "C", "D"
    for column, outcome in ((was, effect.old), (now, effect.new)):
        if outcome.total is None:
            page.put(f"{column}{row}", "no answer", look.SMALL_FIGURE)
        else:
            page.put(f"{column}{row}", outcome.total, look.FIGURE, look.money_format(decimals(currency)))
    if effect.change is not None:
        shape = _CHANGE.format(cents=cents)
        page.put_formula(f"{moved}{row}", f"{now}{row}-{was}{row}", look.FIGURE, shape, shows=effect.change)


def _carrier(effect: Effect) -> str:
    was, now = carriers_exchanged(effect)
    new = now or effect.new.refusal
    return f"{was} → {new}" if was and was != now else new


def _changes(book: Book, compared: Comparison) -> None:
    page = book.page("What was changed", widths=(11, 16, 44, 26, 22, 22, 34), landscape=True)
    _heads(page, ("", "Sheet", "Row", "Column", "Was", "Is", "Cell"))
    row = 2
    for change_ in compared.rows:
        lines: Sequence[tuple[str, ...]] = [
            (change_.what, change_.sheet, change_.name, cell.header, cell.old, cell.new, cell.cell)
            for cell in change_.cells
        ] or [(change_.what, change_.sheet, change_.name, "", "", "", change_.cell)]
        for line in lines:
            for column, text in zip("ABCDEFG", line, strict=True):
                page.paragraph(row, column, text, look.TEXT)
            row += 1
    if row == 2:
        page.put("A2", "The sheets say the same in both books.", look.BODY)
    page.filter(f"A1:G{max(row - 1, 2)}")


def _effects(book: Book, name: str, effects: Sequence[Effect], compared: Comparison, *, promised: bool = False) -> None:
    page = book.page(name, widths=(58, 14, 14, 14, 52, 30, *((14,) if promised else ())), landscape=True)
    heads = ("Transport", "Was", "Is", "Change", "Carrier", "Also otherwise")
    _heads(page, (*heads, "Promised") if promised else heads, figures="BCDG")
    told = by_weight(effects)
    for row, effect in enumerate((*told, *(e for e in effects if e not in told)), 2):
        page.put(f"A{row}", effect.asked.name, look.BODY)
        _prices(page, row, effect, compared.currency)
        page.put(f"E{row}", _carrier(effect), _BESIDE)
        page.put(f"F{row}", ", ".join(part for part in effect.differs_in if part not in ("price", "words")), look.LABEL)
        if promised:
            page.put(f"G{row}", effect.asked.promised or "", look.SMALL_FIGURE)
    page.filter(f"A1:{'G' if promised else 'F'}{max(len(effects) + 1, 2)}")


def _carriers(book: Book, compared: Comparison) -> None:
    page = book.page("Carriers", widths=(36, 12, 12, 12, 12, 15, 15, 14, 14), landscape=True)
    heads = ("Carrier", "Trailer", "Prices", "Dearer", "Cheaper", "Least", "Most", "Newly priced", "No longer")
    _heads(page, heads, figures="CDEFGHI")
    shape = _CHANGE.format(cents="." + "0" * decimals(compared.currency) if decimals(compared.currency) else "")
    for row, one in enumerate(compared.carriers, 2):
        page.put(f"A{row}", one.carrier, look.BODY)
        page.put(f"B{row}", one.trailer, look.BODY)
        counts = (one.prices, one.dearer, one.cheaper, one.gained, one.lost)
        for column, count in zip("CDEHI", counts, strict=True):
            page.put(f"{column}{row}", count, look.FIGURE, look.WHOLE)
        for column, minor in (("F", one.least_minor), ("G", one.most_minor)):
            page.put(f"{column}{row}", to_decimal(minor, compared.currency), look.FIGURE, shape)
    row = len(compared.carriers) + 3
    page.paragraph(row, "A:I", _ABOUT_CARRIERS, look.SMALL)


def _heads(page: Page, heads: Sequence[str], *, figures: str = "") -> None:
    for column, head in zip("ABCDEFGHI", heads, strict=False):
        style = look.HEADER_FIGURE if column in figures else _HEAD_BESIDE if column == "E" else look.HEADER
        page.put(f"{column}1", head, style)
    page.height(1, 20)
    page.freeze("A2")
    page.repeat_rows(1, 1)


_ABOUT_CARRIERS = (
    "Every service for eight kinds of vehicle from the yards to a place in each contiguous state, before rounding; also where "
    "another is cheaper and no quote would show it."
)
