"""The rates of a table of from × to."""

from collections.abc import Iterator

from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import BlockColumn
from shipcalc.ratebook.taking.body import BodyRow
from shipcalc.ratebook.taking.choosing import Chosen
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.matrix import ROWS_FROM, ROWS_TO, Matrix
from shipcalc.ratebook.taking.port_names import port_in
from shipcalc.ratebook.taking.prices import rates_of_cell
from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate, Taken
from shipcalc.ratebook.taking.row import Row
from shipcalc.ratebook.taking.row_ends import ends_named, is_state_column
from shipcalc.ratebook.taking.traits import NO_TRAITS, bare_words, traits_in


def taken_from_matrix(matrix: Matrix, around: Around) -> Taken:
    """Return the rates of a table of from × to; places that are not understood are named with all their prices."""
    rows_are = around.answers.get("matrix") or matrix.rows_are
    where = matrix.page.short(matrix.header_row, matrix.label_column)
    questions = () if rows_are or _is_the_same_both_ways(matrix) else (_question(matrix, where),)
    left: list[LeftOut] = []
    across = _places(matrix, [(matrix.header_row, column) for column in matrix.columns], around, left)
    rows = [
        row
        for row in matrix.rows
        if (row, matrix.label_column) in matrix.page.values
        and any((row, c) in matrix.page.values for c in matrix.columns)
    ]
    unnamed = [
        row
        for row in matrix.rows
        if row < max(rows, default=0)
        and row not in rows
        and any((row, c) in matrix.page.values for c in matrix.columns)
    ]
    left += (
        LeftOut(matrix.page.short(row, matrix.columns[0]), " ".join(matrix.page.row(row).values()), "has no place")
        for row in unnamed
    )
    down = _places(matrix, [(row, matrix.label_column) for row in rows], around, left)
    rates = list(_rates(matrix, across, down, rows_are or ROWS_FROM, around, left))
    return Taken(tuple(rates), tuple(left), questions)


def _is_the_same_both_ways(matrix: Matrix) -> bool:
    """Return whether the same places stand down and across, and each price there is the same as the one back."""
    page = matrix.page
    across = {page.text(matrix.header_row, column).casefold(): column for column in matrix.columns}
    down = {page.text(row, matrix.label_column).casefold(): row for row in matrix.rows if page.row(row)}
    if set(across) != set(down) or len(across) != len(matrix.columns):
        return False
    return all(
        page.text(down[one], across[other]) == page.text(down[other], across[one]) for one in down for other in across
    )


def _question(matrix: Matrix, where: str) -> Question:
    page = matrix.page
    row, column = matrix.header_row + 1, matrix.columns[0]
    down, across = page.text(row, matrix.label_column), page.text(matrix.header_row, column)
    price = page.text(row, column)
    text = f"In the table at {where}, is {price} from {down} to {across} (rows are from), or back (rows are to)?"
    return Question("matrix", text, (ROWS_FROM, ROWS_TO), where)


def _places(
    matrix: Matrix, spots: "list[tuple[int, int]]", around: Around, left: list[LeftOut]
) -> dict[tuple[int, int], tuple[End, ...]]:
    texts = [matrix.page.text(*spot) for spot in spots]
    hint = "state" if is_state_column(texts) else "" if any(is_state_column([text]) for text in texts) else "city"
    found = {}
    for spot, text in zip(spots, texts, strict=True):
        try:
            found[spot] = (port_in(text),) if matrix.is_ports else ends_named(text, around, hint, _part(text))
        except Unclear as why:
            left.append(LeftOut(matrix.page.short(*spot), text, f"{why.why}: its prices are not taken"))
    return found


def _part(text: str) -> str:
    return "zone" if bare_words(text).startswith("zone ") else "place"


def _rates(
    matrix: Matrix,
    across: "dict[tuple[int, int], tuple[End, ...]]",
    down: "dict[tuple[int, int], tuple[End, ...]]",
    rows_are: str,
    around: Around,
    left: list[LeftOut],
) -> Iterator[Rate]:
    for (row, _), down_ends in down.items():
        for (_, column), across_ends in across.items():
            if (row, column) not in matrix.page.values:
                continue
            start, end = (down_ends, across_ends) if rows_are != ROWS_TO else (across_ends, down_ends)
            block = matrix.as_block(column)
            price: BlockColumn = block.columns[1]
            one = Row(block, BodyRow(row, NO_TRAITS), around, traits_in(matrix.corner)[0], start, end)
            yield from rates_of_cell(one, price, Chosen((price,)), left)
