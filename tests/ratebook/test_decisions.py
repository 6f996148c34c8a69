"""The conditions of all decision tables: each column met, not met, blank and unknown, held to a plain reading of the sheets.

What a blank, an "over" and an "up to" mean is our own convention, said on every sheet. That a decision table's row holds where all
its conditions hold, and that a blank entry is irrelevant, is the sense of the Decision Model and Notation of the OMG (from memory).
"""

import importlib.util
import re
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.ratebook.decisions import UNKNOWN, decision_table, holding, holds, questions_of, where_holding
from shipcalc.ratebook.rows.tables import SHEETS
from shipcalc.ratebook.workbook.columns import Kind, columns_of, conditions_of
from shipcalc.ratebook.workbook.conditions import FACTS

_SPEC = importlib.util.spec_from_file_location("plain_reading", Path(__file__).with_name("plain_reading.py"))
assert _SPEC is not None
assert _SPEC.loader is not None
_PLAIN = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(_PLAIN)
READINGS = _PLAIN.READINGS

CONDITIONED = {sheet.name: sheet.row_type for sheet in SHEETS if conditions_of(sheet.row_type)}
COLUMNS = [(name, field) for name, row_type in CONDITIONED.items() for field, _ in conditions_of(row_type)]
YES_NO = (True, False)
DAYS = [date(2026, 11, 30), date(2026, 12, 1), date(2026, 12, 2), date(2027, 3, 31)]
SIZES = (0, 999, 1_000, 1_001, 9_999)


def areas(*names):
    return lambda name: name in names


# What may be told of a fact; the first is what the others are tried with.
TOLD = {
    **dict.fromkeys(
        ("runs", "rolls", "steers", "brakes", "modified", "battery", "motorcycle", "lift_gate", "limited_access"),
        YES_NO,
    ),
    **dict.fromkeys(("express", "overseas", "export_filing"), YES_NO),
    **dict.fromkeys(("length_mm", "width_mm", "height_mm", "clearance_mm", "mass_grams", "value_minor"), SIZES),
    **dict.fromkeys(("engine_cc", "year", "age_years", "miles", "vehicle_count"), SIZES),
    "title": ("lien", "clean", "salvage"),
    "built_in": ("US", "de", "GB"),
    "body": ("Camper van", "roadster", "CAMPER wagon"),
    "yard": ("Bellingham", "Savannah"),
    "treatment": ("ordinary", "collector", frozenset({"ordinary", "collector"}), "preference"),
    "loaded": ("towed", "driven", "container"),
    "pickup_area": (areas("Coasts"), areas(), areas("Coasts", "Hills")),
    "delivery_area": (areas("Coasts"), areas(), areas("Coasts", "Hills")),
    "carrier": ("Tern Haulage", "tern haulage", "Osprey"),
    "trailer": ("open", "enclosed", "driven"),
    "day": DAYS,
    "to_country": ("DE", "US", "de"),
    "to_part": (frozenset({"Crimea", "Yalta"}), frozenset({"Kyiv"})),
    "mode": ("roro", "container", "truck"),
    "term": ("DAP", "EXW", "CIF"),
    "cover": ("A", "B", "C"),
    "seller_pays": (
        frozenset({"main carriage", "unloading"}),
        frozenset({"main carriage"}),
        frozenset({"on-carriage"}),
        frozenset(),
    ),
    "balance_due": ("before pickup", "on delivery"),
    "leaves": [*((day, day) for day in DAYS), (DAYS[0], DAYS[-1]), (date(2026, 5, 1), date(2026, 6, 1))],
}
CELLS = {
    "title": ("lien", "Salvage"),
    "built_in": ("us", "GB"),
    "body": ("camper", "Wagon"),
    "yard": "bellingham",
    "treatment": "collector",
    "loaded": ("driven", "towed"),
    "pickup_area": "Hills",
    "delivery_area": "Hills",
    "carrier": "TERN haulage",
    "trailer": "enclosed",
    "day": DAYS[1],
    "to_country": "DE",
    "to_part": "crimea",
    "mode": "roro",
    "term": ("EXW", "CIF"),
    "cover": "A",
    "seller_pays": ("main carriage", "unloading"),
    "balance_due": ("on delivery",),
}
SEASON = {"first": date(2025, 12, 2), "last": date(2026, 2, 1), "every year": True}
KEYS = {Kind.DATE: DAYS[1], Kind.WHOLE: 1, Kind.PERCENT: 1, Kind.MONEY: 1, Kind.RATE: 1}


