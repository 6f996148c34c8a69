"""Two rate books over the same transports: what changes is told by its weight, and the way a quote is made is the only one."""

from datetime import date
from decimal import Decimal

import pytest

from shipcalc.compare.basket import Asked, Only, built_in_basket, places_at_home
from shipcalc.compare.basket_rows import basket_of_rows
from shipcalc.compare.books import Effect, Outcome, effects, outcome, quote_by
from shipcalc.compare.carriers import carrier_changes
from shipcalc.compare.comparison import STEPS, by_weight, carriers_exchanged, moves, side_effects, steps
from shipcalc.quote.model import Wishes
from shipcalc.quote.request import Request
from shipcalc.ratebook.rows.areas import Season
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.vehicle_sizes import VehicleSize
from shipcalc.ratebook.workbook.region_codes import CONTIGUOUS_STATES
from shipcalc.records import replace

DAY = date(2026, 12, 1)


@pytest.fixture
def asked(minnow, yard, door):
    def ask(vehicle=minnow, **wishes):
        request = Request(vehicles=(vehicle,), starts=(yard,), to=door, ready=DAY, wishes=Wishes(**wishes))
        return Asked("Minnow to Walla Walla", request)

    return ask


def effect_of(asked, old, new):
    (effect,) = effects((asked,), old, new, DAY)
    return effect


def test_a_dearer_mile_is_a_dearer_quote_to_the_cent(make_book, carrier, asked):
    """331 road miles at 0.82 and at 0.90: 271.42 and 297.90, worked by hand."""
    old, new = (make_book([(carrier("Owl"), rate)]) for rate in (8_200, 9_000))

    effect = effect_of(asked(), old, new)

    assert (effect.old.total, effect.new.total) == (Decimal("271.42"), Decimal("297.90"))
    assert effect.change == Decimal("26.48")
    assert effect.differs_in[0] == "price"
    assert "carrier" not in effect.differs_in


def test_what_a_quote_says_is_compared_and_not_where_its_rates_stand(make_book, carrier, asked):
    book = make_book([(carrier("Owl"), 8_200)])
    moved = replace(book, bands=tuple(replace(b, at=replace(b.at, row=99)) for b in book.bands), fingerprint="another")

    assert effect_of(asked(), book, moved).differs_in == ()


def test_the_same_price_from_another_carrier_is_told(make_book, carrier, asked):
    old, new = make_book([(carrier("Owl"), 8_200)]), make_book([(carrier("Newt"), 8_200)])

    effect = effect_of(asked(), old, new)

    assert effect.change == 0
    assert "carrier" in effect.differs_in
    assert "price" not in effect.differs_in


def test_dates_and_papers_are_told_where_the_price_stays(make_book, carrier, asked):
    old, new = make_book([(carrier("Owl"), 8_200)]), make_book([(carrier("Owl", spare_days=6), 8_200)])

    assert "dates" in effect_of(asked(), old, new).differs_in


def test_an_answer_that_only_one_book_has_is_told(make_book, carrier, asked):
    old = make_book([(carrier("Owl"), 8_200)])
    new = make_book([(carrier("Owl", longest_mm=1_000), 8_200)])

    effect = effect_of(asked(), old, new)

    assert (effect.change, effect.differs_in) == (None, ("answer",))
    assert "no carrier takes a vehicle of this length" in effect.new.refusal
    assert side_effects((effect,)) == ("1 can no longer be quoted",)


def test_sizes_that_were_assumed_are_assumed_anew_by_each_book(make_book, carrier, asked, minnow):
    """A body whose typical size grows meets a charge for long vehicles in the new book alone."""
    size = VehicleSize(
        body="roadster", length_mm=3_900, width_mm=1_500, height_mm=1_200, clearance_mm=130, mass_grams=900_000
    )
    long = ExtraCharge(code="long", label="Long", length_over_mm=4_000, charge="flat", amount_minor=5_000)
    bare = replace(minnow, length_mm=None)
    old = make_book([(carrier("Owl"), 8_200)], sizes=(size,), extras=(long,))
    new = replace(old, sizes=(replace(size, length_mm=4_200),))

    assert effect_of(asked(bare), old, new).change == Decimal("50.00")
    filled = replace(minnow, assumed=("length_mm",))
    assert effect_of(asked(filled), old, new).change == Decimal("50.00")


def test_a_service_can_be_looked_at_by_itself(make_book, carrier, asked):
    book = make_book([(carrier("Owl"), 8_200), (carrier("Newt"), 9_900)])

    assert outcome(asked(), book, DAY).carrier == "Owl"
    assert outcome(replace(asked(), only=Only("Newt", "open")), book, DAY).carrier == "Newt"
    assert quote_by(replace(asked(), only=Only("newt", "open")), book, DAY).options[0].total == Decimal("327.69")


