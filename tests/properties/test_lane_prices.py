"""Prices of lanes held to a slow reading: every row is tried on every place, the most specific taken, its price in Decimal."""

from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import numpy as np
from hypothesis import assume, given
from hypothesis import strategies as st

from shipcalc.places.place import Place
from shipcalc.places.road.miles import PlaceColumns
from shipcalc.pricing.areas import lane_columns
from shipcalc.pricing.columns import Asked, vehicle_columns
from shipcalc.pricing.line import NO_MARKUP, Markup
from shipcalc.pricing.tariff import compile_tariffs
from shipcalc.pricing.truck import TruckPrice, trip_of, truck_price
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.checks.lanes import CHECKS
from shipcalc.ratebook.of_day import book_of_day
from shipcalc.ratebook.rows.areas import Area
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.lanes import LaneRow
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.yards import Terminal
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle

DAY = date(2026, 12, 1)
CENT = Decimal("0.01")
CAR = Vehicle(stock_number="HV-1")
RATES = {"CAD": Decimal("1.37"), "EUR": Decimal("0.92")}


def place(
    name: str, state: str, code: str, *, country: str = "US", yard: str = "", port: str = "", terminal: str = ""
) -> Place:
    return Place(
        name=name,
        kind="port" if port else "city",
        country=country,
        subdivision=state,
        postal_code=code,
        latitude=0,
        longitude=0,
        found_by=f"UN/LOCODE {port}" if port else "",
        yard=yard,
        terminal=terminal,
    )


PLACES = (
    place("Bellingham", "WA", "98225", yard="Bellingham"),
    place("Bellingham", "WA", "98226"),
    place("Bozeman", "MT", "59715"),
    place("Bozeman", "MT", "59718"),
    place("Billings", "MT", "59101"),
    place("Boise", "ID", "83702"),
    place("Aspen", "CO", "81611"),
    place("Billings", "MT", "59101", terminal="Billings terminal"),
    place("Bozeman", "MT", "59718", terminal="Lot 9"),
    place("Baltimore", "MD", "", port="USBAL"),
    place("Vancouver", "BC", "", country="CA"),
    place("Anchorage", "AK", "99501"),
    place("Tijuana", "", "22000", country="MX"),
)
ENDS = (
    None, "59715", "5971", "597", "590-599", "591-597", "59101-59109", "Bozeman, MT", "BELLINGHAM, WA", "MT", "US-WA", "Canada",
    "country MX", "US", "yard bellingham", "USBAL", "Hills", "Peaks", "Two towns", "982-983", "CA-BC", "Anywhere",
    "Billings terminal", "terminal lot 9",
)  # fmt: skip
COMMON = (None, "US", "MT", "597", "Bozeman, MT", "Hills", "Billings terminal")
AREAS = (
    Area(area="Hills", state="MT"),
    Area(area="Hills", state="ID"),
    Area(area="Peaks", zip_from="597"),
    Area(area="Peaks", zip_from="816", zip_to="817"),
    Area(area="Two towns", state="MT", city="Bozeman"),
    Area(area="Two towns", state="WA", zip_from="98226"),
    Area(area="Anywhere", country="US"),
    Area(area="Anywhere", country="CA", state="BC"),
)
money = st.integers(1, 4_000_00)
prices = st.one_of(
    st.fixed_dictionaries({"flat_minor": money, "fuel_included": st.booleans()}),
    st.fixed_dictionaries({"rate_e4": st.integers(1, 60_000), "minimum_minor": st.none() | money}),
    st.fixed_dictionaries({"percent_ppm": st.integers(-900_000, 900_000)}),
    st.fixed_dictionaries({"minimum_minor": money}),
)
days = st.none() | st.none() | st.dates(date(2026, 11, 1), date(2026, 12, 31))


@st.composite
def lane_rows(draw: st.DrawFn) -> LaneRow:
    first, last = sorted((draw(days) or date.min, draw(days) or date.max))
    return LaneRow(
        carrier=draw(st.sampled_from(["Plover", "Plover", "PLOVER", "Somebody else"])),
        trailer=draw(st.sampled_from([None, "open", "open", "enclosed"])),
        from_end=draw(st.sampled_from(COMMON) | st.sampled_from(ENDS)),
        to_end=draw(st.sampled_from(COMMON) | st.sampled_from(ENDS)),
        both_ways=draw(st.booleans()),
        currency=draw(st.sampled_from([None, "CAD", "eur", "USD"])),
        valid_from=None if first == date.min else first,
        valid_to=None if last == date.max else last,
        **draw(prices),
    )


