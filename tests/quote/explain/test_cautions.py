"""The cautions fit the way: what a ship asks is not said of a truck, nor a state's office to a buyer in another country.

Fuel at sea: at most a quarter tank, or drained, 49 CFR 173.220(b)(1) and 176.905; batteries UN 3171, fuel UN 3166.
"""

import re
from datetime import date

import pytest

from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.ratebook.rows.fuel import FuelScheme

DAY = date(2026, 12, 1)
QUARTER, LITTLE = "about a quarter tank", "at most a quarter tank of fuel, for a container drained"
STATE, COUNTRY = "ask your motor vehicle office", "ask its authorities"


@pytest.mark.parametrize(
    ("to", "said", "not_said"),
    [
        ("59715", (QUARTER, STATE), (LITTLE, COUNTRY, "customs", "ship")),
        ("Toronto, ON", (QUARTER, COUNTRY, "Customs in that country decide"), (LITTLE, STATE, "general average")),
        ("Honolulu, HI", (LITTLE, STATE, "general average"), (QUARTER, COUNTRY, "customs")),
        ("Bremen, Germany", (LITTLE, COUNTRY, "Customs in that country decide"), (QUARTER, STATE)),
    ],
)
def test_each_caution_is_said_where_it_holds_and_nowhere_else(
    dealer_quote, to: str, said: tuple[str, ...], not_said: tuple[str, ...]
) -> None:
    told = " ".join(dealer_quote("HV-1042", to=to).cautions)
    assert [part for part in said if part not in told] == []
    assert [part for part in not_said if part in told] == []


@pytest.mark.parametrize("to", ["59715", "Bremen, Germany"])
def test_what_has_no_tank_is_handed_over_with_little_charge(dealer_quote, to: str) -> None:
    told = " ".join(dealer_quote("2019 electric saloon, $30,000", to=to).cautions)
    assert "no more charge than the" in told
    assert "tank" not in told


def test_the_fuel_surcharge_is_named_as_included_only_where_there_is_one(make_book, carrier, small_quote) -> None:
    row = FuelScheme(
        scheme="Lamp oil", as_of=DAY, price_e4=38_000, method="per mile", peg_e4=25_000, miles_per_gallon=6.5
    )
    book = make_book([(carrier("Lark", fuel_scheme="Lamp oil"), 10_000)], fuel=(row,))
    (with_fuel,) = small_quote(book).options
    (without,) = small_quote(make_book([(carrier("Lark"), 10_000)])).options
    assert any("fuel surcharge" in line for line in with_fuel.included)
    assert not any("fuel surcharge" in line for line in without.included)


def test_a_long_row_of_stages_is_named_by_its_ends(dealer_quote) -> None:
    (told,) = {option.not_included[0] for option in dealer_quote("HV-1042", to="Bremen, Germany", term="EXW").options}
    assert told == "What you pay to others, estimated in addition to the price: all from loading to duty and tax."
    for option in dealer_quote("HV-1042", to="Bremen, Germany").options:
        assert option.not_included[0].endswith("unloading, customs clearance there and duty and tax.")


def test_a_vehicle_too_tall_for_every_truck_is_told_in_the_same_words_beyond_the_sea(dealer_quote) -> None:
    for to in ("85719", "Bremen, Germany"):
        with pytest.raises(NoAnswer, match="no carrier takes a vehicle of this height: the roomiest takes") as told:
            dealer_quote("1979 camper, 402 in x 96 in x 160 in, 14800 lb, $36,500", to=to)
        assert told.value.remedy


def test_what_a_buyer_reads_has_its_days_in_words_and_speaks_to_the_buyer(dealer_quote) -> None:
    quote = dealer_quote("HV-1042", to="Bremen, Germany")
    missed = [line for option in quote.options for line in option.warnings if "misses the sailing of" in line]
    assert missed
    assert not any(re.search(r"\d{4}-\d{2}-\d{2}", line) for line in missed)
    assert quote.reason == "The lowest price overall, counting what you pay to others."


def test_a_currency_misspelt_is_answered_with_the_one_that_is_meant(dealer_quote) -> None:
    with pytest.raises(WrongInput, match="the rate book has no rate for EURO — did you mean EUR"):
        dealer_quote("HV-1042", to="59715", currency="euro")


@pytest.mark.parametrize(("to", "step"), [("Honolulu, HI", "Released at the port"), ("Bremen", "Cleared by customs")])
def test_no_customs_clear_what_stays_in_the_country(dealer_quote, to: str, step: str) -> None:
    for option in dealer_quote("HV-1042", to=to).options:
        steps = {milestone.stage: milestone.what for milestone in option.dates.timeline}
        assert steps["release"] == step


def test_what_the_rate_book_has_the_buyer_know_of_the_country_is_said(dealer_quote, shipped) -> None:
    """Taxes that are not counted, and on which side the steering must be, cost the buyer most when nobody said it."""
    rows = [row for row in shipped.rates.countries if row.country in ("CA", "JP", "AE")]
    for row, to in zip(sorted(rows, key=lambda row: row.country), ("Dubai", "Toronto, ON", "Tokyo"), strict=True):
        for option in dealer_quote("HV-1042", to=to).options:
            assert f"{row.name}: {row.note.rstrip('.')}." in option.warnings
            assert any("steering" in line for line in option.warnings) == (row.steering != "both")


def test_the_excess_of_the_marine_cover_and_what_it_leaves_out_are_said(dealer_quote, shipped) -> None:
    quote = dealer_quote("HV-1042", to="Bremen, Germany")
    (row,) = [row for row in shipped.rates.marine_cover if row.conditions == "A" and not row.mode]
    assert (row.excess_ppm, row.note.split(";")[0]) == (5_000, "Most perils")
    told = " ".join(quote.options[0].included)
    assert "less an excess of 0.5 % of it." in told
    assert "Conditions A of the cover, in short: most perils; not war" in told


@pytest.mark.parametrize(
    ("to", "way_on"),
    [
        (
            "Flying Fish Cove, Christmas Island",
            "The onward journey from the port of Fremantle, Australia, to Flying Fish Cove.",
        ),
        ("Prudhoe Bay, AK", "The onward journey from the port of Anchorage to Prudhoe Bay."),
    ],
)
def test_where_the_price_ends_at_a_port_the_port_is_named(dealer_quote, to: str, way_on: str) -> None:
    quote = dealer_quote("HV-1042", to=to)
    assert way_on in quote.options[quote.recommended].not_included
