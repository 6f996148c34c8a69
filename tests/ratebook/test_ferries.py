"""What the check says of a row of the sheet Ferries."""

import pytest

from shipcalc.ratebook.checks.ferries import CHECKS
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import RowRef
from shipcalc.records import replace

AT = RowRef(
    "trucking.xlsx", "Ferries", 2, {"ferry": "A", "from_zip": "B", "to_zip": "C", "amount_minor": "E", "remark": "J"}
)
SOUND = Ferry(
    ferry="Car ferry Hyannis – Nantucket", from_zip="02601", to_zip="02554", amount_minor=420_00, source="invented", at=AT
)  # fmt: skip


def said(*rows: Ferry) -> list[str]:
    return [str(problem) for check in CHECKS for problem in check(Tables(ferries=rows))]


def test_a_sound_row_is_not_spoken_of() -> None:
    assert said(SOUND) == []


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"from_zip": "026"}, '"From ZIP" is not a whole ZIP'),
        ({"from_zip": "00000"}, "there is no ZIP 00000"),
        ({"to_zip": "98250"}, "02601 and 98250 are 2,5"),
        ({"crossing_nmi": 1.0, "to_zip": "02807"}, "miles apart, and the crossing is 1 sea miles"),
        ({"amount_minor": None}, "the ferry has no price"),
        ({"takes_vehicles": False, "amount_minor": None}, "nothing says what to do instead"),
        ({"source": None}, "the ferry has no source"),
    ],
)
def test_a_slip_is_told(change: dict[str, object], words: str) -> None:
    (told,) = said(replace(SOUND, **change))  # type: ignore[arg-type]
    assert words in told


def test_a_carriers_own_fare_stands_beside_the_ferrys_row() -> None:
    own = replace(SOUND, carrier="Tern Haulage", amount_minor=380_00)
    assert said(SOUND, own, replace(own, carrier="Gull")) == []
    assert "have no row without a carrier" in said(own)[0]
    assert "the same terminals stand already" in said(SOUND, own, replace(own, carrier="TERN HAULAGE"))[0]
    assert "a carrier's own row is a price" in said(SOUND, replace(own, takes_vehicles=False, remark="Ask."))[0]


def test_two_rows_for_one_ferry_are_told_whichever_way_they_run() -> None:
    (told,) = said(SOUND, replace(SOUND, ferry="Back", from_zip="02554", to_zip="02601"))
    assert "the same terminals stand already" in told
