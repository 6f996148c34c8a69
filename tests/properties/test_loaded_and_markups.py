"""Several vehicles on one truck, markups by carrier, country and buyer, the least margin: held to slow readings in Decimal."""

from decimal import ROUND_HALF_UP, Decimal

from hypothesis import given
from hypothesis import strategies as st

from shipcalc.pricing.columns import Asked, vehicle_columns
from shipcalc.pricing.line import NO_MARKUP, Markup
from shipcalc.pricing.markups import selling_markup
from shipcalc.pricing.tariff import compile_tariffs
from shipcalc.pricing.truck import trip_of, truck_price
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.currencies import Currency
from shipcalc.ratebook.rows.markups import MarkupRow
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.vehicles_loaded import VehiclesLoaded
from shipcalc.records import replace
from shipcalc.vehicles.vehicle import Vehicle
from tests.properties.test_truck_prices import CENT, DAY, books, lanes_of_trips, priced, slow_linehaul

CAR = Vehicle(stock_number="HV-1", runs=True)
LINEHAUL = {"truck.base", "truck.linehaul", "truck.minimum", "truck.loaded"}


def cents(amount: Decimal) -> Decimal:
    return amount.quantize(CENT, ROUND_HALF_UP)


def asked_for(price, codes: set[str]) -> Decimal:
    """Return the sum of some lines for the first vehicle over the first lane."""
    own = (int((line.amount + 0 * price.total)[0, 0]) for line in price.lines if line.code in codes)
    return sum((Decimal(minor) / 100 for minor in own), Decimal(0))


loads = st.lists(
    st.tuples(st.integers(2, 9), st.sampled_from(["share", "sum"]), st.integers(1, 1_000)),
    max_size=4,
    unique_by=lambda one: one[0],
)


@given(books(), loads, st.integers(1, 10), st.integers(1, 4_000))
def test_of_so_many_vehicles_each_pays_what_the_last_row_reached_says(
    book: RateBook, rows, count: int, miles: int
) -> None:
    table = tuple(
        VehiclesLoaded(
            carrier="PLOVER",
            vehicles=vehicles,
            **({"percent_ppm": figure * 1_000} if kind == "share" else {"less_minor": figure * 100}),
        )
        for vehicles, kind, figure in rows
    )
    alone = slow_linehaul(book, miles)
    reached = [row for row in sorted(rows) if row[0] <= count]
    expected = alone
    if reached:
        _, kind, figure = reached[-1]
        expected = (
            alone + cents(alone * (Decimal(figure) / 1_000 - 1)) if kind == "share" else max(alone - figure, Decimal(0))
        )
    price = priced(replace(book, loaded=table), [CAR], [(miles, "GA")], count=count)
    assert asked_for(price, LINEHAUL) == expected


@given(books(), loads, st.integers(1, 4_000))
def test_two_yards_are_two_trucks(book: RateBook, rows, miles: int) -> None:
    """Vehicles that stand in several places are counted where each of them stands."""
    table = tuple(
        VehiclesLoaded(carrier="Plover", vehicles=vehicles, percent_ppm=figure * 1_000) for vehicles, _, figure in rows
    )
    lone = priced(replace(book, loaded=table), [CAR], [(miles, "GA")], count=1)
    pair = priced(replace(book, loaded=table), [CAR], [(miles, "GA")], count=2)
    tariffs = compile_tariffs(replace(book, loaded=table), DAY)
    trip = trip_of(
        tariffs,
        vehicle_columns([CAR, CAR, CAR]),
        lanes_of_trips(book, [(miles, "GA")]),
        Asked(pickup_day=DAY, vehicle_count=3, together=(2, 1, 2)),
    )
    mixed = truck_price(tariffs.services[0], trip, NO_MARKUP)
    lines = [line for line in mixed.lines if line.code in LINEHAUL]
    by_vehicle = [sum(int((line.amount + 0 * mixed.total)[n, 0]) for line in lines) for n in range(3)]
    assert by_vehicle == [
        int(asked_for(pair, LINEHAUL) * 100),
        int(asked_for(lone, LINEHAUL) * 100),
        int(asked_for(pair, LINEHAUL) * 100),
    ]


FIELDS = ("linehaul_ppm", "fuel_ppm", "extras_ppm", "ocean_ppm", "port_ppm", "least_minor")
some = st.none() | st.integers(0, 400_000)
markup_rows = st.lists(
    st.builds(
        MarkupRow,
        carrier=st.sampled_from([None, "Plover", "plover", "Grebe"]),
        buyer=st.sampled_from([None, "dealer", "Private"]),
        country=st.sampled_from([None, "US", "DE"]),
        **dict.fromkeys(FIELDS, some),
    ),
    max_size=6,
    unique_by=lambda row: tuple((text or "").casefold() for text in (row.carrier, row.buyer, row.country)),
)


