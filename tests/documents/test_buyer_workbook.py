import re
import zipfile
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

import openpyxl
import pytest

from shipcalc.documents.buyer.workbook import write_buyer_workbook
from shipcalc.documents.offer.landing import deposit_percent
from shipcalc.documents.office.workbook import write_office_workbook
from shipcalc.documents.wording import by_choice
from shipcalc.quote.buyer import for_buyer
from shipcalc.quote.model import Exchange, Quote
from shipcalc.records import replace
from shipcalc.sheets.reading import read_workbook

HOSTILE = ('=HYPERLINK("http://evil.invalid","prize")', "+1+1", "-2+3", "@SUM(A1:A9)", "=cmd|'/c calc'!A0")


def everything_in(path) -> str:
    with zipfile.ZipFile(path) as archive:
        return "\n".join(archive.read(name).decode() for name in archive.namelist() if name.endswith((".xml", ".rels")))


def texts(path) -> list[str]:
    return [cell for sheet in read_workbook(path).sheets for row in sheet.rows for cell in row if isinstance(cell, str)]


def test_the_buyers_file_holds_no_trace_of_what_is_the_offices(any_quote: Quote, tmp_path) -> None:
    write_buyer_workbook(any_quote, tmp_path / "quote.xlsx")
    inside = everything_in(tmp_path / "quote.xlsx")
    for option in any_quote.options:
        assert option.legs[0].carrier not in inside
    assert "trucking" not in inside
    assert any_quote.rate_book.fingerprint not in inside
    for entry in any_quote.left_out:
        assert entry.carrier not in inside
    assert not [
        text for text in texts(tmp_path / "quote.xlsx") if re.search(r"margin|markup|mark-up|our cost", text, re.I)
    ]


def test_no_cost_stands_in_the_buyers_file_under_any_number(any_quote: Quote, tmp_path) -> None:
    write_buyer_workbook(any_quote, tmp_path / "quote.xlsx")
    numbers = set(re.findall(r"(?<=<v>)-?[\d.]+(?=</v>)", everything_in(tmp_path / "quote.xlsx")))
    shown = {Decimal(number) for number in numbers}
    charges = [charge for option in any_quote.options for charge in option.charges]
    sold = {figure for c in charges for figure in (c.amount, c.quantity, c.rate)}
    sold |= {option.buyer_pays_locally for option in any_quote.options}
    costs = {c.cost.amount for c in charges if abs(c.cost.amount) > 20} | {o.total_cost for o in any_quote.options}
    assert costs - sold, "the sample has costs that differ from its prices"
    assert (costs - sold) & shown == set()
    assert {option.total for option in any_quote.options} <= shown


def test_the_buyers_file_hides_nothing(any_quote: Quote, tmp_path) -> None:
    write_buyer_workbook(any_quote, tmp_path / "quote.xlsx")
    book = openpyxl.load_workbook(tmp_path / "quote.xlsx")
    assert book.sheetnames == ["Offer", "Line by line", "Good to know"]
    assert not list(book.defined_names)
    for sheet in book:
        assert sheet.sheet_state == "visible"
        assert not any(dimension.hidden for dimension in sheet.column_dimensions.values())
        assert not any(dimension.hidden for dimension in sheet.row_dimensions.values())
        assert not any(cell.comment or cell.hyperlink for row in sheet.iter_rows() for cell in row)


def test_a_quote_already_reduced_gives_the_same_bytes(two_choices: Quote, tmp_path) -> None:
    write_buyer_workbook(two_choices, tmp_path / "whole.xlsx")
    write_buyer_workbook(for_buyer(two_choices), tmp_path / "reduced.xlsx")
    assert (tmp_path / "whole.xlsx").read_bytes() == (tmp_path / "reduced.xlsx").read_bytes()


def test_the_properties_name_the_dealer_and_the_day_of_the_quote(two_choices: Quote, tmp_path) -> None:
    write_buyer_workbook(two_choices, tmp_path / "quote.xlsx")
    properties = openpyxl.load_workbook(tmp_path / "quote.xlsx").properties
    assert properties.creator == properties.lastModifiedBy == "Heron & Vale Motors"
    assert properties.created.date() == properties.modified.date() == date(2026, 12, 1)
    assert "openpyxl" not in everything_in(tmp_path / "quote.xlsx")


