"""An agent's or terminal's tariff: charges line by line at one port, storage in steps of days → the sheet Port charges."""

import re
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal

from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import Block, BlockColumn
from shipcalc.ratebook.taking.body import is_example, is_sum
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.figures import Figure, NoFigure, figure_in, is_included, looks_like_price
from shipcalc.ratebook.taking.letter import Line, port_named
from shipcalc.ratebook.taking.page import Page
from shipcalc.ratebook.taking.port_names import port_in
from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate, Taken
from shipcalc.ratebook.taking.row import currency_of
from shipcalc.ratebook.taking.stated import limits_in, without_limits
from shipcalc.ratebook.taking.storage_days import A_DAY, Storage, days_said, label_of_step, per_in
from shipcalc.ratebook.taking.traits import bare_words, traits_in
from shipcalc.records import replace

_OF_PORTS = re.compile(
    r"\b(?:terminal|thc|wharfage|quay|stevedor\w*|harbou?r|haven\w*|hafen\w*|kai\w*|port|unstuffing|stripping|destuffing|umschlag|"
    r"ro ?ro|weighbridge|gate|dock|berth)\b"
)
_SOME_ALONE = re.compile(
    r"\b(?:towed|static|self ?propelled|driven|not running|non ?run\w*|inop\w*|by measure|optional|if required|on demand|"
    r"electric|over \d|up to \d|motor ?cycles?|high|heavy|20|40|hc|overtime|weekend)\b"
)
_FREIGHT = re.compile(r"\b(?:ocean|sea|basic|base) ?freight\b|\bseefracht\b|\bzeevracht\b")
_BETWEEN = re.compile(r"[,;:()|]|\s[-–—]\s|\b(?:port of|at|in|for|haven)\b")
FOR_SOME = "is for some vehicles or services alone, for which the sheet has no column: it would be charged on all"
NO_PER = "is a charge of which is not said what it is for (a vehicle, a revenue ton, a container, a shipment, a day)"


def is_tariff(block: Block, lines: Iterable[Line]) -> bool:
    """Return whether a table of charges is of a port: it or the letter says so, and no freight stands in it."""
    labels = [block.page.text(row, label_column(block).at) for row in block.rows]
    words = bare_words(" ".join((*labels, block.page.sheet.name, *(line.text for line in lines))))
    has_freight = any(_FREIGHT.search(bare_words(text)) for text in labels)
    return not has_freight and _OF_PORTS.search(words) is not None


def label_column(block: Block) -> BlockColumn:
    """Return the column that names the charges: of several that with the most letters ("Item" may hold numbers)."""
    letters = {
        column.at: sum(sign.isalpha() for row in block.rows for sign in block.page.text(row, column.at))
        for column in block.of("charge")
    }
    return max(block.of("charge"), key=lambda column: letters[column.at])


def port_of(lines: Iterable[Line], around: Around) -> str:
    """Return the port of a tariff: the answered one, else the one that the letter names; "" where it is open. Raises Unclear."""
    if told := around.answers.get("port"):
        return port_in(told).text
    pieces = (piece.strip() for line in lines for piece in _BETWEEN.split(line.text))
    named = {port_named(piece) for piece in pieces if piece and piece[0].isupper() and len(piece.split()) <= 3} - {""}
    return named.pop() if len(named) == 1 else ""


def taken_from_tariff(block: Block, lines: Sequence[Line], around: Around) -> Taken:
    """Return the charges of a port's tariff."""
    left: list[LeftOut] = []
    try:
        port = port_of(lines, around)
    except Unclear as why:
        return Taken((), (LeftOut("", around.answers.get("port"), why.why),))
    rates = list(_rates(block, around, left))
    if rates and not port:
        where = block.page.short(block.header_row, block.columns[0].at)
        return Taken(
            (),
            tuple(left),
            (Question("port", f"At which port are the charges at {where}, by its name or code?", (), where),),
        )
    return Taken(tuple(replace(rate, start=End(port, "port")) for rate in rates), tuple(left))


def _rates(block: Block, around: Around, left: list[LeftOut]) -> Iterator[Rate]:
    page, label = block.page, label_column(block).at
    storage = Storage()
    for row in block.rows:
        cells = page.row(row)
        if any(is_example(text) for text in cells.values()):
            return
        price = next((column for column in block.prices if (row, column.at) in page.values), None)
        if not cells or price is None:
            words = " ".join(text for at, text in cells.items() if not looks_like_price(page.values[row, at]))
            storage = Storage(words) if words else storage
            continue
        where, name = page.short(row, price.at), page.text(row, label)
        if is_sum(name):
            left.append(LeftOut(where, page.text(row, price.at), "a sum or an average is no price"))
            continue
        days = _days_of(block, row, name)
        text = page.text(row, price.at)
        if days and (is_included(text) or figure_is_nothing(page, row, price.at)):
            storage = replace(storage, free_days=days[1] or 0)
            continue
        if days and not storage.free_days and days[0] > 1:  # the first step that is paid begins after the free days
            storage = replace(storage, free_days=around.facts.free_days or days[0] - 1)
        made = _rate(block, row, price, name, days, storage, around)
        if isinstance(made, LeftOut):
            left.append(made)
            continue
        yield made
        left += _looks(block, row, made, storage)