def cell_of(row_type, field):
    """Return what the column is tried with."""
    column = columns_of(row_type)[field]
    condition = column.condition
    if condition.how == "season":
        return SEASON[condition.part]
    if column.kind is Kind.YES_NO:
        return False
    cell = CELLS.get(condition.fact, 1_000)
    return (cell,) if column.kind is Kind.LIST and isinstance(cell, str) else cell


def row_of(row_type, **cells):
    """Return a row that says nothing but what it must, and some cells; the seasons of sheet Seasons last all the year."""
    must = {
        field: cell_of(row_type, field) if column.condition else KEYS.get(column.kind, "x")
        for field, column in columns_of(row_type).items()
        if column.required
    }
    if "first_day" in must:
        must.update(first_day=date(2026, 1, 1), last_day=date(2026, 12, 31))
    return row_type(**must | cells)


def tried(row_type, field):
    """Return a row in which only this column asks something that is not required, with what belongs to it."""
    condition = columns_of(row_type)[field].condition
    together = [
        name
        for name, one in conditions_of(row_type)
        if name == field or (condition.how == "season" == one.how and one.fact == condition.fact)
    ]
    return row_of(row_type, **{name: cell_of(row_type, name) for name in together})


def facts_with(fact, told):
    """Return facts in which all is met that a row must ask, and one as it is told."""
    met = {"to_country": "DE", "mode": "roro", "cover": "A", "day": DAYS[1]}
    return {name: values[0] for name, values in TOLD.items()} | met | {fact: told}


@pytest.mark.parametrize(("sheet", "field"), COLUMNS)
def test_a_condition_is_met_and_not_met_as_the_sheet_reads(sheet, field):
    row_type = CONDITIONED[sheet]
    row, fact = tried(row_type, field), columns_of(row_type)[field].condition.fact
    answers = {}
    for told in TOLD[fact]:
        facts = facts_with(fact, told)
        answers[told] = holds(row, facts)
        assert answers[told] is READINGS[sheet](row, facts), told
    assert set(answers.values()) == {True, False}


@pytest.mark.parametrize(("sheet", "field"), COLUMNS)
def test_a_blank_condition_is_always_met(sheet, field):
    row_type = CONDITIONED[sheet]
    column = columns_of(row_type)[field]
    if column.required or column.condition.part == "every year":
        return  # never blank
    row, condition = row_of(row_type), column.condition
    for told in (*TOLD[condition.fact], *([None] if FACTS[condition.fact].may_be_unknown else [])):
        if told not in condition.blank_bars:
            facts = facts_with(condition.fact, told)
            assert holds(row, facts)
            assert READINGS[sheet](row, facts)


def test_a_blank_trailer_of_an_extra_charge_is_any_trailer_but_none_at_all():
    """As the header note says: "Blank: any trailer, not what is driven"; on papers a blank is any, and driven too."""
    extra, paper = (row_of(CONDITIONED[sheet]) for sheet in ("Extra charges", "Documents"))
    told = [facts_with("trailer", trailer) for trailer in ("open", "enclosed", "driven")]
    assert [holds(extra, facts) for facts in told] == [True, True, False]
    assert [holds(paper, facts) for facts in told] == [True, True, True]


@pytest.mark.parametrize(("sheet", "field"), COLUMNS)
def test_an_unknown_fact_means_what_its_column_declares(sheet, field):
    row_type = CONDITIONED[sheet]
    condition = columns_of(row_type)[field].condition
    assert (condition.unknown is not None) is FACTS[condition.fact].may_be_unknown
    if condition.unknown is not None:
        row = tried(row_type, field)
        facts = facts_with(condition.fact, None)
        assert holds(row, facts) is (condition.unknown == "met")
        assert READINGS[sheet](row, facts) is (condition.unknown == "met")


