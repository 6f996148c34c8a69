"""The sheet Lanes: how its ends are read, how specific they are, and the slips that a manager makes in it."""

from datetime import date

import pytest

from shipcalc.ratebook.checks.lanes import CHECKS
from shipcalc.ratebook.lane_ends import areas_by_name, find_end, prefixes
from shipcalc.ratebook.rows.areas import Area
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.lanes import LaneRow
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.rows.yards import Terminal
from shipcalc.ratebook.workbook.cells import value_of
from shipcalc.ratebook.workbook.columns import RowRef, columns_of
from shipcalc.ratebook.workbook.misread import Doubt, Misread

END = columns_of(LaneRow)["to_end"]
LETTERS = dict(zip(columns_of(LaneRow), "ABCDEFGHIJKLMNOPQRST", strict=False))
TERMINAL_LETTERS = dict(zip(columns_of(Terminal), "ABCDEFGHI", strict=True))
AREAS = (
    Area(area="Hills", state="MT"),
    Area(area="Hills", state="ID"),
    Area(area="Peaks", zip_from="597", zip_to="599"),
    Area(area="Plains", state="MT", zip_from="592"),
)
CARRIERS = tuple(Carrier(carrier="Tern Haulage", trailer=trailer, cover_minor=1) for trailer in ("open", "enclosed"))


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("59715", "59715"),
        ("59715-1234", "59715"),
        (" 597 ", "597"),
        ("597xx", "597"),
        ("597**", "597"),
        ("590-599", "590-599"),
        ("590 – 599", "590-599"),
        ("590 to 599", "590-599"),
        ("597-597", "597"),
        ("mt", "MT"),
        ("us-mt", "US-MT"),
        ("Bozeman , mt", "Bozeman, MT"),
        ("yard  North", "yard North"),
        ("USSEA", "USSEA"),
        ("Northwest", "Northwest"),
        (59715, "59715"),
    ],
)
def test_an_end_is_read_however_it_is_typed(typed, read):
    assert value_of(typed, END, "USD") == read


@pytest.mark.parametrize("typed", ["5971X5", "59-1", "599-590", date(2026, 5, 9), True, "590-59999", 12345.5])
def test_what_is_no_end_is_refused(typed):
    with pytest.raises(Misread):
        value_of(typed, END, "USD")


def test_a_number_that_lost_its_zero_is_doubted():
    found = value_of(2139, END, "USD")
    assert isinstance(found, Doubt)
    assert found.value == "02139"


@pytest.mark.parametrize(
    ("first", "last"),
    [("590", "599"), ("59715", "59715"), ("0", "9"), ("591", "597"), ("00501", "00544"), ("09", "10")],
)
def test_first_figures_hold_just_the_zips_of_a_range(first, last):
    low, high = int(first.ljust(5, "0")), int(last.ljust(5, "9"))
    held = [code for figures in prefixes(first, last) for code in range(*bounds(figures))]
    assert sorted(held) == list(range(low, high + 1))


def bounds(figures):
    return int(figures.ljust(5, "0")), int(figures.ljust(5, "9")) + 1


def test_ends_from_the_most_specific_to_the_least():
    """The order of the table in `lane_ends.py`; it is the program's own, so that there is no source beside it."""
    order = ["yard North", "59715", "Bozeman, MT", "5971", "597", "Peaks", "MT", "Hills", "Canada", None]
    points = [find_end(text, areas_by_name(AREAS)).points for text in order]
    assert points == sorted(points, reverse=True)
    assert find_end("USSEA", {}).points == 9
    assert find_end("591-599", {}).points == find_end("Plains", areas_by_name(AREAS)).points == 4


def test_a_terminal_is_named_as_on_its_sheet_or_with_the_word_before_it():
    ends = [find_end(text, {}) for text in ("Denver terminal", "terminal Denver", "TERMINAL  denver")]
    assert {(end.points, end.pieces) for end in ends} == {(9, (("terminal", "denver"),))}
    assert find_end("Terminal Island, CA", {}).kind == "city"
    assert find_end("Terminal", {}) is None
    assert find_end("North terminal", areas_by_name([Area(area="North terminal", state="WA")])).kind == "area"


def test_two_letters_are_a_state_before_a_country():
    kinds = {text: find_end(text, {}).kind for text in ("CA", "DE", "MX", "country CA", "Canada", "BC", "CA-BC")}
    assert kinds == {
        "CA": "state", "DE": "state", "MX": "country", "country CA": "country", "Canada": "country", "BC": "state", "CA-BC": "state",
    }  # fmt: skip
    assert find_end("CA", {}).pieces == (("state", "US-CA"),)


