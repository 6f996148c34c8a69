"""What evaluators tell the conditions: a row that asks for everything a vehicle has holds, and not if it asks for one thing else.

How a condition is answered is held by `tests/ratebook/test_decisions.py`; here it is that the right fact is told.
"""

from datetime import date

import pytest

from shipcalc.paperwork.needs import Facts
from shipcalc.pricing.facts import vehicle_facts
from shipcalc.pricing.landed import applying_import_charges
from shipcalc.pricing.loading import way_for
from shipcalc.pricing.stage_charges import arises, is_in_season
from shipcalc.ratebook.rows.imports import ImportCharge
from shipcalc.ratebook.rows.loading import LoadingWay
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.paperwork import Conditioned
from shipcalc.ratebook.rows.stage_charges import StageCharge
from shipcalc.ratebook.workbook.columns import conditions_of
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 12, 1)
COUPE = Vehicle(
    stock_number="HV-7", year=1961, title="lien", built_in="GB", engine_cc=1_300, body="Coupé", runs=False, brakes=False
)
DUTY = ImportCharge(
    country="DE",
    code="duty",
    label="Duty",
    kind="duty",
    treatment="collector",
    age_from=64,
    age_under=65,
    built_in=("GB",),
    not_built_in=("US",),
    engine_over_cc=1_299,
    engine_up_to_cc=1_300,
    motorcycle=False,
    body=("coupé",),
    not_body=("camper",),
    valid_from=DAY,
    valid_to=DAY,
)
FEE = StageCharge(
    code="fee",
    label="Fee",
    stage="loading at origin",
    mode="roro",
    to_country=("DE",),
    not_to_country=("AU",),
    title=("lien",),
    runs=False,
    year_up_to=1961,
    per="shipment",
    season_from=date(2026, 12, 1),
    season_to=date(2027, 2, 1),
)
TOW = LoadingWay(
    code="tow",
    mode="roro",
    loading="towed",
    lines=("Osprey",),
    runs=False,
    rolls=True,
    steers=True,
    brakes=False,
    how="in tow",
    label="Towed",
)
SHIP = OceanService(
    service="Osprey East",
    carrier="Osprey",
    mode="roro",
    from_region="Georgia",
    to_region="Elbe",
    basis="per vehicle",
    base_e4=1,
    sails_every_days=14,
    first_sailing=DAY,
    takes_inoperable=True,
)


@pytest.mark.parametrize(
    "other",
    [
        {"country": "FR"},
        {"treatment": "ordinary"},
        {"age_from": 65},
        {"age_under": 64},
        {"built_in": ("US",)},
        {"not_built_in": ("GB",)},
        {"engine_over_cc": 1_300},
        {"engine_up_to_cc": 1_299},
        {"motorcycle": True},
        {"body": ("camper",)},
        {"not_body": ("coupé",)},
        {"valid_from": date(2026, 12, 2)},
        {"valid_to": date(2026, 11, 30)},
    ],
    ids=str,
)
def test_duty_asks_the_vehicle_its_country_treatment_and_day(other):
    rows = (DUTY, replace(DUTY, **other))
    assert applying_import_charges(rows, COUPE, country="DE", treatment="collector", day=DAY) == (DUTY,)


@pytest.mark.parametrize(
    "other",
    [
        {"mode": "container"},
        {"to_country": ("AU",)},
        {"not_to_country": ("DE",)},
        {"title": ("clean",)},
        {"runs": True},
        {"year_up_to": 1960},
    ],
    ids=str,
)
def test_a_charge_by_stage_asks_the_load_and_its_vehicles_whatever_the_season(other):
    told = {"mode": "roro", "to_country": "DE"}
    assert arises(FEE, (COUPE,), **told)
    assert not arises(replace(FEE, **other), (COUPE,), **told)
    assert arises(FEE, (Vehicle(stock_number="HV-8"), COUPE), **told)
    assert not arises(FEE, (Vehicle(stock_number="HV-8"),), **told)


def test_a_ship_is_in_season_where_one_day_of_its_window_is_and_a_ship_of_no_day_never_is():
    day = date(2027, 11, 30)
    assert is_in_season(FEE, (day, DAY.replace(year=2027)))
    assert not is_in_season(FEE, (day, day))
    assert not is_in_season(FEE, None)


@pytest.mark.parametrize(
    "other",
    [
        {"mode": "container"},
        {"lines": ("Tern",)},
        {"runs": True},
        {"rolls": False},
        {"steers": False},
        {"brakes": True},
    ],
    ids=str,
)
def test_a_way_of_loading_asks_the_line_its_mode_and_what_works(other):
    assert way_for(COUPE, SHIP, (TOW,)) is TOW
    assert way_for(COUPE, SHIP, (replace(TOW, **other),)) is None


def test_what_is_blank_on_a_stock_list_is_unknown_and_no_answer():
    told = vehicle_facts(Vehicle(stock_number="HV-8"), aged_on=DAY)
    unknown = {name for name, fact in told.items() if fact is None}
    assert unknown == {"year", "age_years", "built_in", "engine_cc", "body"}


def test_papers_tell_every_fact_that_their_columns_ask_for():
    facts = Facts(day=DAY)
    assert all(hasattr(facts, condition.fact) for _, condition in conditions_of(Conditioned))
