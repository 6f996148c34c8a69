"""Overseas quotes of the invented dealer on every face: workbooks computed anew elsewhere, printed pages, message, terminal."""

import re
from datetime import date
from decimal import Decimal

import openpyxl
import pytest

from shipcalc.actions.quoting import Order, open_books, quote
from shipcalc.actions.sources import invented_sources
from shipcalc.cli.answer import quote_lines
from shipcalc.cli.look import Look
from shipcalc.documents import wording
from shipcalc.documents.buyer.message import buyer_message
from shipcalc.documents.buyer.workbook import write_buyer_workbook
from shipcalc.documents.checklist.workbook import write_checklist_workbook
from shipcalc.documents.offer.first_answer import rounded
from shipcalc.documents.offer.landing import altogether
from shipcalc.documents.office.workbook import write_office_workbook
from shipcalc.quote.as_data import quote_to_json
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.explain.stages import stage_title
from shipcalc.quote.model import Quote
from shipcalc.quote.price.exchange import converted
from shipcalc.sheets.reading import read_workbook

DAY = date(2026, 12, 1)
# Four continents, islands at home and a border by road; every kind of term, currencies of 0, 2 and 3 decimals.
ORDERS = {
    "bremen": Order(vehicles=("HV-1027",), to="Bremen, Germany", currency="EUR"),
    "auckland": Order(
        vehicles=("HV-1081", "HV-1042"), to="Auckland, New Zealand", ocean="container", currency="NZD"
    ),
    "honolulu": Order(vehicles=("HV-1077",), to="Honolulu, HI"),
    "yokohama": Order(vehicles=("HV-1101",), to="Yokohama, Japan", currency="JPY"),
    "kuwait": Order(vehicles=("HV-1015",), to="Kuwait City, Kuwait", currency="KWD", term="CIF"),
    "santos": Order(vehicles=("HV-1031",), to="Santos, Brazil", term="FOB"),
    "southampton": Order(vehicles=("HV-1192",), to="Southampton, United Kingdom", term="DDP", currency="GBP", cover="A"),
    "toronto": Order(vehicles=("HV-1191",), to="Toronto, Canada", currency="CAD"),
    "durban": Order(vehicles=("HV-1004",), to="Durban, South Africa", term="EXW"),
}  # fmt: skip


@pytest.fixture(scope="module")
def quotes() -> dict[str, Quote]:
    sources = invented_sources()
    books = open_books(sources)
    return {name: quote(order, sources, as_of=DAY, books=books) for name, order in ORDERS.items()}


@pytest.fixture(scope="module")
def written(quotes, tmp_path_factory):
    """The buyer's, the office's and the checklist's workbook of every quote, on both papers in turn."""
    folder = tmp_path_factory.mktemp("overseas")
    for number, (name, quoted) in enumerate(quotes.items()):
        paper = ("letter", "a4")[number % 2]
        every = range(len(quoted.options))
        write_buyer_workbook(for_buyer(quoted), folder / f"buyer-{name}.xlsx", choices=every, paper=paper)
        write_buyer_workbook(quoted, folder / f"short-{name}.xlsx", paper=paper)
        write_office_workbook(quoted, folder / f"office-{name}.xlsx", paper=paper)
        write_checklist_workbook(quoted, quoted.recommended, folder / f"checklist-{name}.xlsx", paper=paper)
    return folder


@pytest.fixture(scope="module")
def computed(written, recalculate):
    return recalculate([path for path in sorted(written.glob("*.xlsx")) if path.name.startswith(("buyer", "office"))])


def test_the_sample_has_what_overseas_quotes_can_have(quotes) -> None:
    options = [option for quoted in quotes.values() for option in quoted.options]
    assert {option.ocean for option in options} == {"roro", "container", None}
    assert {option.term for option in options} >= {"EXW", "FOB", "CIF", "DAP", "DDP"}
    assert {charge.unit for option in options for charge in option.charges} >= {"mi", "%", "lump", "W/M", "container"}
    assert {len(quoted.vehicles) for quoted in quotes.values()} == {1, 2}
    assert any(len(option.imports) == 2 for option in options)
    assert any(not option.imports for option in options)
    assert max(len(quoted.options) for quoted in quotes.values()) > 4


def test_every_line_and_total_is_computed_to_the_cent_elsewhere(quotes, computed, amounts_shown) -> None:
    for name, quoted in quotes.items():
        amounts_shown.check_buyer(computed[f"buyer-{name}.xlsx"], quoted)
        amounts_shown.check_office(computed[f"office-{name}.xlsx"], quoted)


def sheet_of(book, quoted: Quote, index: int):
    return book.find_sheet("Line by line" if index == quoted.recommended else f"Choice {index + 1}")