def lane(number=2, **cells):
    price = {} if {"flat_minor", "rate_e4", "percent_ppm", "minimum_minor"} & set(cells) else {"flat_minor": 100_00}
    at = RowRef("trucking.xlsx", "Lanes", number, LETTERS)
    return LaneRow(
        at=at, **{"carrier": "Tern Haulage", "trailer": "open", "from_end": "WA", "to_end": "MT"} | price | cells
    )


def told(*rows):
    rates = (Currency(currency="CAD", as_of=date(2026, 11, 23), rate=1.37),)
    terminals = (
        Terminal(
            at=RowRef("trucking.xlsx", "Terminals", 2, TERMINAL_LETTERS), terminal="Denver terminal", zip_code="80239"
        ),
        Terminal(
            at=RowRef("trucking.xlsx", "Terminals", 3, TERMINAL_LETTERS),
            terminal="Lot 9",
            zip_code="83705",
            carriers=("Gull",),
        ),
    )
    tables = Tables(carriers=CARRIERS, areas=AREAS, lanes=rows, currencies=rates, terminals=terminals)
    return [f"{one.cell.partition('!')[2]}: {one.message}" for check in CHECKS for one in check(tables)]


@pytest.mark.parametrize(
    ("cells", "says"),
    [
        ({"flat_minor": None}, "E2: the row has no price"),
        ({"flat_minor": 1, "rate_e4": 1}, "F2: the row has two kinds of price"),
        ({"flat_minor": 1, "minimum_minor": 1}, "G2: a minimum beside a sum or a percentage is never asked for"),
        ({"percent_ppm": -1_000_000}, "H2: nothing would be left of the price"),
        (
            {"percent_ppm": 1, "fuel_included": True},
            "J2: only a price of its own can include the fuel: this row changes the carrier's prices a mile",
        ),
        (
            {"to_end": "Hils"},
            'D2: "Hils" is no area of the sheet Areas, and no ZIP, city with its state, state, port or country',
        ),
        ({"to_end": "Denvr terminal"}, 'D2: there is no "Denvr terminal" on the sheet Terminals'),
        ({"from_end": "terminal Lot 9"}, 'C2: Tern Haulage does not go to "Lot 9": Terminals!C3'),
        ({"trailer": "driven"}, 'B2: "Tern Haulage" has no driven trailer on the sheet Carriers'),
        ({"currency": "NOK"}, 'I2: there is no rate for "NOK" on the sheet Currencies (overseas.xlsx)'),
    ],
)
def test_a_slip_in_a_row_is_told_by_its_cell(cells, says):
    assert told(lane(**cells)) == [says]


def test_sound_rows_are_said_nothing_of():
    assert not told(lane(currency="cad"), lane(3, rate_e4=1, minimum_minor=1, to_end="59715"), lane(4, percent_ppm=-1))
    assert not told(lane(to_end="Denver terminal"), lane(3, to_end="80239"), lane(4, from_end="terminal Denver"))


TWIN = "A3: the row at Lanes!A2 meets the same shipments and is as specific"


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ({}, {}),
        ({"to_end": "590-593"}, {"to_end": "592-595"}),
        ({"to_end": "Hills"}, {"to_end": "hills"}),
        ({"from_end": "WA", "to_end": "MT", "both_ways": True}, {"from_end": "MT", "to_end": "WA"}),
        ({"from_end": "MT", "to_end": "WA"}, {"from_end": "WA", "to_end": "MT", "both_ways": True}),
        ({"from_end": "WA", "to_end": "59715", "both_ways": True}, {"from_end": "59715", "to_end": "WA"}),
        ({"trailer": None}, {"trailer": None}),
        ({"valid_to": date(2026, 12, 31)}, {"valid_from": date(2026, 12, 31)}),
    ],
)
def test_of_two_rows_as_specific_for_one_shipment_the_second_is_a_fault(first, second):
    assert told(lane(**first), lane(3, **second)) == [TWIN]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ({}, {"to_end": "59715"}),
        ({"to_end": "590-593"}, {"to_end": "594-597"}),
        ({"to_end": "590-593"}, {"to_end": "590-595"}),
        ({"trailer": "open"}, {"trailer": None}),
        ({"trailer": "open"}, {"trailer": "enclosed"}),
        ({"valid_to": date(2026, 12, 31)}, {"valid_from": date(2027, 1, 1)}),
        ({"flat_minor": 1}, {"percent_ppm": 1}),
        ({"from_end": "WA", "to_end": "59715"}, {"from_end": "98225", "to_end": "MT"}),
        ({"from_end": "WA", "to_end": "59715", "both_ways": True}, {"from_end": "MT", "to_end": "98225"}),
    ],
)
def test_rows_of_which_one_is_more_specific_may_stand_together(first, second):
    assert told(lane(**first), lane(3, **second)) == []
