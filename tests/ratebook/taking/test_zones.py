"""Tables of zone × zone, the zones explained on another sheet. Mails made up here."""

import pytest

from .reading import told, understood, workbook

HEAD = [("Coastal Wren Carriers LLC",), ("USD, fuel included, open transport, valid December 2026",), ()]
LEGEND = {"Legend": [("Zone", "States"), ("A", "WA"), ("B", "AZ, NV (ex Reno 894-895)"), ("C", "TX")]}


@pytest.mark.parametrize("word", ["", "Zone "])
@pytest.mark.parametrize("corner", ["From / To", "Origin zone → Dest zone"])
def test_zones_across_and_down_are_those_of_the_legend_and_need_no_question(tmp_path, word, corner):
    head = (corner, *(f"{word}{name}" for name in "ABC"))
    rows = [head, (f"{word}A", 500, 900, 1500), (f"{word}B", 910, 450, 1100), (f"{word}C", 1490, 1080, 520)]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *rows], more=LEGEND))

    a, b, c = (f"Coastal Wren Carriers zone {name}" for name in "ABC")
    assert [told(rate)[2:] for rate in found.rates if rate.target == "Lanes"] == [
        (a, a, "500"),
        (a, b, "900"),
        (a, c, "1500"),
        (b, a, "910"),
        (b, b, "450"),
        (b, c, "1100"),
        (c, a, "1490"),
        (c, b, "1080"),
        (c, c, "520"),
    ]
    # A state without some of its ZIPs is the others of it; of the state beside it nothing is excepted.
    areas = [(rate.label, rate.end.text) for rate in found.rates if rate.target == "Areas"]
    assert areas == [(a, "WA"), (b, "AZ"), (b, "889-893"), (b, "896-898"), (c, "TX")]
    assert not found.questions
    assert not found.left_out


def test_zones_that_nothing_explains_are_named_and_not_asked_for_one_by_one(tmp_path):
    rows = [("From / To", "Zone A", "Zone B"), ("Zone A", 500, 900), ("Zone B", 910, 450)]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *rows]))

    assert not found.rates
    assert not found.questions
    assert {item.where for item in found.left_out} >= {"Rates!B4", "Rates!C4", "Rates!A5", "Rates!A6"}


def test_rows_of_figures_that_look_like_a_number_to_call_are_told(tmp_path):
    rows = [*HEAD, ("Level", "one", "two", "three"), ("low", 500, 900, 1500), ("high", 910, 450, 1100)]
    found = understood(workbook(tmp_path / "a.xlsx", rows))

    assert {item.where for item in found.left_out} >= {"Rates!A5", "Rates!A6"}


def test_a_legend_above_a_matrix_ends_at_the_blank_row_and_no_price_is_taken_for_a_zip(tmp_path):
    legend = [("Zone", "States"), ("A", "WA, OR"), ("B", "CA"), ()]
    rows = [("From/To", "A", "B"), ("A", 500, 700), ("B", 720, 450)]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *legend, *rows]))

    ends = {rate.end.text for rate in found.rates if rate.target == "Areas"}
    assert ends == {"WA", "OR", "CA"}
    assert [str(rate.flat) for rate in found.rates if rate.target == "Lanes"] == ["500.0", "700.0", "720.0", "450.0"]


def test_zones_explained_in_lines_are_areas_too(tmp_path):
    rows = [("Zone A: WA, OR",), ("Zone B: CA",), (), ("From zone", "To zone", "Rate"), ("A", "B", 700)]
    found = understood(workbook(tmp_path / "a.xlsx", [*HEAD, *rows]))

    lanes = [told(rate)[2:] for rate in found.rates if rate.target == "Lanes"]
    assert lanes == [("Coastal Wren Carriers zone A", "Coastal Wren Carriers zone B", "700")]
