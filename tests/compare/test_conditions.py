"""Vehicles made from the conditions of a row: that they meet them, and that some just miss, is asked of the engine that quotes ask."""

from datetime import date

import pytest

from shipcalc.compare.basket import ROADSTER
from shipcalc.compare.conditions import at_the_edges, otherwise, vehicle_for, wishes_for
from shipcalc.compare.trial import Trial, places_in
from shipcalc.places.gazetteer.find import get_place
from shipcalc.pricing.facts import vehicle_facts
from shipcalc.quote.model import Wishes
from shipcalc.ratebook.decisions import holds
from shipcalc.ratebook.rows.areas import Area
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.ratebook.workbook.columns import conditions_of
from shipcalc.ratebook.workbook.conditions import FACTS

DAY = date(2026, 12, 1)
SHEETS = (
    "extras",
    "documents",
    "tasks",
    "from_buyer",
    "import_charges",
    "entry_rules",
    "loading_ways",
    "stage_charges",
)
MEASURES = ("length_mm", "width_mm", "height_mm", "clearance_mm", "mass_grams", "value_minor", "modified", "yard")


def meets(row, vehicle) -> bool:
    """Whether the row holds as far as it asks for the vehicle; how it is loaded is nothing that a vehicle has."""
    facts = vehicle_facts(vehicle, aged_on=DAY) | {fact: getattr(vehicle, fact) for fact in MEASURES}
    facts |= {"battery": vehicle.fuel == "electric", "loaded": None}
    asked = {c.fact for name, c in conditions_of(type(row)) if FACTS[c.fact].about == "vehicle"} - {"loaded"}
    return holds(row, facts, *asked)


@pytest.mark.parametrize("sheet", SHEETS)
def test_the_vehicle_of_a_row_meets_all_that_the_row_asks_of_vehicles(shipped, sheet):
    rows = getattr(shipped.rates, sheet)
    assert rows
    assert [row.at.cell("code") for row in rows if not meets(row, vehicle_for(row, DAY))] == []


@pytest.mark.parametrize("sheet", ["extras", "documents", "tasks", "import_charges", "entry_rules"])
def test_a_row_with_an_edge_gets_vehicles_on_either_side_of_it(shipped, sheet):
    edged = [row for row in getattr(shipped.rates, sheet) if any(at_the_edges(row, vehicle_for(row, DAY), DAY))]
    assert edged
    for row in edged:
        met = vehicle_for(row, DAY)
        assert {meets(row, one) for one in (met, *at_the_edges(row, met, DAY))} == {True, False}, row.at


def test_a_vehicle_is_otherwise_in_all_that_the_sheet_asks_for(shipped):
    row = ExtraCharge(code="c", label="C", length_over_mm=6_000, charge="flat", amount_minor=1)
    long = vehicle_for(row, DAY)
    others = list(otherwise(row, long, DAY))

    assert long.length_mm == 6_001
    assert [one.runs for one in others if one.length_mm == 6_001].count(False) == 1
    assert any(one.length_mm is None for one in others)


def test_the_wishes_of_a_row_are_fields_of_wishes(shipped):
    rows = [row for sheet in (*SHEETS, "marine_cover") for row in getattr(shipped.rates, sheet)]
    wished = [wishes_for(row) for row in rows]

    assert any("lift_gate" in wishes for wishes in wished)
    assert any("ocean" in wishes for wishes in wished)
    assert all(Wishes(**wishes) for wishes in wished)


def test_a_transport_to_a_country_that_bars_the_roadster_is_one_that_it_lets_in(shipped):
    """Thailand lets in no car of less than a hundred years, as the shipped *Entry rules* tell; Germany any."""
    trial = Trial(shipped.rates, (get_place("98225").place,), DAY)
    bangkok, berlin = (get_place(name).place for name in ("Bangkok, TH", "Berlin, DE"))
    assert DAY.year - trial.asked(bangkok, released=True).request.vehicles[0].year > 100
    assert trial.asked(bangkok).request.vehicles[0].year == ROADSTER.year
    assert trial.asked(berlin, released=True).request.vehicles[0].year == ROADSTER.year


def test_a_state_of_another_country_is_tried_by_a_town_of_its_own():
    """Prince Edward Island is the least of Canada's provinces (Statistics Canada, census of 2021), and has no larger city."""
    assert [place.subdivision for place in places_in(Area(area="East", country="CA", state="PE"), 3)] == ["PE"]
