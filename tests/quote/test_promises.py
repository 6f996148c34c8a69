"""What a quote says beyond its figures: how long it holds, what was taken for granted, and when the answer is no."""

from datetime import date, timedelta

import pytest

from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.ratebook.rows.areas import Area
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 12, 1)


@pytest.mark.parametrize(
    ("book_ends", "carrier_ends", "until"),
    [
        (None, None, date(2026, 12, 15)),
        (date(2026, 12, 9), None, date(2026, 12, 9)),
        (date(2027, 6, 30), date(2026, 12, 4), date(2026, 12, 4)),
        (date(2026, 12, 2), date(2026, 12, 4), date(2026, 12, 2)),
        (date(2026, 11, 1), None, DAY),
    ],
)
def test_a_quote_holds_no_longer_than_the_rate_book_and_the_carriers_shown(
    make_book, carrier, small_quote, book_ends, carrier_ends, until
) -> None:
    rules = PricingRules(days_valid=14, valid_to=book_ends)
    assert small_quote(make_book([(carrier("Lark", valid_to=carrier_ends), 10_000)], rules=rules)).valid_until == until


def test_an_expired_rate_book_is_said(make_book, carrier, small_quote) -> None:
    book = make_book([(carrier("Lark"), 10_000)], rules=PricingRules(valid_to=date(2026, 11, 30)))
    said = "The rate book ended on 2026-11-30: confirm every price before it is promised."
    assert said in small_quote(book).assumptions
    on_its_last_day = small_quote(book, day=date(2026, 11, 30))
    assert said not in on_its_last_day.assumptions
    assert not any("rate book ended" in sentence for sentence in on_its_last_day.assumptions)


@pytest.mark.parametrize(
    ("begins", "ends", "ready", "said"),
    [
        (None, date(2026, 12, 31), date(2027, 1, 1), "The rate book ends on 2026-12-31, before the vehicle is ready"),
        (None, date(2026, 12, 31), date(2026, 12, 31), None),
        (date(2027, 1, 1), None, DAY, "The rate book begins only on 2027-01-01"),
        (DAY, None, DAY, None),
    ],
)
def test_a_rate_book_that_does_not_hold_from_the_quote_to_the_pickup_is_said(
    make_book, carrier, small_quote, begins: date | None, ends: date | None, ready: date, said: str | None
) -> None:
    book = make_book([(carrier("Lark"), 10_000)], rules=PricingRules(valid_from=begins, valid_to=ends))
    told = [note for note in small_quote(book, ready=ready).assumptions if note.startswith("The rate book")]
    assert told == ([] if said is None else [f"{said}: confirm every price before it is promised."])


@pytest.mark.parametrize(("days", "is_stale"), [(14, False), (15, True)])
def test_an_old_price_of_fuel_is_said(make_book, carrier, small_quote, days: int, is_stale: bool) -> None:
    row = FuelScheme(
        scheme="Lamp oil", as_of=DAY, price_e4=38_000, method="per mile", peg_e4=25_000, miles_per_gallon=6.5
    )
    book = make_book([(carrier("Lark", fuel_scheme="Lamp oil"), 10_000)], fuel=(row,))
    said = "The fuel price is of 2026-12-01, more than 14 days old."
    assert (said in small_quote(book, day=DAY + timedelta(days)).assumptions) is is_stale


def test_assumed_sizes_and_the_miles_of_the_road_are_said(dealer_quote) -> None:
    quote = dealer_quote("HV-1003", to="59715")
    assert any(
        "HV-1003: " in sentence
        and "typical sizes of the body roadster" in sentence
        and "measure before loading" in sentence
        for sentence in quote.assumptions
    )
    miles = quote.options[0].legs[0].distance
    (road,) = [sentence for sentence in quote.assumptions if "road miles" in sentence]
    assert road.startswith(f"Savannah to Bozeman: {miles:,} road miles")


def test_of_namesakes_it_is_said_which_was_taken(dealer_quote) -> None:
    quote = dealer_quote("HV-1042", to="Las Vegas")
    assert quote.to.subdivision == "NV"
    assert any(sentence.startswith("Las Vegas: taken as Las Vegas, Nevada") for sentence in quote.assumptions)


def test_where_a_namesake_may_be_meant_as_well_nothing_is_priced(dealer_quote) -> None:
    with pytest.raises(WrongInput, match="several places called “Portland”") as said:
        dealer_quote("HV-1042", to="Portland")
    assert "“Portland, OR” or “Portland, ME”" in said.value.remedy


def test_no_road_leads_to_honolulu_and_without_ports_what_it_needs_is_said(dealer_quote, shipped) -> None:
    at_home = replace(shipped.rates, ports=(), ocean=())
    with pytest.raises(NoAnswer, match=r"Honolulu.*sea") as told:
        dealer_quote("HV-1042", to="Honolulu", rates=at_home)
    assert "\n" not in str(told.value)


