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

    assert [told(rate)[2:] for rate in found.rates] == [
        ("WA", "WA", "500"),
        ("WA", "TX", "1500"),
        ("TX", "WA", "1490"),
        ("TX", "TX", "520"),
    ]
    assert not found.questions
    # The states without some of their ZIPs are nothing that a lane can say: that zone is named, in the legend and where it stands.
    assert {item.where for item in found.left_out} == {"Legend!B3", "Rates!C4", "Rates!A6"}


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
