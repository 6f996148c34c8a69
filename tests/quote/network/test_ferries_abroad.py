"""Islands abroad that neither a road nor a ship of the book reaches: by a ferry of the sheet Ferries abroad, or to the port only.

Which islands have no road: `shipcalc/places/data/no_road.tsv`, from general knowledge. The fares are invented. The lengths of the
crossings are held to the great circle between the ports of UN/LOCODE (table of `shipcalc/places/sea/ports.py`).
"""

import pytest

from shipcalc.errors import NoAnswer
from shipcalc.measures import METRES_PER_MILE, metres_to_nautical_miles
from shipcalc.places.gazetteer.find import get_place
from shipcalc.places.sea.ports import find_port
from shipcalc.places.straight import great_circle_mi
from shipcalc.quote.network.distances import road_lanes
from shipcalc.quote.network.ports import arrival_ports
from shipcalc.ratebook.making.invented_ferries import SOURCE
from shipcalc.records import replace

# The island, and the ferry that the last leg goes by.
ISLANDS = {
    "Cowes, United Kingdom": "Car ferry Southampton – East Cowes",
    "Visby, Sweden": "Car ferry Nynäshamn – Visby",
    "Rønne, Denmark": "Car ferry Ystad – Rønne",
    "Cagliari, Italy": "Car ferry Civitavecchia – Olbia",
    "Ajaccio, France": "Car ferry Toulon – Ajaccio",
    "Palma, Spain": "Car ferry Barcelona – Palma",
    "Maó, Spain": "Car ferry Barcelona – Mahón",
    "Ibiza, Spain": "Car ferry Valencia – Ibiza",
    "Santa Cruz de Tenerife, Spain": "Car ferry Las Palmas – Santa Cruz",
    "Heraklion, Greece": "Car ferry Piraeus – Heraklion",
    "Rhodes, Greece": "Car ferry Piraeus – Rhodes",
    "Sapporo, Japan": "Car ferry Aomori – Hakodate",
    "Nanaimo, Canada": "Car ferry Vancouver – Nanaimo",
    "St. John's, Canada": "Car ferry North Sydney – Port aux Basques",
    "Douglas, Isle of Man": "Car ferry Heysham – Douglas",
    "Saint Peter Port, Guernsey": "Car ferry Poole – Saint Peter Port",
    "Saint Helier, Jersey": "Car ferry Poole – Saint Helier",
}
# Islands that a bridge joins, or a ship of the book calls at: no ferry is asked for.
WITHOUT_A_FERRY = (
    "Charlottetown, Canada",
    "Palermo, Italy",
    "Hobart, Australia",
    "Belfast, United Kingdom",
    "Nelson, New Zealand",
)


@pytest.fixture(scope="session")
def to_visby(dealer_quote):
    return dealer_quote("HV-1042", to="Visby, Sweden")


@pytest.mark.parametrize(("island", "ferry"), ISLANDS.items())
def test_every_choice_to_an_island_goes_by_its_ferry_and_pays_it(
    dealer_quote, shipped, island: str, ferry: str
) -> None:
    (row,) = (row for row in shipped.rates.ferries_abroad if row.ferry == ferry)
    for option in dealer_quote("HV-1027", to=island).options:
        (fare,) = (charge for charge in option.charges if charge.code in ("oncarriage.ferry", "ferry"))
        assert (fare.label, fare.source) == (ferry, row.at.cell("amount_minor"))
        (leg,) = (leg for leg in option.legs if leg.mode == "ferry")
        assert (leg.from_.name, leg.to.name) == (row.from_name, row.to_name)
        assert (leg.distance, leg.unit) == (round(row.crossing_nmi), "nmi")
        assert ferry in leg.method_note
        assert option.total == sum(charge.amount for charge in option.charges if charge.payer == "seller")


def test_each_row_of_the_sheet_is_one_of_these(shipped) -> None:
    assert sorted(row.ferry for row in shipped.rates.ferries_abroad) == sorted(ISLANDS.values())


@pytest.mark.parametrize("place", WITHOUT_A_FERRY)
def test_an_island_with_a_bridge_or_a_port_of_its_own_has_no_ferry(dealer_quote, place: str) -> None:
    for option in dealer_quote("HV-1042", to=place).options:
        assert "ferry" not in [leg.mode for leg in option.legs]
        assert not any("ferry" in charge.code for charge in option.charges)


def test_the_fare_stands_in_the_selling_price_and_at_cost(to_visby, shipped) -> None:
    (row,) = (row for row in shipped.rates.ferries_abroad if row.to_name == "Visby")
    for option in to_visby.options:
        (fare,) = (charge for charge in option.charges if charge.code == "oncarriage.ferry")
        assert fare.stage == "on-carriage"
        assert fare.estimate
        assert fare.cost is not None
        assert fare.cost.amount * 100 == row.amount_minor
        assert fare.amount > fare.cost.amount
        assert option.total_cost == sum(charge.cost.amount for charge in option.charges if charge.cost)