def test_nobody_takes_the_height_and_the_roomiest_is_named(make_book, carrier, small_quote, minnow) -> None:
    book = make_book([(carrier("Wren", highest_mm=1_981), 9_000), (carrier("Crane", highest_mm=2_286), 9_900)])
    with pytest.raises(NoAnswer) as told:
        small_quote(book, replace(minnow, height_mm=3_099))
    assert str(told.value) == (
        "Walla Walla: no carrier takes a vehicle of this height: the roomiest takes a height of up to 90 in"
        " — ask a carrier that does, and add it to the sheet Carriers (trucking.xlsx)"
    )


def test_where_several_things_stand_in_the_way_each_is_counted(make_book, carrier, small_quote, minnow) -> None:
    """The height is in the way of one of the two, the engine that does not run of both."""
    book = make_book([(carrier("Wren", highest_mm=1_000), 9_000), (carrier("Crane"), 9_000)])
    with pytest.raises(NoAnswer) as told:
        small_quote(book, replace(minnow, runs=False, height_mm=1_200))
    assert told.value.what.endswith(
        "it takes only vehicles that run (2 of 2); it takes a height of up to 39.4 in (1 of 2)"
    )


def test_a_carrier_that_cannot_is_left_out_with_its_reasons(make_book, carrier, small_quote, minnow) -> None:
    wren = carrier("Wren", highest_mm=1_000, takes_inoperable=False)
    book = make_book([(wren, 1_000), (carrier("Crane", takes_inoperable=True), 9_000)])
    quote = small_quote(book, replace(minnow, runs=False, height_mm=1_200))
    assert [option.legs[0].carrier for option in quote.options] == ["Crane"]
    (left,) = quote.left_out
    assert (left.carrier, left.reason) == (
        "Wren",
        "it takes a height of up to 39.4 in; it takes only vehicles that run",
    )


def test_one_vehicle_that_cannot_go_keeps_the_carrier_from_all(make_book, carrier, small_quote, minnow) -> None:
    book = make_book([(carrier("Wren", highest_mm=1_300), 1_000), (carrier("Crane"), 9_000)])
    tall = replace(minnow, stock_number="HV-8", height_mm=1_301)
    assert [option.legs[0].carrier for option in small_quote(book, minnow, tall).options] == ["Crane"]


def test_a_book_without_a_carrier_on_the_day_says_so(make_book, carrier, small_quote) -> None:
    with pytest.raises(NoAnswer, match="no carrier of the rate book is valid on this day"):
        small_quote(make_book([(carrier("Lark", valid_to=date(2026, 11, 30)), 10_000)]))


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"ready": date(2026, 11, 30)}, "cannot be ready on 2026-11-30, before the day of the quote"),
        ({"term": "FOB"}, "FOB is not offered for a transport at home"),
        ({"currency": "KWD"}, "the rate book has no rate for KWD"),
    ],
)
def test_a_request_that_contradicts_itself_is_told_so_with_a_remedy(
    make_book, carrier, small_quote, asked, said
) -> None:
    with pytest.raises(WrongInput, match=said) as told:
        small_quote(make_book([(carrier("Lark"), 10_000)]), **asked)
    assert " — " in str(told.value)


def test_the_words_that_say_the_same_are_accepted(make_book, carrier, small_quote) -> None:
    quote = small_quote(make_book([(carrier("Lark"), 10_000)]), term="DAP", currency="USD")
    assert quote.options[0].term == "DAP"


@pytest.mark.parametrize(("title", "word"), [("lien", "lienholder"), ("missing", "title is not at hand")])
def test_a_title_that_is_not_in_order_is_warned_of_above_the_price(
    make_book, carrier, small_quote, minnow, title, word
) -> None:
    book = make_book([(carrier("Lark"), 10_000)])
    assert word in " ".join(small_quote(book, replace(minnow, title=title)).options[0].before_price)
    assert small_quote(book).options[0].before_price == ()


def test_express_brings_the_pickup_forward_and_an_area_its_extra_days(make_book, carrier, small_quote) -> None:
    lark = carrier("Lark", pickup_from_days=3, pickup_to_days=8, express_pickup_days=2)
    book = make_book([(lark, 10_000)])
    plain, express = small_quote(book).options[0], small_quote(book, express=True).options[0]
    assert express.dates.pickup[1] < plain.dates.pickup[1]
    assert express.dates.delivery[1] < plain.dates.delivery[1]
    far = small_quote(replace(book, areas=(Area(area="Onions", zip_from="993", extra_days=3),))).options[0]
    assert far.dates.delivery[1] > plain.dates.delivery[1]


def test_a_vehicle_of_which_nothing_is_known_is_quoted_and_everything_is_said(make_book, carrier, small_quote) -> None:
    quote = small_quote(make_book([(carrier("Lark", highest_mm=1_000), 10_000)]), Vehicle(stock_number="HV-9"))
    assert "HV-9: length, width, height, ground clearance and weight not known; taken as ordinary." in quote.assumptions


def test_a_place_on_the_mainland_and_one_beside_it_differ(dealer_quote) -> None:
    for to, by_ferry in (("98221", False), ("Friday Harbor, WA", True)):
        for option in dealer_quote("HV-1042", to=to).options:
            assert any(leg.mode == "ferry" for leg in option.legs) == by_ferry, to
