"""Which of a table's price columns count: not those of former prices, of some vehicles alone, or of parts of a sum."""

from collections.abc import Sequence
from decimal import Decimal

from shipcalc.ratebook.taking.answers import DEAREST, LEAVE_OUT
from shipcalc.ratebook.taking.blocks import Block, BlockColumn
from shipcalc.ratebook.taking.figures import Figure, figure_in, looks_like_price
from shipcalc.ratebook.taking.meanings import says_percent
from shipcalc.ratebook.taking.rate import LeftOut, Question
from shipcalc.ratebook.taking.stated import says_condition
from shipcalc.ratebook.taking.trait_words import BACK_HAUL, MEASURE, SOME_ALONE, STANDARD
from shipcalc.ratebook.taking.traits import bare_words
from shipcalc.records import dataclass, replace

FORMER = frozenset(("old", "previous", "former", "current", "existing", "prior", "last", "alt", "bisher", "oud", "was"))
NEWER = frozenset(("new", "from", "neu", "nieuw", "proposed", "next"))
FOR_A_MEASURE = "is a price for a metre, a weight or a time, and not of a carriage: no sheet has such prices"
PLAIN = frozenset(("", STANDARD))
HOLDS_FOR = "holds for {} alone, for which the sheet has no column: it is kept as the rows' note"
CHOICES = (
    "price, open trailer",
    "price, enclosed trailer",
    "price per mile, open trailer",
    "price per mile, enclosed trailer",
    "minimum",
    "fuel surcharge",
    LEAVE_OUT,
)
AT_SEA = (
    "freight per vehicle, roro",
    "freight per vehicle, shared container",
    "freight per W/M, roro",
    "freight per m³, roro",
    "freight per 20′ container",
    "freight per 40′ container",
    "freight per 40′HC container",
    LEAVE_OUT,
)


