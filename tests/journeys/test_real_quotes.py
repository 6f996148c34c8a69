"""Quotes of the invented dealer, written out and computed anew by an independent spreadsheet program, to the cent."""

from datetime import date

import pytest

from shipcalc.actions.quoting import Order, open_books, quote
from shipcalc.actions.sources import invented_sources
from shipcalc.documents.buyer.workbook import write_buyer_workbook
from shipcalc.documents.office.workbook import write_office_workbook
from shipcalc.errors import NoAnswer
from shipcalc.places.gazetteer.pages import all_postal_codes
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Quote

DAY = date(2026, 12, 1)
AT_LEAST = 50
STEP = 7_919  # a prime: the ZIPs go all over the country, each with another vehicle
WISHES = (
    {},
    {"express": True},
    {"lift_gate": True},
    {"trailer": "enclosed"},
    {"limited_access": True, "ready": date(2027, 4, 1)},
)


def real_quotes(count: int) -> list[Quote]:
    """Return so many quotes: vehicle, ZIP and wishes move on by fixed steps; every sixth has two vehicles."""
    sources = invented_sources()
    books = open_books(sources)
    numbers = [vehicle.stock_number for vehicle in books.stock.vehicles]
    codes = all_postal_codes().codes.tolist()
    found: list[Quote] = []
    for turn in range(3 * count):
        asked = [numbers[turn * 11 % len(numbers)], numbers[(turn * 11 + 5) % len(numbers)]]
        order = Order(
            vehicles=tuple(asked[: 2 if turn % 6 == 5 else 1]), to=codes[turn * STEP % len(codes)],
            **WISHES[turn % len(WISHES)],
        )  # fmt: skip
        try:
            found.append(quote(order, sources, as_of=DAY, books=books))
        except NoAnswer:
            continue
        if len(found) == count:
            break
    return found


@pytest.fixture(scope="module")
def quotes() -> list[Quote]:
    return real_quotes(AT_LEAST + 2)


def test_the_sample_is_large_and_varied(quotes) -> None:
    assert len(quotes) >= AT_LEAST
    assert len({quote.to.subdivision for quote in quotes}) > 20
    assert {len(quote.vehicles) for quote in quotes} == {1, 2}
    assert {option.trailer for quote in quotes for option in quote.options} == {"open", "enclosed"}
    assert {charge.unit for quote in quotes for option in quote.options for charge in option.charges} == {
        "mi",
        "%",
        "lump",
    }


def test_every_amount_in_the_workbooks_of_real_quotes_is_the_quotes(
    quotes, recalculate, amounts_shown, tmp_path
) -> None:
    for number, quoted in enumerate(quotes):
        write_buyer_workbook(for_buyer(quoted), tmp_path / f"buyer-{number}.xlsx")
        write_office_workbook(quoted, tmp_path / f"office-{number}.xlsx", paper="letter")
    books = recalculate(sorted(tmp_path.glob("*.xlsx")))
    for number, quoted in enumerate(quotes):
        amounts_shown.check_buyer(books[f"buyer-{number}.xlsx"], quoted)
        amounts_shown.check_office(books[f"office-{number}.xlsx"], quoted)
