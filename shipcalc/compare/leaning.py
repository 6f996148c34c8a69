"""Which rows of a rate book a quote leans on: those of its sums, its papers and tasks, what was said of entry.

Found by what stands in them, since a quote may be older than the book: rows move, and what they say stays.
"""

from collections.abc import Iterable, Iterator
from itertools import chain

from shipcalc.quote.model import Charge, Document, Option, Quote, Task
from shipcalc.ratebook.facts import Fact
from shipcalc.ratebook.rows.imports import Country, EntryRule, Hold, ImportCharge
from shipcalc.ratebook.rows.paperwork import DocumentRow, FromBuyerRow, TaskRow
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.records import dataclass

PRICE, ENTRY, PAPER = "price", "entry", "paper"


@dataclass(frozen=True, slots=True)
class Told:
    """What a quote says, as it is looked for: `lines` are import charges, `cells` where its lines are priced."""

    country: str
    lines: frozenset[tuple[str, str]]
    cells: frozenset[str]
    papers: frozenset[tuple[str, str, str]]
    asked: frozenset[str]
    said: str
    counts_customs: bool


def told_by(quote: Quote) -> Told:
    """Return what the recommended choice of a quote says."""
    option = quote.options[quote.recommended]
    charges = tuple(_charges(option))
    papers: Iterable[Document | Task] = chain(option.documents, option.tasks)
    return Told(
        country=quote.to.country.upper(),
        lines=frozenset((one.code.removeprefix("import."), one.label) for one in charges),
        cells=frozenset(_row_of(one.source) for one in charges if one.source),
        papers=frozenset((one.code.casefold(), one.title, one.source) for one in papers),
        asked=frozenset(option.needed_from_buyer),
        said="\n".join((*option.before_price, *option.warnings)),
        counts_customs=bool(option.imports),
    )


def leans(told: Told, fact: Fact) -> bool:
    """Return whether what a quote says stands in a row of a fact."""
    return any(_leans(told, row) for row in fact.rows)


def weight_of(fact: Fact) -> str:
    """Return what hangs on a fact: a price, whether the vehicle may enter at all, or a paper."""
    if fact.field in ("import_charges", "countries") or fact.field not in _PAPERS | _ENTRY:
        return PRICE
    return ENTRY if fact.field in _ENTRY else PAPER


def _leans(told: Told, row: Row) -> bool:
    match row:
        case ImportCharge():
            return row.country.upper() == told.country and (row.code, row.label) in told.lines
        case Country():
            return row.country.upper() == told.country and told.counts_customs
        case EntryRule():
            return row.country.upper() == told.country and row.rule.rstrip(".") in told.said
        case Hold():
            return row.country.upper() == told.country and row.reason.rstrip(".") in told.said
        case DocumentRow():
            return (row.code.casefold(), row.document, row.source or "") in told.papers
        case TaskRow():
            return (row.code.casefold(), row.task, row.source or "") in told.papers
        case FromBuyerRow():
            return row.asked in told.asked
    return _row_of(row.at.cell("")) in told.cells


def _charges(option: Option) -> Iterator[Charge]:
    yield from option.charges
    for estimate in option.imports:
        yield from estimate.lines


def _row_of(cell: str) -> str:
    """Return a cell without its column: `overseas.xlsx › Ports!12`."""
    place, _, at = cell.rpartition("!")
    return f"{place}!{at.lstrip('ABCDEFGHIJKLMNOPQRSTUVWXYZ')}"


def counted(facts: Iterable[Fact], quotes: Iterable[Quote]) -> dict[int, int]:
    """Return on which facts, by their identity, how many quotes lean."""
    told = [told_by(quote) for quote in quotes]
    return {id(fact): sum(leans(one, fact) for one in told) for fact in facts}


_PAPERS = frozenset({"documents", "tasks", "from_buyer"})
_ENTRY = frozenset({"entry_rules", "holds"})
