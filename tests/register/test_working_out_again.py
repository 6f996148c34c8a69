"""Quotes of several rate books, kept, come out the same to the byte from what is kept with them, whatever becomes of the books."""

import os
from pathlib import Path

import pytest

from shipcalc.actions.quoting import Books, made_quote, open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.ratebook.book import read_rate_book
from shipcalc.register.opening import open_register, url_of_file
from shipcalc.register.quotes import keep_quote
from shipcalc.register.verifying import verify
from shipcalc.sheets.editing import open_draft
from shipcalc.sheets.reading import read_workbook
from shipcalc.sheets.saving import copy_folder
from tests.quote.kept_answers import DAY, orders
from tests.register.conftest import AT

BOOKS = 5


@pytest.mark.soak
def test_quotes_of_five_rate_books_come_out_the_same(tmp_path: Path) -> None:
    """`QUOTES=500 pytest tests/register/test_working_out_again.py` takes so many; the books are deleted before they are verified."""
    wanted = int(os.environ.get("QUOTES", "25"))
    sources = invented_sources()
    books = [
        Books(open_books(sources).stock, read_rate_book(_dearer(sources.rates.path, tmp_path, by)))
        for by in range(BOOKS)
    ]
    register = open_register(url_of_file(tmp_path / "r.sqlite"))
    kept = 0
    for turn, order in enumerate(orders()):
        book = books[turn % BOOKS]
        try:
            made = made_quote(order, sources, as_of=DAY, books=book)
        except (NoAnswer, WrongInput):
            continue
        keep_quote(register, made.quote, made.request, made.rates, at=AT)
        kept += 1
        if kept == wanted:
            break
    for by in range(BOOKS):
        for file in (tmp_path / f"book {by}").iterdir():
            file.unlink()
    found = list(verify(register))
    register.close()
    assert len({book.rates.fingerprint for book in books}) == BOOKS
    assert (len(found), [f"{one.number}: {one.told}" for one in found if not one.same]) == (wanted, [])


def _dearer(source: Path, folder: Path, by: int) -> Path:
    """Return a copy of the rate book whose markup on linehaul is higher by so many percent."""
    target = folder / f"book {by}"
    copy_folder(source, target, sorted(source.glob("*.xlsx")))
    file = target / "trucking.xlsx"
    sheet = next(sheet for sheet in read_workbook(file).sheets if sheet.name == "Pricing")
    row = next(number for number, cells in enumerate(sheet.rows, 1) if "Markup on linehaul" in cells)
    draft = open_draft(file)
    draft.put("Pricing", f"B{row}", (14 + by) / 100)
    file.write_bytes(draft.to_bytes())
    return target
