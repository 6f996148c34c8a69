"""What a buyer is sent holds no word of the workshop: how a thing was learnt or reckoned, codes of the trade without a word on them.

Held against forty transports: the demo's vehicles and others drawn by a fixed seed, to places at home and abroad.
"""

import random
import re
from collections.abc import Iterator
from pathlib import Path

import openpyxl
import pytest

from shipcalc.actions.quoting import Order, open_books, quote
from shipcalc.actions.sources import invented_sources
from shipcalc.actions.vehicles import read_stock_of
from shipcalc.documents.buyer.message import buyer_message
from shipcalc.documents.buyer.workbook import write_buyer_workbook
from shipcalc.errors import NoAnswer
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Quote
from tests.quote.conftest import DAY

# Nowhere in what a buyer gets.
NOWHERE = re.compile(
    r"second hand|secondary source|from memory|not checked|(?:was|were) (?:not )?read\b|CFR 395|h of driving|in \d+ shifts"
    r"|straight line|great.circle|\bW/M\b|revenue ton|unless a line says|Rounding up|Everything else\s*[−-]|fingerprint"
    r"|\w+\.xlsx ›|\bmargin\b|^None$|\bnan\b",
    re.IGNORECASE,
)
# Codes that may stand beside their words on the lines, and not on the first page.
NOT_ON_THE_FIRST_PAGE = re.compile(r"\b(?:BAF|CAF|THC|ISPS|FCL|LCL|EEI|ITN|AES)\b")
PLACES = (
    "59715", "33139", "Nantucket, MA", "Honolulu, HI", "Anchorage, AK", "San Juan, PR", "Toronto, ON", "Monterrey, Mexico",
    "Bremen, Germany", "London, UK", "Milan, Italy", "Oslo, Norway", "Zurich, Switzerland", "Sydney, Australia",
    "Yokohama, Japan", "Dubai", "Lagos, Nigeria", "Santos, Brazil", "Apia, Samoa", "Kuwait City, Kuwait",
)  # fmt: skip
TERMS = ("", "", "EXW", "FOB", "CIF", "DDP")


@pytest.fixture(scope="module")
def quotes() -> list[Quote]:
    """Two transports to each place, with vehicles and terms drawn by a fixed seed; what is refused is left out."""
    sources = invented_sources()
    books, draw = open_books(sources), random.Random(12)
    numbers = sorted(vehicle.stock_number for vehicle in read_stock_of(sources).vehicles)
    made = []
    for to in PLACES * 2:
        home = to[:5].isdecimal() or to.endswith((", MA", ", HI", ", AK", ", PR"))
        order = Order(vehicles=(draw.choice(numbers),), to=to, term="" if home else draw.choice(TERMS))
        try:
            made.append(quote(order, sources, as_of=DAY, books=books))
        except NoAnswer:
            continue
    return made


def texts_of(workbook: Path, *, first_only: bool = False) -> Iterator[str]:
    """Yield the texts of a workbook's sheets, hidden ones too, with the notes of cells."""
    book = openpyxl.load_workbook(workbook)
    for sheet in book.worksheets[: 1 if first_only else None]:
        for row in sheet.iter_rows():
            for cell in row:
                if isinstance(cell.value, str):
                    yield cell.value
                if cell.comment:
                    yield cell.comment.text


def test_no_word_of_the_workshop_reaches_a_buyer(quotes: list[Quote], tmp_path: Path) -> None:
    found = []
    for number, made in enumerate(quotes):
        file = tmp_path / f"{number}.xlsx"
        write_buyer_workbook(for_buyer(made), file, paper="letter")
        message, first = buyer_message(made), list(texts_of(file, first_only=True))
        found += [text for text in (*message.splitlines(), *texts_of(file)) if NOWHERE.search(text)]
        found += [text for text in (*message.splitlines(), *first) if NOT_ON_THE_FIRST_PAGE.search(text)]
    assert len(quotes) >= 30
    assert not found, "\n".join(sorted(set(found)))
