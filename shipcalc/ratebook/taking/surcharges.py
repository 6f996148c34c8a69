"""What is asked on top of an ocean freight, in a cell beside or below it: a percentage of the freight, or money.

A bare small number under "BAF" may be either: it is asked for, once for its column, and never taken for one of them.
"""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from shipcalc.ratebook.taking.answers import LEAVE_OUT, MONEY, PERCENT
from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import Block, BlockColumn
from shipcalc.ratebook.taking.body import BodyRow
from shipcalc.ratebook.taking.choosing import Chosen
from shipcalc.ratebook.taking.currencies import DOLLAR
from shipcalc.ratebook.taking.figures import Figure, Mark, NoFigure, figure_in, is_included, looks_like_price
from shipcalc.ratebook.taking.meanings import SURCHARGE, UNNAMED, Meaning, meaning_of, says_percent
from shipcalc.ratebook.taking.page import Page, Spot
from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate
from shipcalc.ratebook.taking.row import row_told
from shipcalc.ratebook.taking.sides import Sides
from shipcalc.ratebook.taking.traits import NO_TRAITS, Traits, traits_in
from shipcalc.records import replace

# What lines ask as a share of the freight as well as in money; a share is hardly ever more (common practice, no source).
SHARES = frozenset(
    ("bunker", "currency adjustment", "peak season", "rate increase", "low sulphur", "war risk", "emissions", UNNAMED)
)
MOST_PERCENT = 100
# A share that is written without its sign and is less than this is a part of one: nobody asks 0.3 % of a freight, nor 0.30 of
# money (common practice, no source).
SURELY_PART = Decimal("0.4")
MOST_ASKED = 2
MAY_BE = "may be a percentage of the freight or money"
FOR_ALL = "is a surcharge on all freights of the table"
NOT_FOR_ALL = "is a surcharge below the freights, and which of them it is on, and how much, is not plain"


def kind_of(figure: Figure, name: str, words: str, said: Traits, answer: str) -> str:
    """Return whether the figure of a surcharge is PERCENT or MONEY; "" where nothing tells.

    `words` are its header or its row's, `said` what they say of currency and basis, `answer` what somebody answered.
    """
    if figure.percent or says_percent(words):
        return PERCENT
    if figure.is_money or figure.traits.currency or figure.traits.basis or said.currency or said.basis:
        return MONEY
    if name in SHARES and not answer and 0 < figure.number < SURELY_PART:
        return PERCENT
    return answer or (MONEY if name not in SHARES or figure.number > MOST_PERCENT else "")


def share_in(figure: Figure) -> tuple[Decimal, str]:
    """Return a percentage, and how it was read where a spreadsheet may have kept it as a part of one: 0.12 is 12 %.

    Raises ValueError where both readings are likely.
    """
    if figure.percent or figure.number >= 1:
        return figure.number, ""
    if figure.number < SURELY_PART:
        share = (figure.number * 100).normalize()
        return share, f"is {figure.number:f} in the mail, and is taken as {share:f} %"
    raise ValueError(f"may be {figure.number * 100:f} % or {figure.number:f} %")


def share_question(header: str, where: str, number: str) -> Question:
    """Return the question whether a bare number is a percentage or money."""
    text = f"Is {number} under “{header}” ({where}) a percentage of the freight, or money?"
    return Question(f"columns.{header}", text, (PERCENT, MONEY, LEAVE_OUT), where)


def settled(block: Block, rows: Sequence[int], mark: Mark) -> tuple[Block, tuple[Question, ...]]:
    """Return a table whose columns of surcharges say that they are money where their figures tell; and what must be asked."""
    columns: list[BlockColumn] = []
    questions: list[Question] = []
    for column in block.columns:
        bare = list(_bare(block, column, rows, mark)) if column.meaning.field.startswith(SURCHARGE) else []
        if bare and any(_is_share(block.page, (row, column.at), mark) for row in rows):
            column = replace(column, meaning=replace(column.meaning, said=column.meaning.said or PERCENT))
        elif bare and any(figure.number > MOST_PERCENT for _, figure in bare):
            column = replace(column, meaning=replace(column.meaning, said=column.meaning.said or MONEY))
        elif bare and len(questions) < MOST_ASKED:
            where = block.page.short(bare[0][0], column.at)
            questions.append(share_question(column.header, where, f"{bare[0][1].number:f}"))
        columns.append(column)
    return replace(block, columns=tuple(columns)), tuple(questions)


def _is_share(page: Page, spot: Spot, mark: Mark) -> bool:
    """Return whether a cell says that it is a percentage: so are bare numbers in its column."""
    figure = figure_in(page.values.get(spot), page.formats.get(spot, ""), mark)
    return isinstance(figure, Figure) and figure.percent


def _bare(block: Block, column: BlockColumn, rows: Sequence[int], mark: Mark) -> Iterator[tuple[int, Figure]]:
    """Yield the rows of a column whose figures may be percentages or money, as their cells and their header go."""
    meaning, page = column.meaning, block.page
    name = meaning.field.removeprefix(SURCHARGE)
    if name not in SHARES or not block.of("pol", "pod"):
        return
    for row in rows:
        figure = figure_in(page.values.get((row, column.at)), page.formats.get((row, column.at), ""), mark)
        if isinstance(figure, Figure) and figure.number >= SURELY_PART:
            plain = replace(figure, number=figure.number * 0)
            if not kind_of(plain, name, meaning.header, meaning.traits, ""):
                yield row, figure


