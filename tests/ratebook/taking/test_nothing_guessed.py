"""What a mail does not say beyond doubt is named and not taken; nothing is left without a word. Mails made up here."""

from shipcalc.ratebook.taking.answers import Answers
from shipcalc.ratebook.taking.around import Known
from shipcalc.ratebook.taking.choosing import AT_SEA
from shipcalc.ratebook.taking.meanings import meaning_of
from shipcalc.ratebook.taking.page import read_mail
from shipcalc.ratebook.taking.understanding import understand

from .reading import told, understood, workbook

HEAD = [("Coastal Wren Carriers LLC",), ("USD, fuel included, open transport, valid December 2026",), ()]
NO_CURRENCY = [("Coastal Wren Carriers LLC",), ("Fuel included, open transport, valid December 2026",), ()]


def named(found, *, taken=False):
    return {item.where.removeprefix("Rates!"): item.why for item in found.left_out if item.is_taken == taken}


def test_a_zip_of_four_figures_typed_as_text_is_named_and_not_taken(tmp_path):
    rows = [*HEAD, ("Origin ZIP", "Dest ZIP", "Rate"), ("98109", "5980", 900), ("98109", "59801", 870)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [told(rate)[2:] for rate in found.rates] == [("98109", "59801", "870")]
    assert "four figures" in named(found)["B5"]


def test_a_zip_whose_zero_a_spreadsheet_dropped_is_read_and_told(tmp_path):
    # ZIPs of Massachusetts begin with 01 and 02, those of Washington with 98 (U.S. Postal Service, Publication 65).
    rows = [*HEAD, ("Origin ZIP", "Dest ZIP", "Rate"), (98109, 2139, 1900), (98109, 10001, 1850)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [told(rate)[2:] for rate in found.rates] == [("98109", "02139", "1900"), ("98109", "10001", "1850")]
    assert "lost its first zero" in named(found, taken=True)["B5"]


def test_a_number_of_four_figures_beside_a_state_without_such_zips_is_not_taken(tmp_path):
    head = ("Origin ZIP", "Dest State", "Dest ZIP", "Rate")
    rows = [*HEAD, head, (98109, "MT", 5980, 900), (98109, "VT", 5401, 1950), (98109, "NY", 10001, 1850)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert [told(rate)[3] for rate in found.rates] == ["05401", "10001"]
    assert "four figures" in named(found)["B5"]


def test_a_row_without_a_currency_among_rows_that_name_one_is_not_taken(tmp_path):
    head = ("From", "To", "Rate", "Currency")
    rows = [head, ("Seattle, WA", "Reno, NV", 900, "USD"), ("Seattle, WA", "Boise, ID", 700, None)]
    found = understood(workbook(tmp_path / "a.xlsx", [*NO_CURRENCY, *rows]))

    assert [(rate.flat, rate.currency) for rate in found.rates] == [(900, "USD")]
    assert "names no currency" in named(found)["C6"]


def test_a_price_that_names_its_currency_itself_needs_none_beside_it(tmp_path):
    head = ("From", "To", "Rate", "Currency")
    rows = [head, ("Seattle, WA", "Reno, NV", 900, "USD"), ("Seattle, WA", "Boise, ID", "EUR 700", None)]
    found = understood(workbook(tmp_path / "a.xlsx", [*NO_CURRENCY, *rows]))

    assert [(rate.flat, rate.currency) for rate in found.rates] == [(900, "USD"), (700, "EUR")]


def answered(path, **columns):
    """Return what is understood of a file when somebody said what stands under some headers."""
    columns = {header.replace("_", " "): words for header, words in columns.items()}
    return understand(read_mail(path), Answers({}, columns), Known())


TWO_COLUMNS = [
    *HEAD,
    ("From", "To", "Rate", "Level A"),
    ("Seattle, WA", "Reno, NV", 900, 870),
    ("Seattle, WA", "Boise, ID", None, 770),
]


def test_a_column_that_is_left_out_leaves_the_others_and_each_of_its_cells_is_named(tmp_path):
    found = answered(workbook(tmp_path / "a.xlsx", TWO_COLUMNS), Level_A="leave out")

    assert [told(rate)[3:] for rate in found.rates] == [("Reno, NV", "900")]
    assert not found.questions
    assert {cell: "left out by an answer" in why for cell, why in named(found).items()} == {"D5": True, "D6": True}


def test_a_table_of_which_all_prices_are_left_out_is_still_told_row_by_row(tmp_path):
    found = answered(workbook(tmp_path / "a.xlsx", TWO_COLUMNS), Level_A="leave out", Rate="leave out")

    assert not found.rates
    assert not found.questions
    assert named(found).keys() == {"C5", "D5", "D6"}


SEA = [
    ("Turnstone Ocean Lines",),
    ("USD, valid December 2026",),
    ("POL", "POD", "Level A"),
    ("Baltimore", "Bremerhaven", 940),
]


def test_what_a_column_of_a_freight_by_sea_may_be_is_no_trailer(tmp_path):
    path = workbook(tmp_path / "a.xlsx", SEA)
    (question,) = understood(path).questions

    assert question.choices == AT_SEA
    found = answered(path, Level_A="freight per vehicle, roro").rates
    assert [(rate.flat, rate.basis, rate.mode) for rate in found] == [(940, "per vehicle", "roro")]
    assert all(meaning_of(words).is_price for words in AT_SEA[:-1])


def test_what_a_freight_is_for_is_taken_from_the_answer(tmp_path):
    rows = [*SEA[:2], ("POL", "POD", "Ocean freight roro"), SEA[3]]
    path = workbook(tmp_path / "a.xlsx", rows)

    assert [question.key for question in understood(path).questions] == ["basis"]
    assert [rate.basis for rate in understood(path, answers={"basis": "per vehicle"}).rates] == ["per vehicle"]
