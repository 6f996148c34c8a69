"""Places at home that no road reaches: by a ferry of the sheet Ferries, or a plain no.

Which island is served from where: `shipcalc/places/data/no_road.tsv`, from general knowledge; the fares are invented.
"""

import pytest

from shipcalc.errors import NoAnswer
from shipcalc.places.gazetteer.find import get_place
from shipcalc.quote.network.crossings import crossing_between
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.workbook.columns import RowRef
from shipcalc.records import replace


@pytest.fixture(scope="session")
def to_nantucket(dealer_quote):
    return dealer_quote("HV-1042", to="02554")


def test_an_island_is_reached_by_road_ferry_and_road(to_nantucket) -> None:
    for option in to_nantucket.options:
        assert [leg.mode for leg in option.legs][:2] == ["truck", "ferry"]
        by_road, by_sea = option.legs[:2]
        assert by_road.to.name == by_sea.from_.name == "Hyannis"
        assert (by_sea.distance, by_sea.unit) == (26, "nmi")
        assert "Car ferry Hyannis – Nantucket" in by_sea.method_note
    assert any(
        said.startswith("Nantucket is reached by a ferry: Car ferry Hyannis") for said in to_nantucket.assumptions
    )


def test_the_fare_is_a_line_of_its_own_with_its_cell(to_nantucket, shipped) -> None:
    rows = {row.carrier: row for row in shipped.rates.ferries if row.to_zip == "02554"}
    for option in to_nantucket.options:
        (fare,) = (charge for charge in option.charges if charge.code == "ferry")
        row = rows.get(option.legs[0].carrier, rows[None])
        assert fare.label == row.ferry
        assert fare.source == row.at.cell("amount_minor")
        assert fare.cost is not None
        assert fare.cost.amount * 100 == row.amount_minor
        assert fare.amount > fare.cost.amount


def test_every_vehicle_pays_its_own_passage_and_the_truck_only_its_miles(dealer_quote) -> None:
    two = dealer_quote("HV-1042", "HV-1003", to="02554")
    for option in two.options:
        assert sorted(charge.vehicle for charge in option.charges if charge.code == "ferry") == ["HV-1003", "HV-1042"]
        for vehicle in ("HV-1003", "HV-1042"):
            driven = {leg.distance for leg in option.legs if vehicle in leg.vehicles and leg.mode == "truck"}
            paid = [c.quantity for c in option.charges if c.code == "truck.linehaul" and c.vehicle == vehicle]
            assert sum(paid) >= sum(driven)  # more where a later break is charged


def test_a_quote_by_road_has_no_fare(dealer_quote) -> None:
    """Hyannis itself lies on the mainland side of the same ferry."""
    for option in dealer_quote("HV-1042", to="02601").options:
        assert [leg.mode for leg in option.legs] == ["truck"]
        assert not any(charge.code == "ferry" for charge in option.charges)


def test_a_carriers_own_fare_stands_in_its_own_line_and_in_no_others(dealer_quote, shipped) -> None:
    """112 and 10 % for the carrier with a row of its own, 140 and 10 % for all others."""
    quote = dealer_quote("HV-1042", to="98250")
    fares = {
        option.legs[0].carrier: fare for option in quote.options for fare in option.charges if fare.code == "ferry"
    }
    (own,) = (row for row in shipped.rates.ferries if row.carrier == "Kestrel and Umbrella")
    assert fares["Kestrel and Umbrella"].source == own.at.cell("amount_minor")
    assert {carrier: str(fare.amount) for carrier, fare in fares.items() if carrier == "Kestrel and Umbrella"} == {
        "Kestrel and Umbrella": "123.20"
    }
    others = [fare for carrier, fare in fares.items() if carrier != "Kestrel and Umbrella"]
    assert {str(fare.amount) for fare in others} == {"154.00"}


def test_waiting_for_the_ferry_makes_the_window_longer(dealer_quote, shipped) -> None:
    patient = tuple(replace(row, extra_days=5) if row.to_zip == "02554" else row for row in shipped.rates.ferries)
    now, later = (
        dealer_quote("HV-1042", to="02554", rates=rates)
        for rates in (shipped.rates, replace(shipped.rates, ferries=patient))
    )
    assert later.options[0].dates.delivery[0] == now.options[0].dates.delivery[0]
    assert later.options[0].dates.delivery[1] > now.options[0].dates.delivery[1]


def test_an_island_without_cars_is_said_with_what_to_do(dealer_quote) -> None:
    with pytest.raises(NoAnswer, match="vehicles cannot go by the passenger ferry") as no:
        dealer_quote("HV-1042", to="49757")
    assert "Mackinaw City" in no.value.remedy


@pytest.mark.parametrize("code", ["90704", "04852", "98222"])
def test_an_island_without_a_row_is_said_not_to_be_reached(dealer_quote, code: str) -> None:
    with pytest.raises(NoAnswer):
        dealer_quote("HV-1042", to=code)


def test_without_the_sheet_the_answer_is_as_before(dealer_quote, shipped) -> None:
    with pytest.raises(NoAnswer, match="the car ferry from Hyannis"):
        dealer_quote("HV-1042", to="02554", rates=replace(shipped.rates, ferries=()))


def test_the_ferry_with_the_shorter_roads_is_taken_in_both_directions() -> None:
    at = RowRef("trucking.xlsx", "Ferries", 2, {})
    ferries = (
        Ferry(ferry="From Hyannis", from_zip="02601", to_zip="02554", amount_minor=1, at=at),
        Ferry(ferry="From far away", from_zip="31401", to_zip="02554", amount_minor=1, at=at),
    )
    boston, island = get_place("02108").place, get_place("02554").place
    assert boston is not None
    assert island is not None
    there, back = crossing_between(ferries, boston, island, ()), crossing_between(ferries, island, boston, ())
    assert there is not None
    assert back is not None
    assert there.ferry.ferry == back.ferry.ferry == "From Hyannis"
    assert (there.terminal.name, back.terminal.name) == ("Hyannis", "Nantucket")
    assert there.before.miles == back.after.miles


def test_every_ferry_of_the_book_leads_to_a_place_that_roads_do_not_reach(shipped) -> None:
    yard = get_place("59715").place
    assert yard is not None
    assert len(shipped.rates.ferries) > 20
    for row in shipped.rates.ferries:
        island = get_place(row.to_zip).place
        assert island is not None
        if row.takes_vehicles and not row.carrier:
            crossing = crossing_between((row,), yard, island, ())
            assert crossing is not None, row.ferry
            assert crossing.landing.postal_code == row.to_zip