@st.composite
def books(draw: st.DrawFn) -> RateBook:
    """A carrier with bands of either kind, and some rows of Lanes of which no two are as specific for one shipment."""
    edge = draw(st.integers(50, 2_000))
    ends = ((0, edge), (edge, None))
    bands = tuple(
        MileBand(carrier="Plover", trailer="open", from_mi=low, to_mi=high, rate_e4=draw(st.integers(2_000, 60_000)))
        for low, high in ends
    )
    carrier = Carrier(
        carrier="Plover",
        trailer="open",
        cover_minor=0,
        base_minor=draw(st.integers(0, 300_00)),
        minimum_minor=draw(st.integers(0, 900_00)),
        bands=draw(st.sampled_from(["whole trip", "graduated"])),
        fuel_scheme=draw(st.sampled_from([None, "Mile", "Step"])),
    )
    fuel = (
        FuelScheme(scheme="Mile", as_of=DAY, price_e4=38_560, method="per mile", peg_e4=25_000, miles_per_gallon=6.5),
        FuelScheme(scheme="Step", as_of=DAY, price_e4=38_560, method="percent steps", peg_e4=25_000, step_e4=1_300,
                   step_percent_ppm=10_000),
    )  # fmt: skip
    book = RateBook(
        folder=Path("rates"),
        fingerprint="0",
        pricing=PricingRules(currency="USD"),
        carriers=(carrier,),
        bands=bands,
        areas=AREAS,
        fuel=fuel,
        currencies=tuple(Currency(currency=code, as_of=DAY, rate=float(rate)) for code, rate in RATES.items()),
        lanes=tuple(draw(st.lists(lane_rows(), min_size=2, max_size=10))),
        terminals=(
            Terminal(terminal="Billings terminal", zip_code="59101"),
            Terminal(terminal="Lot 9", zip_code="59718"),
        ),
    )
    others = replace(carrier, carrier="Somebody else"), replace(carrier, carrier="Somebody else", trailer="enclosed")
    checked = replace(book, carriers=(carrier, replace(carrier, trailer="enclosed"), *others))
    assume(not [problem for check in CHECKS for problem in check(checked)])
    return book


def priced(
    book: RateBook, begin: Place, end: Place, miles: int, markup: Markup = NO_MARKUP, day: date = DAY
) -> TruckPrice:
    tariffs = compile_tariffs(book_of_day(book, day), DAY)
    columns = PlaceColumns.of([begin]), PlaceColumns.of([end])
    lanes = lane_columns(*columns, np.array([miles], dtype=np.int64), book.areas, prices=tariffs.lanes)
    trip = trip_of(tariffs, vehicle_columns([CAR]), lanes, Asked(pickup_day=day))
    return truck_price(tariffs.services[0], trip, markup)


def lies_in(end: str | None, where: Place) -> bool:
    """Read an end as the sheet's note has it."""
    if end is None:
        return where.country == "US" and where.subdivision not in ("AK", "HI")
    own = [area for area in AREAS if area.area == end]
    if own:
        return any(in_area(area, where) for area in own)
    has_zip = where.country == "US" and len(where.postal_code) == 5
    if end[0].isdigit():
        low, _, high = end.partition("-")
        return has_zip and low.ljust(5, "0") <= where.postal_code <= (high or low).ljust(5, "9")
    if end.startswith("yard "):
        return where.yard.lower() == end.removeprefix("yard ").lower()
    if "terminal" in end:
        return where.terminal == {"Billings terminal": "Billings terminal", "terminal lot 9": "Lot 9"}[end]
    if "," in end:
        town, state = end.split(", ")
        return where.name.lower() == town.lower() and where.subdivision == state and where.country == "US"
    return {
        "MT": where.country == "US" and where.subdivision == "MT",
        "US-WA": where.country == "US" and where.subdivision == "WA",
        "CA-BC": where.country == "CA" and where.subdivision == "BC",
        "Canada": where.country == "CA",
        "country MX": where.country == "MX",
        "US": where.country == "US",
        "USBAL": where.kind == "port" and where.found_by.endswith("USBAL"),
    }[end]


def in_area(area: Area, where: Place) -> bool:
    return (
        where.country == area.country
        and area.state in (None, where.subdivision)
        and area.city in (None, where.name)
        and (
            area.zip_from is None
            or (area.zip_from.ljust(5, "0") <= where.postal_code <= (area.zip_to or area.zip_from).ljust(5, "9"))
        )
    )