def test_every_choice_comes_to_the_same_altogether_landed_and_in_the_buyers_currency(
    quotes, computed, amounts_shown
) -> None:
    for name, quoted in quotes.items():
        book = computed[f"buyer-{name}.xlsx"]
        for index, option in enumerate(quoted.options):
            found = {str(row[1]): row[5] for row in sheet_of(book, quoted, index).rows if row[1] and row[5] is not None}

            def shown(label: str, currency: str, found=found) -> Decimal:
                return amounts_shown.seen(
                    next(sum_ for text, sum_ in found.items() if text.startswith(label)), currency
                )

            if option.buyer_pays_locally:
                assert shown("Altogether: ", quoted.currency) == altogether(option), name
            if option.landed is not None:
                assert shown("Landed: ", quoted.currency) == option.landed, name
            if quoted.exchange:
                theirs = quoted.exchange.currency
                assert shown("Total in ", theirs) == option.converted.total, name
                if option.buyer_pays_locally:
                    assert shown("Altogether in ", theirs) == converted(altogether(option), quoted.exchange), name
                if option.landed is not None:
                    assert shown("Landed in ", theirs) == option.converted.landed, name


def test_the_front_has_the_estimates_as_every_face_rounds_them(quotes, computed, amounts_shown) -> None:
    for name, quoted in quotes.items():
        rows = [row for row in computed[f"buyer-{name}.xlsx"].find_sheet("Offer").rows if str(row[0]).isdecimal()]
        if any(option.buyer_pays_locally for option in quoted.options) and len(quoted.options) > 1:
            shown = [amounts_shown.seen(row[4], quoted.currency) for row in rows]
            assert shown == [rounded(altogether(option)) for option in quoted.options], name


def test_both_treatments_by_the_customs_stand_side_by_side_with_their_criteria(quotes, computed, amounts_shown) -> None:
    quoted, book = quotes["bremen"], computed["buyer-bremen.xlsx"]
    for index, option in enumerate(quoted.options):
        rows = sheet_of(book, quoted, index).rows
        together = next(row for row in rows if row[0] == "Together")
        ordinary, collector = option.imports
        assert (ordinary.treatment, collector.treatment) == ("ordinary", "collector")
        assert amounts_shown.seen(together[4], "USD") == ordinary.amount
        assert amounts_shown.seen(together[5], "USD") == collector.amount
        less = next(row for row in rows if row[0] == "To pay less as a collector's piece")
        assert amounts_shown.seen(less[5], "USD") == ordinary.amount - collector.amount
    said = " ".join(str(row[0]) for row in rows)
    assert quoted.options[0].imports[1].criteria.rstrip(".")[1:] in said
    assert "licensed customs broker" in said


@pytest.mark.parametrize("name", ORDERS)
def test_the_buyers_file_answers_in_order_and_holds_nothing_of_the_offices(name, quotes, written) -> None:
    quoted = quotes[name]
    book = read_workbook(written / f"buyer-{name}.xlsx")
    said = [row[0] for row in book.find_sheet("Offer").rows]
    places = [
        said.index(text)
        for text in ("Price", "There by", "Also to pay", "Not included", "How it travels", "How to accept")
    ]
    assert places == sorted(places)
    everything = " ".join(str(cell) for sheet in book.sheets for row in sheet.rows for cell in row if cell is not None)
    private = {leg.carrier for option in quoted.options for leg in option.legs if not leg.carrier_named}
    assert not any(carrier in everything for carrier in private)
    assert not re.search(r"margin|\.xlsx|\bour cost", everything)
    for entry in quoted.left_out:
        assert entry.reason not in everything


@pytest.mark.parametrize("name", ORDERS)
def test_the_buyers_data_name_no_cell_and_no_cost(name, quotes) -> None:
    whole, told = quote_to_json(quotes[name]), quote_to_json(for_buyer(quotes[name]))
    assert "overseas.xlsx" in whole or "trucking.xlsx" in whole
    assert ".xlsx" not in told
    assert not re.search(r'"(cost|total_cost)": [^n]', told)
    assert for_buyer(for_buyer(quotes[name])) == for_buyer(quotes[name])


@pytest.mark.parametrize("name", ORDERS)
def test_no_amount_is_typed_in(name, written) -> None:
    sheets = openpyxl.load_workbook(written / f"buyer-{name}.xlsx")
    lines = sheets["Line by line"]
    head = next(row[0].row for row in lines.iter_rows() if row[0].value == "Line")
    for cells in lines.iter_rows(min_row=head + 1, max_col=6):
        value = cells[5].value
        is_price = str(cells[1].value).startswith("Price of the vehicle")
        assert not isinstance(value, int | float) or is_price, cells[1].value


def test_what_the_buyer_pays_to_others_has_no_cost_and_no_margin_in_the_office(quotes) -> None:
    """It is the check of the office's workbook above; here that the terminal says the same."""
    quoted = quotes["santos"]
    lines = quote_lines(quoted, Look(), chosen=quoted.recommended, for_office=True)
    at = lines.index("Stage\tWhat the buyer pays to others (estimate)\t\tUSD")
    option = quoted.options[quoted.recommended]
    own = [charge for charge in option.charges if charge.payer == "buyer"]
    for charge, line in zip(own, lines[at + 1 :], strict=False):
        assert line.split("\t")[0] == stage_title(charge.stage, option)
        assert line.split("\t")[3:] == [f"{charge.amount:,}"]
    assert lines[at + 1 + len(own)] == f"\tTotal\t\t{option.buyer_pays_locally:,}"


