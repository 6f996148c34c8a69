"""`quote.xlsx`: the quote as the buyer gets it. It holds no cost, no margin, no source cell, no carrier kept private."""

from pathlib import Path

from shipcalc.documents import wording
from shipcalc.documents.buyer.cover import fill_cover, new_cover
from shipcalc.documents.buyer.dates import put_dates
from shipcalc.documents.buyer.duty import put_duty
from shipcalc.documents.buyer.lines import put_lines
from shipcalc.documents.buyer.notes import put_notes
from shipcalc.documents.buyer.way import put_stages, put_ways
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Quote
from shipcalc.sheets.writing import Book, Paper


def write_buyer_workbook(quote: Quote, path: Path, *, paper: Paper = "letter") -> None:
    """Write the buyer's workbook of any quote; what is not the buyer's business is taken out first.

    Raises WrongInput where the file cannot be written.
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
    cover = new_cover(book, shown)
    cells = put_lines(book, shown)
    put_stages(book, shown, cells)
    fill_cover(cover, shown, cells, put_duty(book, shown))
    put_ways(book, shown)
    put_dates(book, shown)
    put_notes(book, shown)
    book.save(path)
