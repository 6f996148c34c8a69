"""Which carriers are shown, what each is good for, and which one is recommended and why."""

import pytest

from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

FROM_75_000 = PricingRules(enclosed_from_minor=75_000_00)


def shown(quote) -> dict[str, tuple[str, ...]]:
    return {option.legs[0].carrier: option.good_for for option in quote.options}


def chosen(quote) -> str:
    return quote.options[quote.recommended].legs[0].carrier


def test_each_choice_has_its_own_reason_and_they_stand_by_price(make_book, carrier, small_quote) -> None:
    quote = small_quote(
        make_book(
            [
                (carrier("Slow Tortoise", pickup_to_days=20), 9_000),
                (carrier("Dear Hare", pickup_to_days=1), 15_000),
                (carrier("Old Umbrella", cover=900_000), 14_000),
                (carrier("Cloaked Mole", "enclosed"), 12_000),
                (carrier("Nobody's Choice", pickup_to_days=21), 9_500),
                (carrier("Middling Stork"), 11_000),
                (carrier("Cloaked Bat", "enclosed"), 13_000),
            ]
        )
    )
    assert list(shown(quote).items()) == [
        ("Slow Tortoise", ("lowest price",)),
        ("Middling Stork", ("sooner than at the lowest price",)),
        ("Cloaked Mole", ("lowest price, enclosed trailer", "soonest, enclosed trailer")),
        ("Old Umbrella", ("most cover",)),
        ("Dear Hare", ("soonest",)),
    ]


def test_a_carrier_that_is_best_at_everything_is_shown_once(make_book, carrier, small_quote) -> None:
    quote = small_quote(
        make_book([(carrier("Dodo", pickup_to_days=9, cover=40_000), 20_000), (carrier("Swift"), 10_000)])
    )
    assert shown(quote) == {"Swift": ("lowest price", "soonest", "most cover")}


def test_equal_prices_go_to_the_sooner_then_the_better_covered_then_the_order_of_the_sheet(
    make_book, carrier, small_quote
) -> None:
    sooner = [(carrier("Late Owl", pickup_to_days=9), 10_000), (carrier("Early Lark", pickup_to_days=2), 10_000)]
    covered = [(carrier("Thin Coat", cover=50_000), 10_000), (carrier("Thick Coat", cover=60_000), 10_000)]
    first = [(carrier("Tweedle Dum"), 10_000), (carrier("Tweedle Dee"), 10_000)]
    leaders = [next(iter(shown(small_quote(make_book(rows))))) for rows in (sooner, covered, first)]
    assert leaders == ["Early Lark", "Thick Coat", "Tweedle Dum"]


def test_the_wished_trailer_is_the_only_one_shown(make_book, carrier, small_quote) -> None:
    book = make_book([(carrier("Mole", "enclosed"), 20_000), (carrier("Lark"), 10_000)])
    assert list(shown(small_quote(book, trailer="enclosed"))) == ["Mole"]
    assert list(shown(small_quote(book, trailer="open"))) == ["Lark"]


@pytest.fixture
def lark_and_mole(make_book, carrier):
    rows = [(carrier("Lark", cover=80_000, cover_can_rise=True), 10_000), (carrier("Mole", "enclosed", cover=200_000, cover_can_rise=True), 20_000)]  # fmt: skip
    return make_book(rows, rules=FROM_75_000)


def test_an_ordinary_car_goes_at_the_lowest_price(lark_and_mole, small_quote) -> None:
    quote = small_quote(lark_and_mole)
    assert chosen(quote) == "Lark"
    assert quote.reason == "The lowest price, and its cover reaches the value of 38,000 USD."


@pytest.mark.parametrize(("value", "carrier_name"), [(74_999_99, "Lark"), (75_000_00, "Mole")])
def test_from_the_value_the_manager_set_a_car_goes_enclosed(
    lark_and_mole, small_quote, minnow, value: int, carrier_name: str
) -> None:
    quote = small_quote(lark_and_mole, replace(minnow, value_minor=value))
    assert chosen(quote) == carrier_name
    if carrier_name == "Mole":
        assert quote.reason == "Enclosed, because a vehicle worth 75,000 USD or more should not travel in the open."


def test_a_manager_who_sets_no_value_recommends_by_cover_alone(lark_and_mole, small_quote, minnow) -> None:
    quote = small_quote(replace(lark_and_mole, pricing=PricingRules()), replace(minnow, value_minor=80_000_01))
    assert chosen(quote) == "Mole"
    assert quote.reason == "The lowest price among the carriers whose cover reaches the value of 80,000.01 USD."


def test_a_car_worth_more_than_any_cover_goes_where_most_is_covered_and_it_is_said(
    lark_and_mole, small_quote, minnow
) -> None:
    quote = small_quote(lark_and_mole, replace(minnow, value_minor=900_000_00))
    assert chosen(quote) == "Mole"
    assert quote.reason.startswith("No carrier's own cover reaches the value of 900,000 USD")
    assert all("more than the cover" in " ".join(option.warnings) for option in quote.options)


@pytest.mark.parametrize(("clearance", "carrier_name"), [(113, "Mole"), (114, "Lark"), (None, "Lark")])
def test_a_car_too_low_for_ramps_goes_enclosed(
    lark_and_mole, small_quote, minnow, clearance: int | None, carrier_name: str
) -> None:
    quote = small_quote(lark_and_mole, replace(minnow, clearance_mm=clearance))
    assert chosen(quote) == carrier_name
    assert ("sits too low" in quote.reason) is (carrier_name == "Mole")


def test_an_unknown_value_is_asked_for(lark_and_mole, small_quote) -> None:
    quote = small_quote(lark_and_mole, Vehicle(stock_number="HV-8", body="roadster"))
    assert quote.reason == "The lowest price. The value is not known, so ask what cover is wanted."
    assert "HV-8: value not known; cover was not compared with it." in quote.assumptions


def test_the_dearest_of_several_vehicles_decides(lark_and_mole, small_quote, minnow) -> None:
    quote = small_quote(lark_and_mole, minnow, replace(minnow, stock_number="HV-8", value_minor=99_000_00))
    assert chosen(quote) == "Mole"


@pytest.mark.parametrize("zip_code", ["59715", "53703", "33040", "04609", "79843", "14850", "98273"])
def test_the_soonest_trailer_of_each_kind_is_always_among_the_choices(dealer_quote, zip_code: str) -> None:
    wide = dealer_quote("HV-1042", to=zip_code).options
    assert len(wide) <= 6
    for trailer in ("open", "enclosed"):
        narrow = dealer_quote("HV-1042", to=zip_code, trailer=trailer).options
        own = [option for option in wide if option.trailer == trailer]
        assert min(o.dates.delivery[1] for o in own) == min(o.dates.delivery[1] for o in narrow)
        assert min(o.total for o in own) == min(o.total for o in narrow)