def _days_of(block: Block, row: int, name: str) -> tuple[int, int | None] | None:
    """Return the days that a charge is for, as its name, its first cell or the column of units says them."""
    page = block.page
    texts = (name, page.text(row, min(page.row(row))), *(page.text(row, column.at) for column in block.of("basis")))
    return next((days for text in texts if (days := days_said(without_limits(text)))), None)


def figure_is_nothing(page: Page, row: int, at: int) -> bool:
    """Return whether a cell holds nought."""
    figure = figure_in(page.values[row, at], page.formats.get((row, at), ""), ".")
    return isinstance(figure, Figure) and figure.number == 0


def _rate(
    block: Block,
    row: int,
    price: BlockColumn,
    name: str,
    days: tuple[int, int | None] | None,
    storage: Storage,
    around: Around,
) -> Rate | LeftOut:
    page, spot = block.page, (row, price.at)
    where, text = page.short(*spot), page.text(*spot)
    beside = " ".join(page.text(row, column.at) for column in block.of("basis", "currency", "container"))
    figure = figure_in(page.values[spot], page.formats.get(spot, ""), around.mark, finer=True)
    if isinstance(figure, NoFigure):
        return LeftOut(where, f"{name} {text}".strip(), figure.why or "has no price")
    if figure.percent or figure.number == 0 or figure.mark or not name:
        return LeftOut(where, f"{name} {text}".strip(), "is no plain sum" if name else "has no name")
    is_step = days is not None
    said = f"{beside} {storage.title if is_step else ''} {text if not text.replace('.', '').isdecimal() else ''}"
    per = per_in(said) or per_in(name) or per_in(price.header) or per_in(around.facts.traits.basis)
    per = A_DAY if is_step and per in ("", "vehicle") else per
    if not per:
        return LeftOut(where, f"{name} {text}", NO_PER)
    traits = figure.traits.over(traits_in(beside)[0]).over(price.meaning.traits).over(around.facts.traits)
    first = days[0] - storage.free_days if days else None
    return Rate(
        target="Port charges",
        where=where,
        row=page.sheet_row(*spot),
        carrier=around.sender,
        mode=traits_in(f"{name} {storage.title if is_step else ''}")[0].mode,
        label=label_of_step(name, storage) if is_step else name,
        basis=per,
        flat=figure.number,
        currency=currency_of(traits.currency, around),
        from_day=first if first and first > 1 else None,
        minimum=_minimum(block, row, around),
        free_days=_free_days(block, row) or (storage.free_days if is_step else 0) or None,
        valid_from=around.facts.valid_from,
        valid_to=around.facts.valid_to,
        reference=_number_of(block, row),
        condition="; ".join(limits_in(beside)),
        remark="; ".join(page.text(row, column.at) for column in block.of("remark") if page.text(row, column.at)),
    )


def _looks(block: Block, row: int, rate: Rate, storage: Storage) -> Iterator[LeftOut]:
    """Yield what the sheet has no column for: a least sum, some vehicles alone, the free days that the port's own row says."""
    page = block.page
    for column in block.of("minimum"):
        if text := page.text(row, column.at):
            why = f"is the least sum of “{rate.label}”, for which the sheet has no column"
            yield LeftOut(page.short(row, column.at), text, why, is_taken=True)
    for column in block.of("remark"):
        if text := page.text(row, column.at):
            yield LeftOut(page.short(row, column.at), text, "is a remark, kept as the row's note", is_taken=True)
    if _SOME_ALONE.search(bare_words(rate.label)) or limits_in(rate.label):
        yield LeftOut(rate.where, rate.label, FOR_SOME, is_taken=True)
    if rate.free_days:
        why = f"begins after {rate.free_days} free days: the port's row on the sheet Ports says how many it has"
        yield LeftOut(rate.where, rate.label, why, is_taken=True)


def _free_days(block: Block, row: int) -> int:
    texts = [block.page.text(row, column.at) for column in block.of("free_days")]
    return next((int(text) for text in texts if text.isdecimal()), 0)


def _minimum(block: Block, row: int, around: Around) -> Decimal | None:
    spots = [(row, column.at) for column in block.of("minimum") if (row, column.at) in block.page.values]
    found = (figure_in(block.page.values[spot], block.page.formats.get(spot, ""), around.mark) for spot in spots)
    return next((figure.number for figure in found if isinstance(figure, Figure)), None)


def _number_of(block: Block, row: int) -> str:
    """Return the number of a charge in the tariff, where a column has one."""
    texts = [
        block.page.text(row, column.at) for column in block.of("charge", "reference") if column != label_column(block)
    ]
    return next((text for text in texts if text), "")