@dataclass(frozen=True, slots=True)
class Chosen:
    """The columns that count; `sums` are those that a total adds up, with the column of the total."""

    prices: tuple[BlockColumn, ...]
    parts: tuple[BlockColumn, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    questions: tuple[Question, ...] = ()


def chosen_prices(block: Block, rows: Sequence[int]) -> Chosen:
    """Return the price columns that count."""
    filled = [column for column in block.prices if any((row, column.at) in block.page.values for row in rows)]
    left: list[LeftOut] = []
    questions: list[Question] = []
    kept = _newest(block, filled, left)
    kept = _of_carriages(block, kept, left)
    kept = _of_each_kind(block, kept, left, questions)
    kept, parts = _totals(block, kept, left)
    unknown = _unknown(block, rows, bool(kept))
    if unknown and parts_told(block, rows, kept, parts):
        unknown = []
    questions += unknown
    groups: dict[tuple[str, ...], list[BlockColumn]] = {}
    for column in kept:
        traits = column.meaning.traits
        groups.setdefault(
            (
                traits.trailer,
                traits.mode,
                traits.basis,
                traits.unit,
                kind_of_vehicles(column),
                traits.currency,
                f"{column.meaning.valid_from} {column.meaning.valid_to}",
            ),
            [],
        ).append(column)
    for same in groups.values():
        if len(same) > 1:
            questions.append(_which(block, same[0]))
    return Chosen(tuple(kept), tuple(parts), tuple(left), tuple(questions[:2]))


def parts_told(block: Block, rows: Sequence[int], kept: Sequence[BlockColumn], parts: Sequence[BlockColumn]) -> bool:
    """Return whether columns that nothing is known of are parts of the only total, to which all columns before it add up."""
    totals = [column for column in kept if column.meaning.field == "total"]
    if len(totals) != 1:
        return False
    open_ones = [one for one in block.columns if not one.meaning.field and one.header and one.at < totals[0].at]
    sums = [figure_in(block.page.values.get((row, totals[0].at)), "", ".") for row in rows]
    return all(
        isinstance(total, Figure) and adds_up(block, row, total.number, (*parts, *open_ones))
        for row, total in zip(rows, sums, strict=True)
    )


def _which(block: Block, column: BlockColumn) -> Question:
    where = block.page.short(block.header_row, column.at)
    choices = AT_SEA if block.of("pol", "pod", "mode") or any(c.meaning.traits.mode for c in block.columns) else CHOICES
    return Question(f"columns.{column.header}", f"What stands under “{column.header}” ({where})?", choices, where)


def _unknown(block: Block, rows: Sequence[int], has_prices: bool) -> list[Question]:
    """Return the questions for columns of figures that nothing is known of."""
    found = []
    for column in block.columns:
        if column.meaning.field or (not column.header and has_prices):
            continue
        if has_prices and (column.meaning.traits.unit == MEASURE or says_condition(column.header)):
            continue  # "Detention/hr", "Tolls": beside prices these are surely none, and the column is named
        cells = [block.page.values[row, column.at] for row in rows if (row, column.at) in block.page.values]
        if cells and 2 * sum(looks_like_price(cell) for cell in cells) >= len(cells):
            found.append(_which(block, column))
    return found


def _newest(block: Block, columns: Sequence[BlockColumn], left: list[LeftOut]) -> list[BlockColumn]:
    """Return the columns without those of former prices, where newer ones stand beside them."""
    former = [column for column in columns if set(bare_words(column.header).split()) & FORMER]
    newer = [column for column in columns if column not in former and set(bare_words(column.header).split()) & NEWER]
    if not former or not newer:
        return list(columns)
    left += [_left(block, column, "former prices, of which new ones stand beside them") for column in former]
    return [column for column in columns if column not in former]


def _of_carriages(block: Block, columns: Sequence[BlockColumn], left: list[LeftOut]) -> list[BlockColumn]:
    """Return the columns without those of prices for a metre, a weight or a time, where others stand beside them."""
    measures = [column for column in columns if column.meaning.traits.unit == MEASURE]
    if len(measures) == len(columns):
        return list(columns)
    left += [_left(block, column, FOR_A_MEASURE) for column in measures]
    return [column for column in columns if column not in measures]


def _of_each_kind(
    block: Block, columns: Sequence[BlockColumn], left: list[LeftOut], questions: list[Question]
) -> list[BlockColumn]:
    """Return the columns that count of each way of carriage: a shared container for light cars is no other 20′."""
    groups: dict[tuple[str, ...], list[BlockColumn]] = {}
    for column in columns:
        traits = column.meaning.traits
        basis = "" if traits.basis == "per vehicle" else traits.basis
        groups.setdefault((traits.mode, basis), []).append(column)
    kept = [one for group in groups.values() for one in _for_every_vehicle(block, group, left, questions)]
    return [column for column in columns if column in kept]


def _for_every_vehicle(
    block: Block, columns: Sequence[BlockColumn], left: list[LeftOut], questions: list[Question]
) -> list[BlockColumn]:
    """Return the columns without those for some vehicles or services only, where others are for all."""
    back = [column for column in columns if is_way_back(column)]
    if back and any("headhaul" in bare_words(column.header).replace(" ", "") for column in columns):
        onward = [column for column in columns if column not in back]
        return [*_for_every_vehicle(block, onward, left, questions), *back]
    variants = list(dict.fromkeys(kind_of_vehicles(column) for column in columns))
    if not set(variants) - PLAIN:
        return list(columns)
    if len(variants) == 1 and not set(variants) & SOME_ALONE:
        left.append(replace(_left(block, columns[0], HOLDS_FOR.format(variants[0])), is_taken=True))
        return list(columns)
    if set(variants) & {*PLAIN, "sedan"}:
        counts = PLAIN if set(variants) & PLAIN else {"sedan"}
        others = [column for column in columns if kind_of_vehicles(column) not in counts]
        left += [
            _left(block, column, f"prices for {_who(column)} alone, for which the sheet has no column")
            for column in others
        ]
        left += [
            replace(_left(block, column, HOLDS_FOR.format(kind_of_vehicles(column))), is_taken=True)
            for column in columns
            if column not in others and kind_of_vehicles(column) not in PLAIN
        ]
        return [column for column in columns if column not in others]
    if variants:
        first = columns[0]
        questions.append(
            Question(
                "which",
                "The prices differ by vehicle or service. Which are to be taken?",
                (*variants, DEAREST, LEAVE_OUT),
                block.page.short(block.header_row, first.at),
            )
        )
    return list(columns)


def is_way_back(column: BlockColumn) -> bool:
    """Return whether a column holds prices from where its rows' lanes end to where they begin."""
    return column.meaning.traits.variant == BACK_HAUL


def kind_of_vehicles(column: BlockColumn) -> str:
    """Return for which vehicles or service alone a column's prices are, as its header says: large vehicle, up to 5.0 m."""
    traits = column.meaning.traits
    return " ".join(text for text in (traits.variant, *traits.limits) if text)


def _who(column: BlockColumn) -> str:
    variant = kind_of_vehicles(column)
    return {"does not run": "vehicles that do not run", "express": "express transport"}.get(variant, variant)


def _totals(
    block: Block, columns: Sequence[BlockColumn], left: list[LeftOut]
) -> tuple[list[BlockColumn], list[BlockColumn]]:
    """Return the columns that count where a total stands beside its parts, and the parts."""
    kept = list(columns)
    parts: list[BlockColumn] = []
    for total in [column for column in columns if column.meaning.field == "total"]:
        own = [column for column in kept if _is_part(column, total)]
        if own:
            parts += own
            kept = [column for column in kept if column not in own]
            left += [_left(block, column, "a part of the total, which is taken") for column in own]
    return kept, parts


def _is_part(column: BlockColumn, total: BlockColumn) -> bool:
    own, whole = column.meaning.traits, total.meaning.traits
    is_sum = column.meaning.field in ("linehaul", "rate") and not own.unit
    return is_sum and own.trailer in ("", whole.trailer) and column.at < total.at


def adds_up(block: Block, row: int, total: Decimal, parts: Sequence[BlockColumn]) -> bool:
    """Return whether the parts, money of other columns and shares of these together come to the total, to the cent."""
    found, shares = Decimal(0), Decimal(0)
    for column in (
        *parts,
        *block.of("fuel"),
        *(c for c in block.columns if c.meaning.field.startswith("surcharge") or c.meaning.field == "base"),
    ):
        figure = figure_in(block.page.values.get((row, column.at)), block.page.formats.get((row, column.at), ""), ".")
        if not isinstance(figure, Figure):
            continue
        if figure.percent or says_percent(column.header):
            shares += figure.number if figure.percent or figure.number >= 1 else figure.number * 100
        else:
            found += figure.number
    return abs(found * (100 + shares) / 100 - total) <= Decimal("0.01")


def _left(block: Block, column: BlockColumn, why: str) -> LeftOut:
    return LeftOut(block.page.short(block.header_row, column.at), column.header, why)