def surcharge_rates(
    page: Page, spot: Spot, meaning: Meaning, like: Rate, mark: Mark, *, said: Traits | None = None
) -> tuple[Rate, ...]:
    """Return the surcharge in a cell beside or below a freight as a rate of its own. Raises ValueError with the reason.

    `said` is what is said of it alone, where `meaning` has what is said of the freights as well.
    """
    text = page.text(*spot)
    if is_included(text):
        return ()
    figure = figure_in(page.values[spot], page.formats.get(spot, ""), mark)
    if isinstance(figure, NoFigure):
        if figure.why:
            raise ValueError(figure.why)
        return ()
    traits = figure.traits.over(meaning.traits)
    if figure.number == 0:
        return ()
    if figure.mark or figure.minimum is not None:
        raise ValueError("is no plain sum")
    name = meaning.field.removeprefix(SURCHARGE)
    kind = kind_of(figure, name, meaning.header, meaning.traits if said is None else said, meaning.said)
    if not kind:
        raise ValueError(MAY_BE)
    is_share = kind == PERCENT
    share, reading = share_in(figure) if is_share else (None, "")
    return (
        replace(
            like,
            where=page.short(*spot),
            row=page.sheet_row(*spot),
            label=name,
            flat=None if is_share else figure.number,
            percent=share,
            basis="" if is_share else traits.basis or like.basis,
            mode="" if traits.basis == "per shipment" else like.mode,
            currency="" if is_share else traits.currency if traits.currency not in ("", DOLLAR) else like.currency,
            minimum=None,
            free_days=None,
            remark="",
            reading=reading,
        ),
    )


def surcharge_for_all(block: Block, one: BodyRow, sides: Sides, around: Around) -> Meaning | None:
    """Return what a row below the freights is that names a surcharge in the place of a port; None for another row."""
    ats = (*sides.start.ats, *sides.end.ats, *([sides.lane.at] if sides.lane else []))
    at = next((at for at in ats if (one.row, at) in block.page.values), None)
    by_sea = bool(block.of("pol", "pod")) or (sides.lane is not None and bool(around.facts.traits.mode))
    if at is None or not by_sea:
        return None
    meaning = meaning_of(block.page.text(one.row, at))
    if not meaning.field.startswith(SURCHARGE):
        return None
    return replace(meaning, said=around.answers.columns.get(meaning.header, ""))


def rates_for_all(
    block: Block,
    one: BodyRow,
    meaning: Meaning,
    chosen: Chosen,
    around: Around,
    left: list[LeftOut],
    asked: list[Question],
) -> Iterator[Rate]:
    """Yield a surcharge on all freights of a table: one for each of its columns, or one share of all."""
    page = block.page
    told = (page.short(one.row, min(page.row(one.row))), row_told(block, one.row))
    if meaning.said == LEAVE_OUT:
        left.append(LeftOut(*told, "is left out by an answer"))
        return
    words, said = _words_beside(block, one.row, meaning)
    found = 0
    for spot, column in _spots(block, one.row, chosen):
        like = _like(page, spot, column, words, said, around)
        own = replace(
            meaning,
            header=f"{meaning.header} {words}",
            traits=said.over(like_traits(column)).over(around.facts.traits),
        )
        try:
            rates = surcharge_rates(page, spot, own, like, around.mark, said=said)
        except ValueError as why:
            if str(why) == MAY_BE and len(asked) < MOST_ASKED:
                asked.append(share_question(meaning.header, page.short(*spot), page.text(*spot)))
            else:
                left.append(LeftOut(page.short(*spot), page.text(*spot), str(why)))
            return
        yield from rates
        found += len(rates) or is_included(page.text(*spot))
    left.append(LeftOut(*told, FOR_ALL if found else NOT_FOR_ALL, is_taken=bool(found)))


def like_traits(column: BlockColumn | None) -> Traits:
    """Return what the header over a freight says; of a surcharge on all freights nothing is said so."""
    return column.meaning.traits if column is not None else NO_TRAITS


def _words_beside(block: Block, row: int, meaning: Meaning) -> tuple[str, Traits]:
    """Return the words of a row of a surcharge without its figures, and what they say."""
    page = block.page
    cells = [text for at, text in page.row(row).items() if not looks_like_price(page.values[row, at])]
    said = meaning.traits
    for text in cells:
        said = said.over(traits_in(text)[0])
    return " ".join(text for text in dict.fromkeys(cells) if text != meaning.header), said


def _spots(block: Block, row: int, chosen: Chosen) -> Iterator[tuple[Spot, BlockColumn | None]]:
    """Yield the cells of a surcharge on all freights: those in the columns of freights, else the one cell with a figure."""
    page = block.page
    filled = [column for column in chosen.prices if _may_be_sum(page, (row, column.at))]
    if filled:
        yield from (((row, column.at), column) for column in filled if column.meaning.field != "total")
        return
    cells = [at for at in block.page.row(row) if looks_like_price(page.values[row, at])]
    if len(cells) == 1:
        bases = {column.meaning.traits.basis for column in chosen.prices}
        yield (row, cells[0]), chosen.prices[0] if len(bases) == 1 and chosen.prices else None


def _may_be_sum(page: Page, spot: Spot) -> bool:
    """Return whether a cell below a freight has a figure, or says that there is nothing to pay."""
    return looks_like_price(page.values.get(spot)) or (spot in page.values and is_included(page.text(*spot)))


def _like(page: Page, spot: Spot, column: BlockColumn | None, words: str, said: Traits, around: Around) -> Rate:
    return Rate(
        target="Ocean quotations",
        where=page.short(*spot),
        row=page.sheet_row(*spot),
        carrier=around.sender,
        mode="" if says_percent(words) or column is None else column.meaning.traits.mode,
        currency=said.currency,
        basis=said.over(like_traits(column)).over(around.facts.traits).basis,
        valid_from=around.facts.valid_from,
        valid_to=around.facts.valid_to,
        reference=around.facts.reference,
    )