@pytest.mark.parametrize("name", ORDERS)
@pytest.mark.parametrize("width", [60, 80, 100])
def test_the_terminal_keeps_its_width_and_answers_first_what_is_asked_first(name, width, quotes) -> None:
    quoted = for_buyer(quotes[name])
    for chosen, option in enumerate(quoted.options):
        lines = quote_lines(quoted, Look(width=width), chosen=chosen, for_office=False)
        assert max(map(len, lines)) <= max(width, 80), max(lines, key=len)
        table = next(n for n, line in enumerate(lines) if line.strip().startswith("Choices "))
        first = [line.strip().split("  ")[0] for line in lines[:table]]
        labels = ("Price", "There by", "Also to pay", "Altogether", "Not included", "Delivered under", "Covered")
        assert [label for label in first if label in labels] == list(labels)
        price = next(line for line in lines if line.lstrip().startswith("Price"))
        assert f"{option.total:,} USD" in price
        assert "what choice" not in " ".join(lines[:5])


def test_the_terminal_in_a_pipe_has_a_column_for_each_currency_and_names_the_stage_of_every_line(quotes) -> None:
    quoted = for_buyer(quotes["yokohama"])
    lines = quote_lines(quoted, Look(), chosen=quoted.recommended, for_office=False)
    head = next(line for line in lines if line.startswith("\tChoices\t"))
    assert head.split("\t")[2:] == ["USD", "JPY", "to others USD", "to others JPY", "altogether", "picked up",
                                    "delivered"]  # fmt: skip
    option = quoted.options[quoted.recommended]
    assert f"{option.converted.total:,}" in lines[lines.index(head) + 1 + quoted.recommended].split("\t")
    staged = [line.split("\t")[0] for line in lines if line.count("\t") == 3]
    assert "The carriage by sea" in staged


@pytest.mark.parametrize("name", ORDERS)
def test_the_message_says_the_sums_the_term_and_where_the_risk_passes(name, quotes) -> None:
    quoted = quotes[name]
    told, option = buyer_message(quoted), quoted.options[quoted.recommended]
    assert wording.money(option.total, "USD") in told
    assert f"{option.term} {option.term_place} (Incoterms 2020) means: " in told
    assert option.risk_passes in told
    for other in quoted.options:
        assert wording.money(other.total, "USD") in told
        assert f"there by {wording.day(other.dates.delivery[1])}" in told
    lines = [line.partition(":")[0] for line in told.splitlines() if line[:4].strip(" .").isdigit()]
    assert len({line.partition(". ")[2] for line in lines}) == len(lines) == len(quoted.options), "told apart"
    if option.buyer_pays_locally:
        assert f"Altogether you pay about {wording.money_told(rounded(altogether(option)), 'USD')}" in told
    if quoted.exchange:
        assert wording.money(option.converted.total, quoted.exchange.currency) in told


MOST_PAGES, MOST_OFFICE_PAGES = 5, 6


def test_pages_are_neither_empty_nor_clipped(written, quotes, printed) -> None:
    names = ("bremen", "auckland", "honolulu", "yokohama", "toronto")
    pages = printed([written / f"{kind}-{name}.xlsx" for name in names for kind in ("short", "office", "checklist")])
    for file, texts in pages.items():
        for number, text in enumerate(texts, start=1):
            assert "###" not in text, (file, number)
            assert len(text.split()) > 20, f"{file}: page {number} is all but empty"
    for name in names:
        shorts = pages[f"short-{name}.xlsx"]
        for said in ("Price", "There by", "Also to pay", "Not included", "How it travels", "How to accept"):
            assert said in shorts[0], (name, said)
        assert len(shorts) <= MOST_PAGES, name
        assert len(pages[f"office-{name}.xlsx"]) <= MOST_OFFICE_PAGES, name


def test_the_way_is_told_leg_by_leg_with_its_countries_and_passages(quotes, written) -> None:
    """Bremerhaven from the North Pacific coast goes by Panama, as any atlas shows; passages are named where there are any."""
    for name in ("bremen", "yokohama"):
        rows = read_workbook(written / f"buyer-{name}.xlsx").find_sheet("Offer").rows
        said = " ".join(str(cell) for row in rows for cell in row if cell is not None)
        best = quotes[name].options[quotes[name].recommended]
        for leg in best.legs:
            assert wording.sentence_case(wording.way(leg, best)) in said
    tacoma = next(o for o in quotes["bremen"].options if o.legs[1].from_.name == "Tacoma")
    assert "the Panama Canal" in wording.passages(tacoma.legs[1])
    assert wording.place(quotes["bremen"].to) == "Bremen, Germany"
    assert "Sea lanes" not in buyer_message(quotes["yokohama"])