def test_the_first_face_answers_in_order_how_much_when_what_else_and_what_is_not_included(
    two_choices, tmp_path
) -> None:
    write_buyer_workbook(two_choices, tmp_path / "quote.xlsx")
    said = [row[0] for row in read_workbook(tmp_path / "quote.xlsx").sheets[0].rows]
    asked = (
        "Price",
        "There by",
        "Also to pay",
        "Not included",
        "To book",
        "Your choices",
        "How it travels",
        "When it happens",
        "How to accept",
    )
    places = [said.index(text) for text in asked]
    assert places == sorted(places)


def test_the_buyers_first_page_has_no_words_of_the_trade_alone_and_nothing_odd(any_quote, tmp_path) -> None:
    write_buyer_workbook(any_quote, tmp_path / "quote.xlsx")
    said = " ".join(str(cell) for row in read_workbook(tmp_path / "quote.xlsx").sheets[0].rows for cell in row)
    for word in ("W/M", "BAF", "CAF", "49 CFR 395", "unless a line", "Rounding", "Everything else", "straight line"):
        assert word not in said, word


def test_what_decides_stands_above_the_price_and_what_the_buyer_must_bring_is_listed(two_choices, tmp_path) -> None:
    options = tuple(
        replace(o, before_price=("It may be barred.",), needed_from_buyer=("Your name.",)) for o in two_choices.options
    )
    write_buyer_workbook(replace(two_choices, options=options), tmp_path / "quote.xlsx")
    book = read_workbook(tmp_path / "quote.xlsx")
    said = [row[0] for row in book.sheets[0].rows]
    assert said.index("It may be barred.") < said.index("Price")
    needed = [row[1] if row[0] == "–" else row[0] for row in book.find_sheet("Good to know").rows]
    assert needed.index("What we need from you") < needed.index("Your name.") < needed.index("The terms in plain words")


def test_the_recommended_choice_is_marked_in_words(two_choices: Quote, tmp_path) -> None:
    write_buyer_workbook(two_choices, tmp_path / "quote.xlsx")
    said = [str(row[0]) for row in read_workbook(tmp_path / "quote.xlsx").sheets[0].rows]
    assert f"We recommend choice {two_choices.recommended + 1}. {two_choices.reason}" in said


def test_the_front_takes_its_sums_from_the_lines_of_the_choices_that_have_a_sheet(two_choices: Quote, tmp_path) -> None:
    for asked in ((), (0, 1)):
        write_buyer_workbook(two_choices, tmp_path / "quote.xlsx", choices=asked)
        book = openpyxl.load_workbook(tmp_path / "quote.xlsx")
        prices = {int(row[0].value): row[4].value for row in book["Offer"].iter_rows() if str(row[0].value).isdecimal()}
        sheets = {two_choices.recommended: "Line by line", **({0: "Choice 1"} if asked else {})}
        for index, option in enumerate(two_choices.options):
            if index not in sheets:
                assert prices[index + 1] == pytest.approx(float(option.total))
                continue
            reference = re.fullmatch(rf"='{sheets[index]}'!\$F\$(\d+)", prices[index + 1])
            assert book[sheets[index]][f"F{reference[1]}"].value.startswith("=SUM(")


def test_other_choices_have_a_sheet_only_where_they_are_asked_for(any_quote: Quote, tmp_path) -> None:
    others = [f"Choice {n + 1}" for n in range(len(any_quote.options)) if n != any_quote.recommended]
    write_buyer_workbook(any_quote, tmp_path / "all.xlsx", choices=range(len(any_quote.options)))
    assert openpyxl.load_workbook(tmp_path / "all.xlsx").sheetnames == [
        "Offer",
        "Line by line",
        "Good to know",
        *others,
    ]
    write_buyer_workbook(any_quote, tmp_path / "best.xlsx", choices=[any_quote.recommended])
    assert openpyxl.load_workbook(tmp_path / "best.xlsx").sheetnames == ["Offer", "Line by line", "Good to know"]


def test_a_transport_at_home_is_shown_in_the_buyers_currency_too(two_choices: Quote, recalculate, tmp_path) -> None:
    """The total × 0.8665 × 1.015, rounded half up once, computed by the spreadsheet program from the rate on the page."""
    exchange = Exchange(
        currency="EUR", rate=Decimal("0.8665"), as_of=date(2026, 11, 23), buffer=Decimal("1.5"), source=""
    )
    write_buyer_workbook(replace(two_choices, exchange=exchange), tmp_path / "quote.xlsx", choices=(0, 1))
    book = recalculate([tmp_path / "quote.xlsx"])["quote.xlsx"]
    for name, option in zip(("Choice 1", "Line by line"), two_choices.options, strict=True):
        shown = next(row for _, row in book.find_sheet(name).filled_rows() if row[1] == "Total in euros (EUR)")
        theirs = (option.total * Decimal("0.8665") * Decimal("1.015")).quantize(Decimal("0.01"), ROUND_HALF_UP)
        assert Decimal(str(round(shown[5], 6))) == theirs