def test_a_dear_carriers_change_shows_among_the_carriers_though_no_quote_shows_it(make_book, carrier, yard):
    """Every price of 8 vehicles to 49 places rises by the miles × 0.01; whoever is cheaper stays the same."""
    cheap, dear = carrier("Owl"), carrier("Newt")
    old, new = make_book([(cheap, 8_200), (dear, 30_000)]), make_book([(cheap, 8_200), (dear, 30_100)])

    owl, newt = carrier_changes(old, new, (yard,), DAY)

    assert (owl.carrier, owl.dearer, owl.is_any) == ("Owl", 0, False)
    assert (newt.carrier, newt.dearer, newt.cheaper) == ("Newt", newt.prices, 0)
    assert newt.prices > 200
    assert 0 < newt.least_minor < newt.most_minor < 4_500  # no two states are 4,500 road miles apart


def test_a_carrier_that_came_or_went_is_counted(make_book, carrier, yard):
    one, both = make_book([(carrier("Owl"), 8_200)]), make_book([(carrier("Owl"), 8_200), (carrier("Newt"), 9_000)])

    assert carrier_changes(one, both, (yard,), DAY)[1].gained > 200
    assert carrier_changes(both, one, (yard,), DAY)[1].lost > 200


def test_the_built_in_places_are_one_in_every_contiguous_state():
    assert sorted(place.subdivision for place in places_at_home()) == sorted(CONTIGUOUS_STATES)


def test_the_built_in_basket_can_be_priced_at_home_by_the_invented_book(shipped, yard):
    basket = [a for a in built_in_basket((yard,), DAY) if a.request.to.country == "US"]
    refused = [
        o.refusal for a in basket[::4] if (o := outcome(a, shipped.rates, DAY)).refusal and "sea" not in o.refusal
    ]

    assert len(basket) > 50
    assert refused == []


def test_rows_get_transports_that_meet_them(shipped, yard):
    """Without these, a change of a row that nothing in the spread meets would look as if it did nothing."""
    rates = shipped.rates
    rows = {
        "extras": [row for row in rates.extras if row.vehicles_over == 3 or row.express],
        "seasons": rates.seasons[:1],
        "areas": [row for row in rates.areas if row.charge][:3],
        "bands": rates.bands[:3],
        "sizes": rates.sizes[:1],
    }
    basket = basket_of_rows(rows, rates, (yard,), DAY)
    dearer = {
        "extras": tuple(replace(row, amount_minor=(row.amount_minor or 0) + 9_900) if row.charge == "flat" else replace(row, percent_ppm=(row.percent_ppm or 0) + 90_000) for row in rates.extras),
        "seasons": tuple(replace(row, percent_ppm=row.percent_ppm + 90_000) for row in rates.seasons),
        "areas": tuple(replace(row, amount_minor=row.amount_minor + 9_900) if row.charge else row for row in rates.areas),
        "bands": tuple(replace(row, rate_e4=row.rate_e4 + 1_000) for row in rates.bands),
        "sizes": tuple(replace(row, length_mm=row.length_mm + 3_000) for row in rates.sizes),
    }  # fmt: skip
    for field, its_rows in rows.items():
        assert its_rows, field
        own = basket_of_rows({field: its_rows}, rates, (yard,), DAY)
        found = effects(own, rates, replace(rates, **{field: dearer[field]}), DAY)
        assert any(effect.differs_in for effect in found), field
    assert len(basket) == len({(asked.request, asked.only) for asked in basket})


def test_next_months_price_shows_for_pickups_of_next_month(shipped, yard):
    """A row is tried today, on its first and on its last day."""
    rates, first = shipped.rates, date(2027, 1, 4)
    bands = [band for band in rates.bands if band.trailer == "open"]
    later = [replace(band, valid_from=first, rate_e4=band.rate_e4 + 5_000) for band in bands]
    today = [replace(band, valid_to=date(2027, 1, 3)) if band in bands else band for band in rates.bands]
    new = replace(rates, bands=(*today, *later), changes=None)
    assert not any(one.is_any for one in carrier_changes(rates, new, (yard,), DAY))
    assert any(one.dearer for one in carrier_changes(rates, new, (yard,), first))
    met = basket_of_rows({"bands": later[:1]}, new, (yard,), DAY)
    assert {asked.request.ready for asked in met} == {DAY, first}
    assert {bool(effect.differs_in) for effect in effects(met, rates, new, DAY)} == {False, True}


