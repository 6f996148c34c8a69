"""What a row's own cells say of its prices: trailer, currency, what they are for, fuel; a sum's own columns of them first."""

from functools import lru_cache

from shipcalc.ratebook.taking.blocks import Block, BlockColumn
from shipcalc.ratebook.taking.meanings import SURCHARGE
from shipcalc.ratebook.taking.traits import NO_TRAITS, Traits, traits_in
from shipcalc.records import replace

# Trailers as a column of equipment may have them (common practice, no source).
BY_LETTER = {"o": "open", "op": "open", "e": "enclosed", "en": "enclosed"}


class Doubt(Exception):
    """A cell that cannot be read in one way: where, what stands in it, why."""

    def __init__(self, where: str, what: str, why: str) -> None:
        super().__init__(why)
        self.where, self.what, self.why = where, what, why


def traits_of_columns(block: Block, row: int) -> Traits:
    """Return what a row's own cells say: trailer, currency, basis, container, fuel. Raises Doubt for a trailer of no kind."""
    traits = NO_TRAITS
    for column in block.of("trailer", "mode", "basis", "container", "currency", "fuel_said", "fuel"):
        text = block.page.text(row, column.at)
        if not text or is_one_of_several(block, column):
            continue
        if column.meaning.field == "trailer" and text.casefold().strip(" .") in BY_LETTER:
            traits = traits.over(Traits(trailer=BY_LETTER[text.casefold().strip(" .")]))
            continue
        if column.meaning.field in ("fuel", "fuel_said"):
            said = _fuel_said(text)
            traits = replace(traits, fuel=said if traits.fuel is None else traits.fuel)
            continue
        said_here, _ = traits_in(
            text if column.meaning.field != "basis" or text.casefold().startswith("per") else f"per {text}"
        )
        traits = traits.over(said_here)
        if column.meaning.field == "trailer" and not said_here.trailer and _says_trailers(block, column):
            raise Doubt(
                block.page.short(row, column.at), text, "is no kind of trailer, which other rows of the column name"
            )
        if column.meaning.field == "currency" and not said_here.currency:
            raise Doubt(block.page.short(row, column.at), text, "is the code of no currency")
    return traits


@lru_cache(maxsize=64)
def _says_trailers(block: Block, column: BlockColumn) -> bool:
    """Return whether some cells of a column name trailers."""
    texts = (block.page.text(row, column.at) for row in block.rows)
    return any(text.casefold().strip(" .") in BY_LETTER or traits_in(text)[0].trailer for text in texts if text)


def _fuel_said(text: str) -> bool | None:
    """Return whether a cell of a column of fuel says that it is in the price."""
    lower = text.casefold().strip()
    if lower.startswith(
        ("incl", "yes", "y", "in rate", "in price", "included", "ja", "oui", "si", "all in")
    ) and not lower.startswith("not"):
        return True
    traits = traits_in(f"{text} fuel" if "fuel" not in lower and "fsc" not in lower else text)[0]
    return traits.fuel if traits.fuel is not None else False


def is_one_of_several(block: Block, column: BlockColumn) -> bool:
    """Return whether a column of currencies or bases is one of several in a table: each speaks of the sums beside it alone."""
    return column.meaning.field in ("currency", "basis") and len(block.of(column.meaning.field)) > 1


def traits_beside(block: Block, row: int, at: int) -> Traits:
    """Return what the columns of currencies and bases say that stand beside one sum, where there are several of a kind."""
    traits = NO_TRAITS
    sums = sorted(one.at for one in block.columns if one.meaning.is_price or one.meaning.field.startswith(SURCHARGE))
    before = max((one for one in sums if one < at), default=-1)
    after = min((one for one in sums if one > at), default=block.columns[-1].at + 1)
    for field in ("currency", "basis"):
        columns = block.of(field)
        if len(columns) < 2:
            continue
        stands_behind = columns[0].at > sums[0]
        own = [one for one in columns if (at < one.at < after if stands_behind else before < one.at < at)]
        for text in (block.page.text(row, one.at) for one in own):
            traits = traits.over(
                traits_in(f"per {text}" if field == "basis" and not text.startswith("per") else text)[0]
            )
    return traits
