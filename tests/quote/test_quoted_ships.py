"""Ships that a forwarder has quoted, ports that charge line by line, hauliers that ask by town: as a quote tells them."""

from datetime import date, timedelta
from decimal import Decimal

import pytest

from shipcalc.quote.buyer import for_buyer
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.ratebook.rows.port_charges import PortCharge
from shipcalc.ratebook.rows.quotations import OceanQuotation
from shipcalc.records import replace
from tests.quote.sea_book import DAY, LAST_LEG, MINNOW, a_sea_book, at, sea_quote

FREIGHT = OceanQuotation(
    quotation="HF-1", forwarder="Harrow Quay", mode="roro", from_port="USTIW", to_port="DEBRV", basis="per W/M",
    amount_e4=60_0000, currency="EUR", minimum_e4=700_0000, valid_to=date(2026, 12, 9), at=at("Ocean quotations", 2),
)  # fmt: skip
BAF = OceanQuotation(
    quotation="HF-1", forwarder="Harrow Quay", surcharge="BAF", percent_ppm=100_000, at=at("Ocean quotations", 3)
)
ESTIMATED = "Estimated from distance."


def quoted(*rows, **more):
    return sea_quote(book=a_sea_book(quotations=rows, **more), ocean="roro", sailing=None)


def ways(quote, start="Tacoma", end="Bremerhaven"):
    return [option for option in quote.options if f"{start} to {end}" in option.title]


def lines(option, prefix):
    return [charge for charge in option.charges if charge.code.startswith(prefix)]


def test_a_quotation_prices_its_ship_in_its_own_lines_and_stops_the_estimate():
    """60 EUR at 0.9215 are 65.1112 USD, with 12 % on them 72.9245 for each of 7.429 revenue tons: less than 700 EUR, 759.63 USD."""
    option = ways(quoted(FREIGHT, BAF))[0]

    freight, minimum, baf = lines(option, "ocean.")

    assert (freight.label, freight.quantity, freight.unit, freight.rate) == (
        "Ocean freight, RoRo ship",
        Decimal("7.429"),
        "W/M",
        Decimal("72.9245"),
    )
    assert freight.amount + minimum.amount == Decimal("850.79")  # 759.63 × 1.12, half up
    assert (baf.label, baf.rate, baf.of) == ("BAF", Decimal("10.00"), (freight.line, minimum.line))
    assert freight.note == ""
    assert freight.source == "overseas.xlsx › Ocean quotations!A2"


def test_who_quoted_it_is_told_to_the_office_alone():
    quote = quoted(FREIGHT, BAF)
    freight, *_ = lines(ways(quote)[0], "ocean.")
    assert freight.offer == "Harrow Quay, quotation HF-1, until 2026-12-09, 60.00 EUR at 0.9215 of 2026-11-23"

    buyers = for_buyer(quote)

    assert "Harrow" not in str(buyers)
    assert "HF-1" not in str(buyers)


def test_what_is_reckoned_from_the_distance_says_so_in_its_line_and_once_in_the_quote():
    (told,) = [said for said in quoted().assumptions if "distance" in said]
    assert told == "Ocean freight is estimated from distance: nobody has quoted it."
    assert all(lines(option, "ocean.freight")[0].note == ESTIMATED for option in quoted().options)

    both = quoted(FREIGHT)
    (told,) = [said for said in both.assumptions if "distance" in said]
    assert told == "Ocean freight is estimated from distance where its line says so: nobody has quoted it."


def test_a_quote_is_good_no_longer_than_the_quotation_that_prices_it():
    assert quoted().valid_until == DAY + timedelta(days=14)
    assert quoted(FREIGHT).valid_until == date(2026, 12, 9)


def test_a_ship_that_may_sail_after_its_quotation_has_ended_says_so():
    (option, *_) = ways(quoted(FREIGHT))
    assert any(warning.startswith("The ocean freight is quoted until 9 Dec 2026") for warning in option.warnings)


def test_an_expired_quotation_is_not_used():
    old = replace(FREIGHT, valid_to=DAY - timedelta(days=1))
    assert all(lines(option, "ocean.freight")[0].note == ESTIMATED for option in quoted(old).options)


def test_transit_cut_off_and_free_days_are_those_of_the_quotation():
    told = replace(FREIGHT, transit_days=50, cutoff_days=9, free_days=21, valid_to=None)
    plain, own = (ways(quoted(row))[0].dates.timeline for row in (replace(FREIGHT, valid_to=None), told))

    def days(timeline, stage):
        return next(step for step in timeline if step.stage == stage)

    at_sea = days(own, "arrival").earliest - days(own, "sailing").earliest
    assert at_sea == timedelta(days=50)
    assert (
        days(own, "sailing").earliest - days(own, "cut-off").earliest
        > days(plain, "sailing").earliest - days(plain, "cut-off").earliest
    )
    assert (days(plain, "arrival").free_days, days(own, "arrival").free_days) == (7, 21)