def slow_markup(rows, field: str, carrier: str, buyer: str, country: str, usual: int) -> int:
    """Ask each cell's candidates one by one: that which names the most counts; of as many a carrier, then a kind of buyer."""
    best, rank = usual, (-1, False, False, False)
    for row in rows:
        says = getattr(row, field)
        named = (bool(row.carrier), bool(row.buyer), bool(row.country))
        fits = (
            (not row.carrier or row.carrier.lower() == carrier.lower())
            and (not row.buyer or row.buyer.lower() == buyer.lower())
            and (not row.country or row.country == country)
        )
        if fits and says is not None and (sum(named), *named) > rank:
            best, rank = says, (sum(named), *named)
    return best


@given(
    books(),
    markup_rows,
    st.sampled_from(["Plover", "Grebe", "Heron"]),
    st.sampled_from(["", "dealer"]),
    st.sampled_from(["US", "DE", "FR"]),
)
def test_each_markup_is_that_of_the_row_that_names_the_most(
    book: RateBook, rows, carrier: str, buyer: str, country: str
) -> None:
    rules = PricingRules(markup_linehaul_ppm=140_000, markup_ocean_ppm=120_000)
    found = selling_markup(replace(book, markups=tuple(rows), pricing=rules), country, buyer).of(carrier)
    for field in FIELDS:
        usual = getattr(rules, f"markup_{field}", 0)
        assert getattr(found, field) == slow_markup(rows, field, carrier, buyer, country, usual)


@given(books(), st.integers(1, 4_000), st.integers(0, 300_000), st.integers(0, 40_000))
def test_our_linehaul_is_above_the_carriers_by_the_least_margin_or_more(
    book: RateBook, miles: int, ppm: int, least: int
) -> None:
    markup = Markup(linehaul_ppm=ppm, least_minor=least)
    cost = priced(book, [CAR], [(miles, "GA")])
    sold, without = (priced(book, [CAR], [(miles, "GA")], one) for one in (markup, replace(markup, least_minor=0)))
    margin = asked_for(without, LINEHAUL) - asked_for(cost, LINEHAUL)
    added = asked_for(sold, {"truck.margin"})
    assert {line.offer for line in sold.lines if line.code == "truck.margin"} <= {"least margin"}
    assert added == max(Decimal(least) / 100 - margin, Decimal(0))
    assert asked_for(sold, {"truck.fuel"}) == asked_for(without, {"truck.fuel"}), (
        "the carrier's percentages are not taken of it"
    )


@given(books(), st.integers(1, 4_000), st.sampled_from([0.8, 1.25, 1.384, 18.31]))
def test_a_carriers_own_currency_is_the_books_cell_by_cell(book: RateBook, miles: int, rate: float) -> None:
    """Base fee, minimum and each rate a mile divided by the rate of the day in Decimal, and rounded once, half up."""

    def told(amount: int) -> int:
        return int((Decimal(amount) / Decimal(repr(rate))).quantize(Decimal(1), ROUND_HALF_UP))

    (row,) = book.carriers
    foreign = replace(
        book, carriers=(replace(row, currency="CAD"),), currencies=(Currency(currency="cad", as_of=DAY, rate=rate),)
    )
    at_home = replace(
        book,
        carriers=(replace(row, base_minor=told(row.base_minor), minimum_minor=told(row.minimum_minor)),),
        bands=tuple(replace(band, rate_e4=told(band.rate_e4)) for band in book.bands),
    )
    prices = [priced(one, [CAR], [(miles, "GA")]) for one in (foreign, at_home)]
    assert prices[0].total.tolist() == prices[1].total.tolist()
    typed = {"truck.base": row.base_minor, "truck.minimum": row.minimum_minor}
    for line in prices[0].lines:
        if line.code in typed:
            assert line.offer == f"{Decimal(typed[line.code]) / 100:,.2f} CAD at {rate:g} of 2026-12-01"
        elif line.code == "truck.linehaul":
            rate_e4 = int(Decimal(line.offer.split()[0]) * 10_000)
            assert rate_e4 in {band.rate_e4 for band in book.bands}
            assert line.rate == told(rate_e4) * 1_000_000
            assert line.offer.endswith(f" CAD at {rate:g} of 2026-12-01")
    assert not any(line.offer for line in prices[1].lines)