@pytest.mark.parametrize("sheet", CONDITIONED)
@given(data=st.data())
def test_rows_with_any_conditions_hold_as_the_sheet_reads(sheet, data):
    """Several rows at once, by a table, one by one, and by what bears the facts: all as the plain reading."""
    row_type = CONDITIONED[sheet]
    optional = [
        field
        for field, condition in conditions_of(row_type)
        if not columns_of(row_type)[field].required and condition.part != "every year"
    ]
    few = st.lists(st.sampled_from(optional), max_size=4) if optional else st.just([])
    rows = tuple(
        row_of(row_type, **{field: cell_of(row_type, field) for field in fields})
        for fields in data.draw(st.lists(few, min_size=1, max_size=5))
    )
    facts = {
        fact: data.draw(st.sampled_from([*values, *([None] if FACTS[fact].may_be_unknown else [])]))
        for fact, values in TOLD.items()
    }
    read = [READINGS[sheet](row, facts) for row in rows]
    assert [any(row is one for one in holding(decision_table(rows), facts)) for row in rows] == read
    assert [holds(row, facts) for row in rows] == read
    bearers = sorted({FACTS[question.fact].about for row in rows for question in questions_of(row)})
    assert [all(holds(row, facts, bearer) for bearer in bearers) for row in rows] == read


@given(data=st.data())
def test_columns_of_facts_are_answered_as_each_by_itself(data):
    """Vehicles down: flags and measures of Extra charges, UNKNOWN where None."""
    row_type = CONDITIONED["Extra charges"]
    asked = [(field, one) for field, one in conditions_of(row_type) if FACTS[one.fact].about == "vehicle"]
    rows = tuple(
        row_of(row_type, **{field: cell_of(row_type, field) for field, _ in fields})
        for fields in data.draw(st.lists(st.lists(st.sampled_from(asked), max_size=4), min_size=1, max_size=5))
    )
    facts = {one.fact: [*TOLD[one.fact], *([None] if one.unknown else [])] for _, one in asked}
    vehicles = [
        {fact: data.draw(st.sampled_from(values)) for fact, values in facts.items()}
        for _ in range(data.draw(st.integers(1, 6)))
    ]
    columns = {
        fact: np.array([UNKNOWN if one[fact] is None else one[fact] for one in vehicles], dtype=type(facts[fact][0]))
        for fact in facts
    }
    for row, where in zip(rows, where_holding(decision_table(rows, "vehicle"), columns), strict=True):
        alone = [holds(row, vehicle, "vehicle") for vehicle in vehicles]
        assert alone == ([True] * len(vehicles) if where is None else where.tolist())


def test_a_table_knows_the_very_rows_it_was_made_of():
    """Two rows alike in every cell are two rows: a table of one is not taken for a table of the other."""
    row_type = CONDITIONED["Entry rules"]
    first, second = row_of(row_type, age_from=30), row_of(row_type, age_from=30)
    assert first == second
    assert holding(decision_table((first,)), facts_with("age_years", 1_000))[0] is first
    assert holding(decision_table((second,)), facts_with("age_years", 1_000))[0] is second


def test_a_fact_that_is_not_told_is_a_fault_and_no_answer():
    row = row_of(CONDITIONED["Entry rules"], age_from=30)
    with pytest.raises(KeyError, match="age_years"):
        holds(row, {"to_country": "DE", "motorcycle": False})


