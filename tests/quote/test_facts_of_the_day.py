"""Facts of countries and rules of papers have a first and a last day: a quote takes the rows that hold on its day.

The facts are invented and dated for the test; that what is typed today counts from its day on is our own promise.
"""

from datetime import date, timedelta

import pytest

from shipcalc.actions.quoting import Books, Order, made_quote, open_books
from shipcalc.actions.sources import invented_sources
from shipcalc.errors import NoAnswer
from shipcalc.quote.model import Quote
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.imports import EntryRule
from shipcalc.records import fields, replace

LAST = date(2026, 12, 31)
FIRST = LAST + timedelta(days=1)


@pytest.fixture(scope="module")
def books() -> Books:
    return open_books(invented_sources())


def changed(book: RateBook, **rows: tuple[object, ...]) -> RateBook:
    own = {field.name: getattr(book, field.name) for field in fields(RateBook)}
    return RateBook(**own | {"overseas": None, "priced_lanes": None} | rows)  # type: ignore[arg-type]


def asked(books: Books, book: RateBook, day: date, to: str = "Hamburg, Germany") -> Quote:
    order = Order(vehicles=("HV-1042",), to=to, ready=day)
    return made_quote(order, invented_sources(), as_of=day, books=replace(books, rates=book)).quote


def turned(rows: tuple[object, ...], meant, **later: object) -> tuple[object, ...]:
    """Return rows of which some end with the year, each with one behind it that holds from the new year on."""
    out: list[object] = []
    for row in rows:
        out += (
            [replace(row, valid_to=LAST), replace(row, valid_from=FIRST, valid_to=None, **later)]
            if meant(row)
            else [row]
        )
    return tuple(out)


def duty(quote: Quote) -> set[tuple[str, str]]:
    lines = quote.options[quote.recommended].imports[0].lines
    return {(line.code.removeprefix("import."), f"{line.rate.normalize():f}") for line in lines}


@pytest.mark.parametrize(("day", "percent"), [(LAST, "19"), (FIRST, "21")])
def test_a_tax_that_changes_with_the_year_is_typed_before(books, day, percent):
    rows = turned(
        books.rates.import_charges, lambda row: row.country == "DE" and row.code == "vat", percent_ppm=210_000
    )
    quote = asked(books, changed(books.rates, import_charges=rows), day)
    assert ("vat", percent) in duty(quote)


@pytest.mark.parametrize(("day", "currency_note"), [(LAST, "Registration tax"), (FIRST, "Euros only")])
def test_a_countrys_row_changes(books, day, currency_note):
    rows = turned(books.rates.countries, lambda row: row.country == "DE", note="Euros only")
    quote = asked(books, changed(books.rates, countries=rows), day)
    assert any(currency_note in told for told in quote.options[0].warnings)


@pytest.mark.parametrize(("day", "barred"), [(LAST, False), (FIRST, True)])
def test_a_rule_of_entry_begins(books, day, barred):
    rule = EntryRule(country="DE", answer="bars", rule="Invented: nothing enters", valid_from=FIRST)
    book = changed(books.rates, entry_rules=(*books.rates.entry_rules, rule))
    if barred:
        with pytest.raises(NoAnswer, match="Invented: nothing enters"):
            asked(books, book, day)
    else:
        assert asked(books, book, day).options


@pytest.mark.parametrize(("sheet", "field"), [("documents", "document"), ("tasks", "task"), ("from_buyer", "asked")])
def test_papers_tasks_and_questions_change(books, sheet, field):
    first = next(row for row in getattr(books.rates, sheet) if not row.to_country and row.overseas is not False)
    rows = turned(getattr(books.rates, sheet), lambda row: row is first, **{field: "Invented for the new year."})
    book = changed(books.rates, **{sheet: rows})
    told = {day: str(asked(books, book, day).options[0]) for day in (LAST, FIRST)}
    assert getattr(first, field) in told[LAST]
    assert "Invented for the new year." not in told[LAST]
    assert "Invented for the new year." in told[FIRST]
    assert getattr(first, field) not in told[FIRST]