def test_no_amount_of_the_lines_is_typed_in(any_quote: Quote, tmp_path) -> None:
    for name, write in (("quote", write_buyer_workbook), ("office", write_office_workbook)):
        write(any_quote, tmp_path / f"{name}.xlsx")
        sheet = openpyxl.load_workbook(tmp_path / f"{name}.xlsx")["Line by line"]
        head = next(row[0].row for row in sheet.iter_rows() if row[0].value == "Line")
        amounts = [
            cell.value for (cell,) in sheet.iter_rows(min_row=head + 1, min_col=6, max_col=6) if cell.value is not None
        ]
        assert len(amounts) > len(any_quote.options[0].charges)
        assert all(isinstance(value, str) and value.startswith("=") for value in amounts)


def test_names_and_notes_that_begin_like_formulas_are_text(two_choices: Quote, tmp_path) -> None:
    first, second = two_choices.options
    charges = tuple(replace(c, label=HOSTILE[n % 5], note=HOSTILE[-1]) for n, c in enumerate(first.charges))
    hostile = replace(
        two_choices,
        buyer=HOSTILE[0],
        reason=HOSTILE[1],
        dealer=replace(two_choices.dealer, name=HOSTILE[4]),
        assumptions=HOSTILE,
        cautions=HOSTILE,
        options=(replace(first, title=HOSTILE[3], charges=charges, not_included=HOSTILE, warnings=HOSTILE), second),
    )
    for name, write in (("quote", write_buyer_workbook), ("office", write_office_workbook)):
        write(hostile, tmp_path / f"{name}.xlsx")
        for sheet in openpyxl.load_workbook(tmp_path / f"{name}.xlsx"):
            for row in sheet.iter_rows():
                for cell in row:
                    if cell.data_type == "f":
                        assert re.fullmatch(r"=[A-Z0-9$:,*+\-()/ ='<>\"]*|=.*'Line by line'!.*", cell.value), cell.value
                        assert not re.search("HYPERLINK|cmd", cell.value)
                    assert cell.hyperlink is None


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_every_sheet_prints_on_the_paper_asked_for(two_choices: Quote, paper, tmp_path) -> None:
    for write in (write_buyer_workbook, write_office_workbook):
        write(two_choices, tmp_path / "b.xlsx", paper=paper)
        for sheet in openpyxl.load_workbook(tmp_path / "b.xlsx"):
            assert sheet.page_setup.paperSize == {"letter": 1, "a4": 9}[paper]


def test_the_same_quote_gives_the_same_bytes(any_quote: Quote, tmp_path) -> None:
    for write in (write_buyer_workbook, write_office_workbook):
        write(any_quote, tmp_path / "once.xlsx")
        write(any_quote, tmp_path / "twice.xlsx")
        assert (tmp_path / "once.xlsx").read_bytes() == (tmp_path / "twice.xlsx").read_bytes()


@pytest.mark.parametrize(
    ("total", "deposit", "percent"),
    [("3830.00", "957.50", "25"), ("985.00", "197.00", "20"), ("100.10", "12.51", "12.5"), ("640000", "213333", "33.3333"),
     ("5000.00", "0.00", "0")],
)  # fmt: skip
def test_a_deposit_is_told_as_the_shortest_percentage_that_gives_it(two_choices, total, deposit, percent) -> None:
    option = replace(two_choices.options[0], total=Decimal(total), deposit=Decimal(deposit))
    assert deposit_percent(option, "USD" if "." in total else "JPY") == Decimal(percent)


def test_a_deposit_that_no_percentage_gives_is_a_sum(two_choices: Quote) -> None:
    option = replace(two_choices.options[0], total=Decimal("12345678901.00"), deposit=Decimal("500.01"))
    assert deposit_percent(option, "USD") is None


def test_sentences_that_hold_for_some_choices_name_them() -> None:
    lists = [
        ("Tax", "Cover above 100", "Storage"),
        ("Tax", "Cover above 200", "Storage"),
        ("Tax", "Cover above 200", "Storage"),
    ]
    assert by_choice(lists) == ["Tax", "Cover above 100 (choice 1)", "Cover above 200 (choices 2 and 3)", "Storage"]