# What a row of a conditioned sheet says, where its conditions hold; of a new column somebody must decide which it is.
SAYS = {
    "Carriers": "carrier trailer private cover_minor cover_can_rise takes_inoperable winch lift_gate base_minor minimum_minor bands "
    "fuel_scheme pickup_from_days pickup_to_days express_pickup_days spare_days miles_a_day currency",
    "Lanes": "carrier trailer flat_minor rate_e4 minimum_minor percent_ppm currency fuel_included both_ways reference",
    "Service classes": "carrier trailer name within_days amount_minor percent_ppm if_missed",
    "When it happens": "carrier trailer name amount_minor per free when",
    "Vehicles loaded": "carrier trailer vehicles percent_ppm less_minor",
    "Extra charges": "code label charge amount_minor percent_ppm rate_e4 of",
    "Seasons": "season label percent_ppm",
    "Storage": "storage indoors per amount_minor free_days",
    "Terminals": "terminal zip_code discount_minor fee_minor free_days hours",
    "Ocean": "service carrier private mode from_region to_region basis base_e4 per_nmi_e4 minimum_minor bunker_ppm currency_ppm "
    "peak_ppm security_minor bill_minor takes_inoperable inoperable_minor sails_every_days first_sailing sailings knots port_days "
    "avoids late_ppm",
    "Ocean quotations": "quotation forwarder surcharge basis amount_e4 currency minimum_e4 percent_ppm stage includes free_days "
    "transit_days cutoff_days",
    "Port charges": "label per amount_e4 currency from_day",
    "Ways of loading": "code loading how equipment equipment_minor label loading_minor unloading_label unloading_minor",
    "Stage charges": "code label stage per amount_minor percent_ppm estimate takes_days said",
    "Marine cover": "rate_ppm minimum_minor insured_ppm excess_ppm",
    "Documents": "each_vehicle code document prepared_by given_to copies fee_minor stage days",
    "Tasks": "each_vehicle code task owner after stage days counts_from takes_days proof critical",
    "From the buyer": "each_vehicle code asked",
    "Import charges": "code label kind percent_ppm base above flat",
    "Entry rules": "answer rule",
    "Holds": "hold reason",
    "Countries": "country name currency steering collector_criteria",
}
# Days of pickup, which `ratebook/of_day.py` answers for every sheet.
DATED = {"valid_from", "valid_to"}
SOURCED = {"source", "trust", "office_note", "checked_on", "note", "address"}
# Limits and areas of a service: where one is missed, the quote says which (`pricing/eligibility.py`, `pricing/ocean.py`); and
# what a row is looked up by, the closest match before the others (`pricing/quotations.py`, `pricing/port_charges.py`).
EXPLAINED = {
    "Carriers": "from_areas to_areas longest_mm widest_mm highest_mm lowest_clearance_mm heaviest_grams higher_than_mm",
    "Ocean": "longest_mm highest_mm heaviest_grams",
    "Ocean quotations": "line mode from_port to_port",
    "Port charges": "port mode",
}
# Bands, and what is looked up by the closest match instead of all conditions.
LOOKED_UP = {
    "Per mile": "from_mi to_mi",
    "Fuel steps": "from_price_e4",
    "Lanes": "from_end to_end",
    "Road factors": "from_place to_place over_mi up_to_mi",
    "Areas": "zip_from zip_to",
    "Ferries": "from_zip to_zip carrier",
    "Ferries abroad": "from_port from_name to_port to_name",
    "On-carriage": "port postal_codes regions towns",
    "Countries": "collector_from_years",
}


@pytest.mark.parametrize("sheet", CONDITIONED)
def test_every_column_of_a_conditioned_sheet_is_a_condition_or_what_the_row_says(sheet):
    asks = {field for field, _ in conditions_of(CONDITIONED[sheet])}
    says = {word for told in (SAYS, EXPLAINED, LOOKED_UP) for word in told.get(sheet, "").split()}
    assert asks.isdisjoint(says)
    assert set(columns_of(CONDITIONED[sheet])) - SOURCED - DATED == (asks | says) - DATED


def test_no_other_sheet_has_a_column_that_reads_as_a_condition():
    named = re.compile(r"(^|_)(over|under|up_to|valid|season|not|from|to|only|years?)(_|$)")
    noted = re.compile(r"\bOnly (what|vehicles|for|ships|where|requests|trips)|[Bb]lank: (any|all|always)\b")
    for sheet in SHEETS:
        for field, column in columns_of(sheet.row_type).items():
            if (
                sheet.name not in CONDITIONED
                and field not in DATED
                and (named.search(field) or noted.search(column.note))
            ):
                assert field in LOOKED_UP.get(sheet.name, "").split(), f"{sheet.name}: {column.header}"


def test_every_conditioned_sheet_has_a_plain_reading_and_every_fact_is_asked_for():
    assert set(CONDITIONED) == set(READINGS) == set(SAYS)
    asked = {condition.fact for row_type in CONDITIONED.values() for _, condition in conditions_of(row_type)}
    assert asked == set(FACTS) == set(TOLD)