def test_the_truck_pays_only_its_miles_and_every_vehicle_its_own_passage(dealer_quote) -> None:
    for option in dealer_quote("HV-1042", "HV-1003", to="Visby, Sweden").options:
        passages = [charge for charge in option.charges if charge.code == "oncarriage.ferry"]
        assert sorted(charge.vehicle for charge in passages) == ["HV-1003", "HV-1042"]
        ship = next(n for n, leg in enumerate(option.legs) if leg.mode in ("roro", "container", "shared container"))
        driven = sum(leg.distance for leg in option.legs[ship + 1 :] if leg.mode == "truck")
        for charge in option.charges:
            if charge.code == "oncarriage.miles":
                assert abs(charge.quantity - driven) <= 1


def test_the_ferry_lies_between_the_roads_and_is_told(to_visby) -> None:
    for option in to_visby.options:
        modes = [leg.mode for leg in option.legs]
        assert modes[-3:] == ["truck", "ferry", "truck"] or modes[-2:] == ["ferry", "truck"]
        assert option.dates.timeline[-1].note == "Over the Car ferry Nynäshamn – Visby."
    assert any(
        said.startswith("Visby is reached by a ferry: Car ferry Nynäshamn – Visby") for said in to_visby.assumptions
    )
    assert any("by ferry: " in said and "road miles to the ferry in Nynäshamn" in said for said in to_visby.assumptions)
    assert not any(said.startswith("Priced to the port") for said in to_visby.assumptions)


def test_without_its_row_an_island_is_priced_to_the_port_and_the_sheet_is_named(dealer_quote, shipped) -> None:
    others = tuple(row for row in shipped.rates.ferries_abroad if row.to_name != "Visby")
    quote = dealer_quote("HV-1042", to="Visby, Sweden", rates=replace(shipped.rates, ferries_abroad=others))
    (said,) = (said for said in quote.assumptions if said.startswith("Priced to the port of arrival only"))
    assert "no road leads from a port of the rate book to Visby, and no ferry of its sheet Ferries abroad" in said
    for option in quote.options:
        assert not any(charge.code == "oncarriage.ferry" for charge in option.charges)
        assert any(line.startswith("The onward journey from the port of ") for line in option.not_included)


def test_waiting_and_a_long_crossing_make_the_window_later(dealer_quote, shipped) -> None:
    def to_visby_by(**change: object):
        changed = tuple(
            replace(row, **change) if row.to_name == "Visby" else row for row in shipped.rates.ferries_abroad
        )
        return dealer_quote("HV-1042", to="Visby, Sweden", rates=replace(shipped.rates, ferries_abroad=changed))

    now, patient, slow = to_visby_by(), to_visby_by(extra_days=6), to_visby_by(crossing_hours=30)
    first, last = now.options[0].dates.delivery
    assert patient.options[0].dates.delivery[0] == first
    assert (patient.options[0].dates.delivery[1] - last).days == 5
    assert [(day - was).days for day, was in zip(slow.options[0].dates.delivery, (first, last), strict=True)] == [1, 1]


def test_a_port_without_a_road_is_only_asked_for_where_a_ferry_leads_on(shipped) -> None:
    """Cagliari: by Livorno and Savona, whose roads lead to Civitavecchia; Palermo stands nearer, on an island of its own."""
    ports = arrival_ports(shipped.rates, get_place("Cagliari, Italy").place).ports
    assert "Palermo" not in [port.row.name for port in ports]
    assert all(port.crossing is not None and port.crossing.terminal.name == "Civitavecchia" for port in ports)


def test_crossings_are_as_long_as_the_sea_between_their_ports(shipped) -> None:
    """No shorter than the great circle, but for the roundness of the table's coordinates, and at most a third longer."""
    for row in shipped.rates.ferries_abroad:
        one, other = find_port(row.from_port), find_port(row.to_port)
        assert one is not None
        assert other is not None
        straight_nmi = metres_to_nautical_miles(great_circle_mi(one, other) * METRES_PER_MILE)
        assert straight_nmi - 2 <= row.crossing_nmi <= 1.33 * straight_nmi + 2, row.ferry
        assert {"source": row.source, "trust": row.trust, "office_note": row.office_note} == SOURCE


def test_miles_between_places_abroad_go_by_the_ferry_too(shipped) -> None:
    start, to = (get_place(name).place for name in ("Livorno, Italy", "Cagliari, Italy"))
    (lane,) = road_lanes(shipped.rates, (start,), to)
    assert lane.crossing is not None
    assert lane.crossing.ferry.ferry == "Car ferry Civitavecchia – Olbia"
    assert lane.road.miles == lane.crossing.before.miles + lane.crossing.after.miles


def test_no_ferry_leads_where_none_is_listed(shipped) -> None:
    start, to = (get_place(name).place for name in ("Tokyo", "Okinawa, Japan"))
    with pytest.raises(NoAnswer, match="Naha is on Okinawa"):
        road_lanes(shipped.rates, (start,), to)
