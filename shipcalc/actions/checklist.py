"""Checklist: what is left to do for a quote, by whom and by when, as a workbook to tick."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput
from shipcalc.settings import Paper

if TYPE_CHECKING:
    from shipcalc.checklist.items import Item
    from shipcalc.quote.model import Option, Quote


@dataclass(frozen=True, slots=True)
class Checklist:
    """The quote, the choice that was taken, what is to be done in working order, and the workbook that was written."""

    quote: "Quote"
    option: "Option"
    items: "tuple[Item, ...]"
    file: Path


def make_checklist(quote_file: Path, *, choice: int | None, out: Path | None, paper: Paper) -> Checklist:
    """Write the checklist of a saved quote into `out` (default: beside the quote) and return it.

    Raises WrongInput for a file that is no quote, a choice it does not have, a quote without tasks.
    """
    from shipcalc.actions.files import CHECKLIST_FILE, DATA_FILE, option_index, read_quote
    from shipcalc.checklist.making import checklist
    from shipcalc.documents.checklist_workbook import write_checklist_workbook

    quote = read_quote(quote_file)
    index = option_index(quote, choice)
    if not quote.options[index].tasks:
        raise WrongInput(
            "has no tasks to make a checklist of",
            where=str(quote_file),
            remedy=f"name the {DATA_FILE} that shipcalc quote --out wrote for the office",
        )
    file = (quote_file.parent if out is None else out) / CHECKLIST_FILE
    write_checklist_workbook(quote, index, file, paper=paper)
    option = quote.options[index]
    return Checklist(quote, option, checklist(quote, option), file)
