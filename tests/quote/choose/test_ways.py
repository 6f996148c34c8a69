"""The ways that are shown, held to a slow reading that walks through every way one by one."""

from datetime import date
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

import pytest

from shipcalc.errors import NoAnswer
from shipcalc.places.place import Place
from shipcalc.quote.model import Option
from shipcalc.records import replace

CENT = Decimal("0.01")


def cents(amount: Decimal) -> Decimal:
    return amount.quantize(CENT, ROUND_HALF_UP)


def told(option: Option) -> Decimal:
    return option.total + option.buyer_pays_locally


def test_a_roro_price_is_what_a_slow_reading_of_the_sheets_says(quoted) -> None:
    """The tariff of the small rate book written out line by line; miles and nautical miles as the quote names them."""
    option = next(option for option in quoted(ocean="roro", trailer="open").options)
    truck, sea, last = option.legs
    length, width, height = (Decimal(side) / 1000 for side in (3_900, 1_530, 1_245))
    tons = (length * width * height).quantize(Decimal("0.001"), ROUND_HALF_UP)
    rate = {"Plover": Decimal("0.90"), "Dunlin": Decimal("1.10")}[truck.carrier]
    per_ton = ((28 + sea.distance * Decimal("0.0060")) * Decimal("1.12")).quantize(Decimal("0.0001"), ROUND_HALF_UP)
    freight = max(cents(tons * per_ton), cents(650 * Decimal("1.12")))
    carriage = (
        cents(40 * Decimal("1.1"))
        + cents(truck.distance * rate * Decimal("1.14"))
        + cents(85 * Decimal("1.1"))
        + cents(95 * Decimal("1.1")) + cents(tons * Decimal("3.20") * Decimal("1.1"))
        + cents(30 * Decimal("1.1"))
        + freight + cents(freight * Decimal("0.12")) + cents(15 * Decimal("1.12")) + cents(65 * Decimal("1.12"))
    )  # fmt: skip
    insured = cents((38_000 + carriage) / (1 - Decimal("1.10") * Decimal("0.0135")) * Decimal("1.10"))
    premium = cents(insured * Decimal("0.0135"))
    there = cents(95 * Decimal("1.1")) + cents(tons * Decimal("3.20") * Decimal("1.1"))
    to_door = max(
        cents(180 * Decimal("1.1")) + cents(last.distance * Decimal("2.40") * Decimal("1.1")),
        cents(300 * Decimal("1.1")),
    )
    total = carriage + premium + there + to_door
    assert option.total == (total / 5).quantize(Decimal(1), ROUND_CEILING) * 5
    cif = 38_000 + carriage + premium
    duty = cents(cif * Decimal("0.10"))
    vat = cents((cif + duty + there + to_door + 70) * Decimal("0.19"))
    assert option.buyer_pays_locally == 70 + 240 + duty + vat


def test_no_way_that_is_shown_is_beaten_by_another_that_could_be_asked_for(quoted) -> None:
    """Every narrower question (one mode, one trailer) finds nothing that beats what the wide question shows."""
    by_shelter = {"roro": 0, "container": 1, None: 1}
    wide = [
        (option.trailer, told(option), option.dates.delivery[1], -by_shelter[option.ocean])
        for option in quoted().options
    ]
    assert {trailer for trailer, *_ in wide} == {"open", "enclosed"}
    for ocean in ("roro", "container"):
        for trailer in ("open", "enclosed"):
            for option in quoted(ocean=ocean, trailer=trailer).options:
                own = (told(option), option.dates.delivery[1], -by_shelter[option.ocean])
                rivals = [way for kind, *way in wide if kind == trailer and tuple(way) != own]
                assert not any(all(a <= b for a, b in zip(own, way, strict=True)) for way in rivals)


def test_the_lowest_price_and_the_soonest_are_there_and_at_most_six(quoted) -> None:
    options = quoted().options
    assert 2 <= len(options) <= 6
    merits = [merit for option in options for merit in option.good_for]
    assert {"lowest price", "soonest", "best sheltered"} <= set(merits)
    assert all(option.good_for for option in options)
    assert options[0].good_for[0] == "lowest price"
    soonest = next(option for option in options if "soonest" in option.good_for)
    assert soonest.dates.delivery[1] == min(option.dates.delivery[1] for option in options)


def test_a_vehicle_that_does_not_run_goes_by_container_and_it_is_said_why_not_otherwise(quoted, minnow) -> None:
    quote = quoted(replace(minnow, runs=False))
    assert {option.ocean for option in quote.options} == {"container"}
    assert any(out.carrier == "Tideway" and "does not run" in out.reason for out in quote.left_out)


def test_a_long_vehicle_is_too_long_for_a_20_foot_container(quoted, minnow) -> None:
    quote = quoted(replace(minnow, length_mm=5_900))
    assert any(out.carrier == "20′ container" and "too long" in out.reason for out in quote.left_out)
    assert all("20′" not in option.title for option in quote.options)


def test_a_port_without_a_container_terminal_ships_no_container(quoted) -> None:
    for option in quoted().options:
        assert option.ocean == "roro" or "New York" not in option.title


def test_a_vehicle_that_fits_nothing_gets_a_plain_reason(quoted, minnow) -> None:
    wide = replace(minnow, runs=False, width_mm=2_500)
    with pytest.raises(NoAnswer, match="nothing sails to Bremerhaven, Antwerp with this request"):
        quoted(wide)


def test_two_vehicles_share_a_long_container_where_that_is_cheaper(quoted, minnow) -> None:
    other = replace(minnow, stock_number="HV-8")
    one, two = (quoted(*cars, ocean="container", trailer="open").options for cars in ((minnow,), (minnow, other)))
    best = min((option for option in two if "own" in " ".join(option.good_for) or "40′HC" in option.title), key=told)
    assert "1 × 40′HC" in best.title
    assert best.total < 2 * max(option.total for option in one)
    assert {charge.vehicle for charge in best.charges if charge.code == "port.packing"} == {"HV-7", "HV-8"}


def test_a_way_without_suez_is_the_longer_one_and_a_way_that_is_shut_is_none(quoted, sea_book) -> None:
    book = sea_book()
    jeddah = Place(name="Jeddah", kind="city", country="SA", latitude=21.5, longitude=39.2)
    port = replace(book.ports[2], port="SAJED", name="Jeddah", country="SA", latitude=21.47, longitude=39.15)

    def by(*avoids: str) -> int:
        ocean = tuple(replace(row, avoids=avoids) for row in book.ocean)
        quote = quoted(to=jeddah, book=replace(book, ports=(*book.ports[:2], port), ocean=ocean), ocean="roro")
        return next(leg.distance for leg in quote.options[0].legs if leg.unit == "nmi" and leg.from_.name == "Tacoma")

    assert by() < by("panama")
    with pytest.raises(NoAnswer, match="suez and bab-el-mandeb"):
        by("suez", "bab-el-mandeb")


def test_a_later_ready_date_is_never_delivered_earlier(quoted) -> None:
    before = date.min
    for day in range(1, 29, 3):
        quote = quoted(ready=date(2026, 12, day), ocean="roro", trailer="open")
        soonest = min(option.dates.delivery[1] for option in quote.options)
        assert soonest >= before
        before = soonest