# Points and ZIPs of each end, worked out by hand from the table at the head of `ratebook/lane_ends.py`.
STATE, LAND = 100_000, 10_000_000
WORTH = {
    None: (0, LAND), "59715": (8, 1), "5971": (6, 10), "597": (5, 100), "590-599": (4, 1_000), "591-597": (4, 700),
    "59101-59109": (6, 9), "Bozeman, MT": (7, 10), "BELLINGHAM, WA": (7, 10), "MT": (3, STATE), "US-WA": (3, STATE),
    "CA-BC": (3, STATE), "Canada": (1, LAND), "country MX": (1, LAND), "US": (1, LAND), "yard bellingham": (9, 1), "USBAL": (9, 1),
    "Hills": (2, 2 * STATE), "Peaks": (4, 300), "Two towns": (4, 11), "982-983": (4, 200), "Anywhere": (1, LAND + STATE),
    "Billings terminal": (9, 1), "terminal lot 9": (9, 1),
}  # fmt: skip


def most_specific(book: RateBook, begin: Place, end: Place, kind: str, day: date = DAY) -> LaneRow | None:
    """Return the row of a kind that counts, by trying every one in either direction."""
    found = []
    for row in book.lanes:
        ways = [(row.from_end, row.to_end), (row.to_end, row.from_end)][: 2 if row.both_ways else 1]
        in_force = (row.valid_from or day) <= day <= (row.valid_to or day)
        own = row.carrier.lower() == "plover" and row.trailer in (None, "open") and kind_of(row) == kind
        for a, b in ways if in_force and own else ():
            if lies_in(a, begin) and lies_in(b, end):
                rank = (WORTH[a][0] + WORTH[b][0], WORTH[b][0], -WORTH[a][1] - WORTH[b][1], row.trailer is not None)
                found.append((rank, row))
    return max(found, key=lambda one: one[0], default=(None, None))[1]


def kind_of(row: LaneRow) -> str:
    if row.flat_minor is not None or row.rate_e4 is not None:
        return "price"
    return "percent" if row.percent_ppm is not None else "minimum"


def cents(amount: Decimal) -> Decimal:
    return amount.quantize(CENT, ROUND_HALF_UP)


def in_dollars(row: LaneRow, amount: int | None, step: str = "0.01") -> Decimal:
    """Return a sum of a row in dollars, each rounded where it is written: to cents, a rate a mile to ten-thousandths."""
    rate = RATES.get((row.currency or "").upper(), Decimal(1))
    return ((amount or 0) * Decimal(step) / rate).quantize(Decimal(step), ROUND_HALF_UP)


def slow_price(book: RateBook, begin: Place, end: Place, miles: int, day: date = DAY) -> Decimal:
    carrier = book.carriers[0]
    row = most_specific(book, begin, end, "price", day)
    if row is not None:
        flat, rate = in_dollars(row, row.flat_minor), in_dollars(row, row.rate_e4, "0.0001")
        linehaul = max(flat + cents(rate * miles), in_dollars(row, row.minimum_minor))
        return linehaul if row.fuel_included else linehaul + slow_fuel(carrier, linehaul, miles)
    by_mile = Decimal(carrier.base_minor) / 100 + slow_miles(book, miles)
    direction, least = (most_specific(book, begin, end, kind, day) for kind in ("percent", "minimum"))
    by_mile += cents(by_mile * (direction.percent_ppm or 0) / 1_000_000) if direction else 0
    minimum = in_dollars(least, least.minimum_minor) if least else Decimal(carrier.minimum_minor) / 100
    linehaul = max(by_mile, minimum)
    return linehaul + slow_fuel(carrier, linehaul, miles)


def slow_miles(book: RateBook, miles: int) -> Decimal:
    """Return the bands' sum, where the first mile of a later band may cost less than this trip."""
    first, second = book.bands

    def parts(trip: int) -> list[Decimal]:
        if book.carriers[0].bands == "whole trip":
            return [Decimal((first if trip <= (first.to_mi or 0) else second).rate_e4) / 10_000 * trip]
        below = min(trip, first.to_mi or 0)
        return [Decimal(first.rate_e4) / 10_000 * below, Decimal(second.rate_e4) / 10_000 * (trip - below)]

    later = [second.from_mi + 1] if second.from_mi >= miles else []
    charged = min((sum(parts(trip)), trip) for trip in [miles, *later])[1]
    return sum(map(cents, parts(charged)), start=Decimal(0))