def test_what_the_freight_includes_is_charged_by_no_port():
    for includes in ((), ("origin terminal",), ("origin terminal", "destination terminal")):
        option = ways(quoted(replace(FREIGHT, includes=includes)))[0]
        stages = {charge.stage for charge in lines(option, "port.")}
        assert stages == {"origin terminal", "destination terminal"} - set(includes)


@pytest.mark.parametrize("term", ["FOB", "DAP"])
def test_a_surcharge_is_paid_by_whom_its_stage_falls_to(term):
    thc = replace(
        BAF, surcharge="THC", percent_ppm=None, stage="destination terminal", basis="per vehicle", amount_e4=80_0000
    )
    book = a_sea_book(quotations=(FREIGHT, thc))
    (charge,) = lines(ways(sea_quote(book=book, ocean="roro", term=term))[0], "ocean.surcharge")
    assert (charge.payer, charge.amount) == (
        ("buyer", Decimal("80.00")) if term == "FOB" else ("seller", Decimal("89.60"))
    )


def test_a_port_charges_line_by_line_while_its_rows_hold():
    gate = PortCharge(
        port="DEBRV",
        label="Gate",
        per="vehicle",
        amount_e4=40_0000,
        valid_to=date(2026, 12, 1),
        at=at("Port charges", 2),
    )
    dues = PortCharge(
        port="DEBRV", label="Quay dues", per="revenue ton", amount_e4=3_0000, mode="roro", at=at("Port charges", 3)
    )

    option = ways(quoted(port_charges=(gate, dues)))[0]
    there = [charge for charge in lines(option, "port.") if charge.stage == "destination terminal"]
    assert [(charge.label, charge.amount) for charge in there] == [
        ("Gate, port of arrival", Decimal("44.00")),  # 40 and a tenth
        ("Quay dues, port of arrival", Decimal("24.52")),  # 7.429 × 3.30
    ]

    ended = ways(quoted(port_charges=(replace(gate, valid_to=date(2026, 11, 30)),)))[0]
    assert "Gate and handling, port of arrival" in {charge.label for charge in lines(ended, "port.")}


def test_the_last_leg_in_another_currency_is_counted_at_the_days_rate():
    euros = [replace(row, currency="EUR") for row in LAST_LEG]
    rate = Currency(currency="EUR", rate=0.5, buffer_ppm=0, as_of=date(2026, 11, 1), at=at("Currencies", 2))
    own, other = quoted(), quoted(on_carriage=tuple(euros), currencies=(rate,))

    def lasts(quote):
        return [
            [line.amount for line in lines(option, "oncarriage.") if line.code != "oncarriage.minimum"]
            for option in ways(quote)
        ]

    # Half a euro is a dollar: twice the sums, each rounded once.
    assert lasts(other) == [[2 * amount for amount in option] for option in lasts(own)]


def test_the_closest_row_carries_on_from_the_port():
    town = OnCarriage(
        country="DE", trailer="open", towns=("bremen",), base_minor=250_00, rate_e4=0, at=at("On-carriage", 9)
    )
    from_port = replace(town, towns=(), port="BEANR", base_minor=777_00, at=at("On-carriage", 10))

    rows = [*LAST_LEG, town, from_port]
    found = {}
    for option in quoted(on_carriage=tuple(rows)).options:
        base = lines(option, "oncarriage.base")[0]
        found[option.trailer, option.legs[-1].from_.name] = base.source.partition("!")[2]

    assert found["open", "Bremerhaven"] == "A9"
    assert found["enclosed", "Bremerhaven"] == "A3"
    alone = quoted(on_carriage=(*LAST_LEG, from_port))
    assert {lines(o, "oncarriage.base")[0].source for o in ways(alone, end="Antwerp") if o.trailer == "open"} <= {
        "overseas.xlsx › On-carriage!A10"
    }


def test_a_vehicle_that_nobody_measured_is_not_priced_by_measure():
    service = next(row for row in a_sea_book().ocean if row.mode == "roro")
    book = a_sea_book(
        quotations=(FREIGHT,), ocean=(replace(service, basis="per vehicle", base_e4=900_0000, per_nmi_e4=0),)
    )
    unknown = replace(MINNOW, length_mm=None, width_mm=None, height_mm=None)
    for vehicle, note in ((MINNOW, ""), (unknown, ESTIMATED)):
        option = ways(sea_quote(vehicle, book=book, ocean="roro"))[0]
        assert lines(option, "ocean.freight")[0].note == note
