"""Where a charge falls, and when."""

from datetime import date

import numpy as np
import pytest

from shipcalc.places.road.miles import PlaceColumns
from shipcalc.pricing.areas import area_rows, has_area, lane_columns
from shipcalc.ratebook.decisions import holds
from shipcalc.ratebook.rows.areas import Area, Season
from shipcalc.records import replace

ISLES = Area(area="Foggy Isles", zip_from="98221", zip_to="98297")
PENINSULA = Area(area="Peninsula", state="WA", zip_from="983")
COASTS = (Area(area="Coasts", state="OR"), Area(area="Coasts", state="GA"))


def inside(place, areas, *texts: str, country: str = "US") -> list[list[bool]]:
    ends = PlaceColumns.of([place(text, country=country) for text in texts])
    lanes = lane_columns(ends, ends, np.full(len(texts), 10), areas)
    return lanes.at_delivery.T.tolist()


def test_a_range_of_zips_holds_both_its_ends(place) -> None:
    texts = ("A, WA 98220", "B, WA 98221", "C, WA 98250", "D, WA 98297", "E, WA 98298")
    assert inside(place, (ISLES,), *texts) == [[False, True, True, True, False]]


def test_the_beginning_of_a_zip_stands_for_all_zips_that_begin_so(place) -> None:
    texts = ("A, WA 98299", "B, WA 98300", "C, WA 98399", "D, WA 98400")
    assert inside(place, (PENINSULA,), *texts) == [[False, True, True, False]]


def test_a_range_of_beginnings_holds_all_of_the_last_one(place) -> None:
    area = Area(area="Sound", zip_from="980", zip_to="982")
    assert inside(place, (area,), "A, WA 97999", "B, WA 98000", "C, WA 98299", "D, WA 98300") == [
        [False, True, True, False]
    ]


def test_a_place_without_a_zip_is_in_no_range_of_zips(place) -> None:
    assert inside(place, (ISLES, PENINSULA, *COASTS), "Astoria, OR") == [[False], [False], [True], [False]]


def test_state_and_zip_must_both_fit(place) -> None:
    assert inside(place, (replace(PENINSULA, state="OR"),), "Sequim, WA 98382") == [[False]]


def test_an_area_is_in_one_country(place) -> None:
    assert inside(place, (Area(area="All", country="CA"),), "Tofino, BC V0R2Z0", country="CA") == [[True]]
    assert inside(place, (Area(area="All"),), "Tofino, BC V0R2Z0", country="CA") == [[False]]


def test_rows_of_one_name_add_up_whatever_the_case(place) -> None:
    ends = PlaceColumns.of([place("Astoria, OR"), place("Sequim, WA 98382"), place("Tybee, GA 31328")])
    lanes = lane_columns(ends, ends, np.array([1, 2, 3]), COASTS)
    assert has_area(lanes.at_delivery, area_rows(COASTS, ("cOASTS",))).tolist() == [True, False, True]


@pytest.mark.parametrize(("end", "added"), [("pickup", 9_00), ("delivery", 0), ("both", 9_00)])
def test_a_charge_falls_at_the_end_it_names(make_book, totals, end: str, added: int) -> None:
    """The trip begins in Washington and ends in Georgia; the charge is Washington's."""
    area = Area(area="Rainy side", state="WA", applies_at=end, charge="flat", amount_minor=9_00)
    assert totals(make_book(areas=(area,)), [100]) == [100_00 + added]


def test_a_trip_within_an_area_pays_at_both_ends(make_book, price) -> None:
    area = Area(area="Rainy side", state="WA", applies_at="both", charge="percent", percent_ppm=10_000)
    within = price(make_book(areas=(area,)), [100], to="Spokane, WA 99201")
    assert [(line.label, int(line.amount[0, 0])) for line in within.lines[1:]] == [
        ("Rainy side (pickup)", 1_00),
        ("Rainy side (delivery)", 1_00),
    ]


def test_an_area_may_charge_by_the_mile(make_book, totals) -> None:
    area = Area(area="Peaches", state="GA", applies_at="delivery", charge="per mile", rate_e4=500)
    assert totals(make_book(areas=(area,)), [100, 1_000]) == [105_00, 1_050_00]


MISTLETOE = Season(
    season="Mistletoe",
    label="Over New Year",
    first_day=date(2026, 12, 20),
    last_day=date(2027, 1, 6),
    percent_ppm=100_000,
)
HERRING = replace(MISTLETOE, season="Herring", first_day=date(2026, 4, 1), last_day=date(2026, 4, 30))


@pytest.mark.parametrize(
    ("day", "held"),
    [
        ((2026, 12, 19), False),
        ((2026, 12, 20), True),
        ((2026, 12, 31), True),
        ((2027, 1, 1), True),
        ((2027, 1, 6), True),
        ((2027, 1, 7), False),
        ((2030, 12, 25), True),
        ((2026, 7, 1), False),
        ((2028, 2, 29), False),
    ],
)
def test_a_yearly_season_runs_over_new_year(day: tuple[int, int, int], held: bool) -> None:
    assert holds(MISTLETOE, {"day": date(*day)}, "day") is held


def test_a_season_within_a_year_returns_every_year_unless_it_is_for_once() -> None:
    days = [date(2026, 3, 31), date(2026, 4, 1), date(2026, 4, 30), date(2026, 5, 1), date(2031, 4, 15)]
    assert [holds(HERRING, {"day": day}, "day") for day in days] == [False, True, True, False, True]
    assert [holds(replace(HERRING, every_year=False), {"day": day}, "day") for day in days] == [
        False,
        True,
        True,
        False,
        False,
    ]


def test_a_season_for_once_over_new_year_holds_between_its_days() -> None:
    once = replace(MISTLETOE, every_year=False)
    days = [date(2026, 12, 19), date(2026, 12, 31), date(2027, 1, 6), date(2027, 1, 7), date(2027, 12, 31)]
    assert [holds(once, {"day": day}, "day") for day in days] == [False, True, True, False, False]


def test_a_season_is_charged_in_its_direction_only(make_book, totals) -> None:
    book = make_book(areas=COASTS, seasons=(replace(MISTLETOE, from_area="Coasts"),))
    christmas = date(2026, 12, 25)
    assert totals(book, [100], start="Astoria, OR", to="Sequim, WA", day=christmas) == [110_00]
    assert totals(book, [100], start="Sequim, WA", to="Astoria, OR", day=christmas) == [100_00]
    assert totals(book, [100], start="Astoria, OR", to="Sequim, WA", day=date(2026, 12, 1)) == [100_00]