def slow_fuel(carrier: Carrier, linehaul: Decimal, miles: int) -> Decimal:
    """Diesel is 1.356 above the peg: at 6.5 miles a gallon 0.2086 a mile; eleven started steps of 0.13."""
    match carrier.fuel_scheme:
        case "Mile":
            return cents(Decimal("0.2086") * miles)
        case "Step":
            return cents(linehaul * 11 / 100)
    return Decimal(0)


some_place = st.sampled_from(PLACES[:4]) | st.sampled_from(PLACES)
some_miles = st.integers(1, 3_500)


@given(books(), some_place, some_place, some_miles, st.dates(date(2026, 10, 30), date(2027, 1, 2)))
def test_a_lanes_price_is_the_clerks_price_to_the_cent_on_any_day(
    book: RateBook, begin: Place, end: Place, miles: int, day: date
) -> None:
    price = priced(book, begin, end, miles, day=day)
    abroad = any(where.country != "US" or where.subdivision == "AK" for where in (begin, end))
    assert bool(price.eligible[0, 0]) == (not abroad or most_specific(book, begin, end, "price", day) is not None)
    if price.eligible[0, 0]:
        assert Decimal(int(price.total[0, 0])) / 100 == slow_price(book, begin, end, miles, day)


@given(books(), lane_rows(), some_place, some_place, some_miles)
def test_a_row_for_one_lane_changes_no_other(
    book: RateBook, row: LaneRow, begin: Place, end: Place, miles: int
) -> None:
    meets = lies_in(row.from_end, begin) and lies_in(row.to_end, end)
    back = row.both_ways and lies_in(row.to_end, begin) and lies_in(row.from_end, end)
    assume(not meets and not back)
    before, after = (
        priced(one, begin, end, miles) for one in (book, replace(book, lanes=(*book.lanes, row), fingerprint="1"))
    )
    assert before.total.tolist() == after.total.tolist()
    assert before.eligible.tolist() == after.eligible.tolist()


@given(books(), some_place, st.lists(st.tuples(some_place, some_miles), min_size=1, max_size=20))
def test_all_lanes_at_once_cost_what_each_does(book: RateBook, begin: Place, ends: list[tuple[Place, int]]) -> None:
    markup = Markup(123_400, 50_000, 100_000)
    tariffs = compile_tariffs(book_of_day(book, DAY), DAY)
    miles = np.array([miles for _, miles in ends], dtype=np.int64)
    columns = PlaceColumns.of([begin]), PlaceColumns.of([end for end, _ in ends])
    lanes = lane_columns(*columns, miles, book.areas, prices=tariffs.lanes)
    together = truck_price(
        tariffs.services[0], trip_of(tariffs, vehicle_columns([CAR]), lanes, Asked(pickup_day=DAY)), markup
    )
    apart = [priced(book, begin, end, miles, markup) for end, miles in ends]
    assert together.eligible.tolist() == [[bool(price.eligible[0, 0]) for price in apart]]
    taken = together.eligible[0]
    assert together.total[0, taken].tolist() == [int(p.total[0, 0]) for p in apart if p.eligible[0, 0]]


@given(books(), some_place, some_place, some_miles, st.data())
def test_a_line_names_the_cell_and_the_carrier_of_its_row(
    book: RateBook, begin: Place, end: Place, miles: int, data: st.DataObject
) -> None:
    ends = [st.sampled_from([text for text in ENDS if lies_in(text, where)] or ["US"]) for where in (begin, end)]
    own = LaneRow(carrier="Plover", from_end=data.draw(ends[0]), to_end=data.draw(ends[1]), flat_minor=1_234_56)
    book = replace(book, lanes=(own, *book.lanes), fingerprint="1")
    assume(not [problem for check in CHECKS for problem in check(book)])
    row = most_specific(book, begin, end, "price")
    lines = [line for line in priced(book, begin, end, miles).lines if line.code == "truck.lane"]
    assert len(lines) == (row is not None)
    for line in lines if row else ():
        assert row is not None
        assert line.lane_cells == (row.at.cell("flat_minor" if row.flat_minor is not None else "rate_e4"),)
        assert line.lane_offers[0].startswith(f"lane price of {row.carrier}")
        assert line.lane_notes == ("Fuel is included." if row.fuel_included else "",)