def test_a_lanes_row_is_met_over_its_lane(shipped, yard):
    rates = shipped.rates
    for row in rates.lanes:
        new = replace(rates, lanes=tuple(one for one in rates.lanes if one is not row), changes=None)
        basket = basket_of_rows({"lanes": [row]}, rates, (replace(yard, yard="Savannah"), yard), DAY)
        assert any(effect.differs_in for effect in effects(basket, rates, new, DAY)), row


@pytest.mark.parametrize(
    ("sheet", "is_meant", "changed"),
    [
        ("ferries", lambda row: row.takes_vehicles, lambda row: {"amount_minor": row.amount_minor - 1_00}),
        ("ports", lambda row: row.country == "LB", lambda row: {"gate_minor": row.gate_minor + 9_00}),
        ("containers", lambda row: True, lambda row: {"side_clearance_mm": row.side_clearance_mm + 1}),
        ("on_carriage", lambda row: row.country == "LI", lambda row: {"base_minor": row.base_minor + 1_00}),
        ("on_carriage", lambda row: row.country == "AG", lambda row: {"miles_a_day": 6}),
        ("on_carriage", lambda row: row.country == "SV", lambda row: {"miles_a_day": row.miles_a_day + 1}),
        ("ports", lambda row: row.port == "CAMTR", lambda row: {"roro": not row.roro}),
        ("road_factors", lambda row: row.from_place == "UY", lambda row: {"to_place": None}),
        ("documents", lambda row: row.treatment == "collector", lambda row: {"prepared_by": "buyer"}),
        ("stage_charges", lambda row: row.not_to_country, lambda row: {"amount_minor": row.amount_minor - 1_00}),
    ],
)  # fmt: skip
def test_a_changed_row_is_met_however_few_it_concerns(shipped, yard, sheet, is_meant, changed):
    """An island, a country that waits for release, a millimetre at the wall, small countries, a charge of all but some countries;
    a place just as far as one day's driving, a port to which trucks are cheaper, a road over a border, a collector's piece."""
    rates = shipped.rates
    row = next(row for row in getattr(rates, sheet) if is_meant(row))
    other = replace(row, **changed(row))
    new = replace(rates, **{sheet: tuple(other if one is row else one for one in getattr(rates, sheet))})

    basket = (
        *basket_of_rows({sheet: [other]}, new, (yard,), DAY),
        *basket_of_rows({sheet: [row]}, rates, (yard,), DAY),
    )

    assert any(effect.differs_in for effect in effects(basket, rates, new, DAY))


def test_a_season_of_every_year_is_met_in_its_next_two(shipped, yard):
    season = Season(season="s", label="S", first_day=date(2020, 2, 29), last_day=date(2020, 3, 9), percent_ppm=1)

    days = {asked.request.ready for asked in basket_of_rows({"seasons": [season]}, shipped.rates, (yard,), DAY)}

    assert days == {date(2027, 3, 1), date(2027, 3, 9), date(2028, 2, 29), date(2028, 3, 9)}


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        ("Owl", "Newt", ("Owl", "Newt")),
        ("Owl, Tideway, a haulier", "Newt, Tideway, a haulier", ("Owl", "Newt")),
        ("Owl, Tideway", "Owl, Tideway", ("Owl, Tideway", "Owl, Tideway")),
        ("Owl, Tideway", "Owl", ("Owl, Tideway", "Owl")),
        ("", "Owl", ("", "Owl")),
    ],
)
def test_of_several_carriers_those_are_named_that_were_exchanged(asked, was, now, told):
    assert carriers_exchanged(Effect(asked(), Outcome(carrier=was), Outcome(carrier=now))) == told


def test_moves_and_steps_count_the_same_prices(make_book, carrier, asked):
    rules = PricingRules(rounding_step_minor=1)
    old = make_book([(carrier("Owl"), 8_200)], rules=rules)
    found = [
        effect_of(asked(), old, make_book([(carrier("Owl"), rate)], rules=rules))
        for rate in (7_000, 8_200, 8_300, 30_000)
    ]

    told = moves(found)

    assert (told.priced, told.dearer, told.cheaper) == (4, 2, 1)
    assert (told.least, told.most) == (Decimal("-39.72"), Decimal("721.58"))
    assert told.middle == Decimal("3.31")
    assert dict(steps(found)) | {"as before": 1, "down 20 to 50": 1, "up 0 to 20": 1, "up more than 500": 1} == dict(
        steps(found)
    )
    assert sum(count for _, count in steps(found)) == 4
    assert len(steps(found)) == len(STEPS) + 2
    assert [effect.change for effect in by_weight(found)] == [Decimal("721.58"), Decimal("-39.72"), Decimal("3.31")]
