"""How a vehicle goes aboard in each of its sixteen states, held to what carriers publish of it, and to the rules of the road.

RoRo: the published cargo acceptance terms of a short-sea vehicle carrier (its page "Cargo Acceptance", read 28 November 2026):
units are self-propelled and self-drivable, start without help from outside, have working brakes and operational steering; units
not made to drive themselves are exempt from the first, "however any braking systems must be in good working order"; what cannot
"can be treated as a static", lifted aboard on a trailer of the port. Containers: common practice, no source (the IMO/ILO/UNECE
CTU Code of 2014 tells how wheeled cargo is secured, not how it gets in). Road: 49 CFR 393.128(a) and 393.130(a).
"""

from itertools import product

import pytest

from shipcalc.pricing.loading import WITHOUT_SHEET, way_for
from shipcalc.vehicles.vehicle import WORKS, Vehicle

STATES = tuple(product((True, False), repeat=4))
SAID = {"runs": "does not run", "rolls": "does not roll", "steers": "does not steer", "brakes": "no brakes"}
# What only one of the ways is called, in titles, legs, lines and warnings alike.
WORDS = {"driven": ("driven aboard",), "towed": ("in tow", "towed"), "static": ("platform",)}


def by_published_terms(runs: bool, rolls: bool, steers: bool, brakes: bool) -> str:
    """Return how the terms above have a vehicle go aboard; what does not roll neither drives itself nor is towed."""
    if not (rolls and steers and brakes):
        return "static"
    return "driven" if runs else "towed"


def described(state: tuple[bool, ...]) -> str:
    failing = [SAID[work] for work, works in zip(WORKS, state, strict=True) if not works]
    return ", ".join(["1961 roadster, 153 in x 60 in x 49 in, 2030 lb, $38,000", *failing])


@pytest.fixture(scope="module")
def by_state(dealer_quote):
    return {state: dealer_quote(described(state), to="Bremerhaven", start="Savannah, GA") for state in STATES}


@pytest.mark.parametrize("state", STATES)
def test_each_state_goes_aboard_as_published_terms_have_it_and_by_no_other_way(by_state, state) -> None:
    wanted = by_published_terms(*state)
    by_ship = [option for option in by_state[state].options if option.ocean == "roro"]
    assert by_ship, "some line takes it"
    for option in by_ship:
        assert [one.way for one in option.loading] == [wanted]
        texts = [option.title, *option.warnings, *option.before_price, *(leg.loading for leg in option.legs)]
        told = " ".join([*texts, *(charge.label for charge in option.charges), option.loading[0].how]).casefold()
        assert {way for way, words in WORDS.items() if any(word in told for word in words)} == {wanted}


@pytest.mark.parametrize("state", STATES)
def test_a_container_takes_each_state_by_one_way_with_what_it_needs(by_state, state) -> None:
    """Common practice, no source: what drives is driven in, what rolls is winched, what does not needs skates or a forklift."""
    rolls = state[1]
    wanted = "driven in" if all(state) else "winched in" if rolls else "lifted in on skates"
    for option in by_state[state].options:
        if option.title.startswith(("1 ×", "Shared")):
            assert [one.how for one in option.loading] == [wanted]
            extra = [charge for charge in option.charges if charge.code.startswith("loading.")]
            assert bool(extra) == (wanted != "driven in")
            assert {charge.stage for charge in extra} <= {"loading at origin", "destination terminal"}


@pytest.mark.parametrize("state", STATES)
def test_what_cannot_be_driven_is_unloaded_at_a_price_or_said_not_to_be(by_state, state) -> None:
    for option in by_state[state].options:
        unloading = [charge for charge in option.charges if charge.code.endswith(".unloading")]
        on_the_last_truck = [c for c in option.charges if c.code.startswith(("oncarriage.winch", "oncarriage.skates"))]
        if all(state):
            assert not unloading
            assert not on_the_last_truck
            continue
        assert unloading or any("taking it off at arrival is not in the price" in line for line in option.before_price)
        what = "oncarriage.winch" if state[1] else "oncarriage.skates"
        told = [(charge.code, charge.stage) for charge in on_the_last_truck]
        assert told == [(f"{what}.on", "on-carriage"), (f"{what}.off", "unloading")]


@pytest.mark.parametrize("to", ["Bremen, Germany", "Lagos, Nigeria", "Tokyo, Japan", "Honolulu, HI"])
def test_no_option_of_a_demo_vehicle_names_two_ways_of_loading(shipped, dealer_quote, to: str) -> None:
    cannot = [vehicle.stock_number for vehicle in shipped.stock.vehicles if not vehicle.drives]
    assert len(cannot) > 8
    for number in (*cannot, "HV-1042", "HV-1048"):
        for option in dealer_quote(number, to=to).options:
            texts = [option.title, *(leg.loading for leg in option.legs), *(charge.label for charge in option.charges)]
            told = {way for way, words in WORDS.items() if any(word in " ".join(texts).casefold() for word in words)}
            assert told == {one.way for one in option.loading} - {"container", "truck"}, (number, option.title)


def test_lines_that_take_only_what_drives_are_left_out_with_the_reason(by_state) -> None:
    reasons = [out.reason for out in by_state[False, False, True, False].left_out]
    assert any(
        reason.endswith("does not run, roll or brake, and it takes only vehicles that can be driven")
        for reason in reasons
    )


def test_without_the_sheet_nothing_is_put_on_a_platform_and_nothing_driven_that_does_not_drive(shipped) -> None:
    row = next(row for row in shipped.rates.ocean if row.mode == "roro" and row.takes_inoperable)
    for state in STATES:
        vehicle = Vehicle(stock_number="HV-7", **dict(zip(WORKS, state, strict=True)))
        way = way_for(vehicle, row, ())
        wanted = by_published_terms(*state)
        assert (way.loading if way else "static") == wanted
        assert way is None or way in WITHOUT_SHEET


def test_each_vehicle_of_a_load_goes_its_own_way(dealer_quote) -> None:
    quote = dealer_quote("HV-1080", "HV-1076", to="Bremerhaven", start="Savannah, GA", ocean="roro")
    option = quote.options[0]
    assert [one.way for one in option.loading] == ["static", "driven"]
    hired = [charge.vehicle for charge in option.charges if charge.code.startswith("loading.on-platform")]
    assert set(hired) == {"HV-1080"}
    assert [charge.vehicle for charge in option.charges if charge.code == "loading.driven-aboard.loading"] == [
        "HV-1076"
    ]


def test_what_weighs_more_than_ten_thousand_pounds_is_secured_as_heavy_equipment(dealer_quote) -> None:
    """49 CFR 393.128(a): automobiles "which individually weigh 4,536 kg (10,000 lb) or less"; 393.130(a): what weighs more."""
    heavy = dealer_quote("HV-1048", to="78701").options
    assert any("393.130" in line for option in heavy if option.trailer for line in option.warnings)
    light = dealer_quote("HV-1121", to="78701").options
    assert not any("393.130" in line for option in light for line in option.warnings)
