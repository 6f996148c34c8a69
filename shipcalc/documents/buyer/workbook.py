"""`quote.xlsx`: the offer as a workbook that adds up by itself. It holds no cost, margin, source cell or private carrier."""

from collections.abc import Collection
from pathlib import Path

from shipcalc.documents import wording
from shipcalc.documents.buyer.choice_sheet import put_choice
from shipcalc.documents.buyer.front import fill_front, new_front
from shipcalc.documents.buyer.notes import put_notes
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Quote
from shipcalc.sheets.writing import Book, Paper


def write_buyer_workbook(
    quote: Quote,
    path: Path,
    *,
    choices: Collection[int] = (),
    paper: Paper = "letter",
    photos: Path | None = None,
    logo: bytes | None = None,
) -> None:
    """Write the buyer's workbook of any quote; what is not the buyer's business is taken out first.

    The recommended choice stands line by line, and each of `choices` (from 0) on a sheet of its own. `photos` is the folder
    that the names of pictures in the stock list start from, `logo` the dealer's as a PNG. Raises WrongInput where the file
    cannot be written.
    """
    shown = for_buyer(quote)
    book = Book(
        title=wording.headline(shown),
        subject=wording.reference(shown),
        creator=shown.dealer.name,
        accent=shown.dealer.accent,
        made=shown.as_of,
        paper=paper,
    )
    front = new_front(book)
    cells = {shown.recommended: put_choice(book, shown, shown.recommended)}
    put_notes(book, shown)
    for index in sorted({*choices} - {shown.recommended}):
        cells[index] = put_choice(book, shown, index)
    fill_front(front, shown, cells, photos, logo)
    book.save(path)
