"""Sample quotes for the documents: invented people, vehicles and prices."""

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal

import pytest

from shipcalc.money import decimals
from shipcalc.places.place import Place
from shipcalc.quote.model import (
    Charge,
    Cost,
    Dates,
    Dealer,
    Document,
    LeftOut,
    Leg,
    Milestone,
    Option,
    Quote,
    RateBookStamp,
    Task,
    Wishes,
)
from shipcalc.records import dataclass
from shipcalc.vehicles.vehicle import Vehicle

AS_OF = date(2026, 12, 1)
BELLINGHAM = Place(name="Bellingham", kind="city", country="US", subdivision="WA", latitude=48.76, longitude=-122.49)
ASHEVILLE = Place(
    name="Asheville", kind="postal code", country="US", subdivision="NC", postal_code="28801", latitude=35.6,
    longitude=-82.55,
)  # fmt: skip
DEALER = Dealer(
    name="Heron & Vale Motors",
    phone="+1 555 0100",
    email="sales@heron-vale.example",
    address="12 Harbor Row, Bellingham, WA (invented)",
    website="heron-vale.example",
)
MINNOW = Vehicle(stock_number="HV-114", year=1961, make="Larkspur", model="Minnow roadster", body="roadster",
                 value_minor=38_000_00, clearance_mm=110, title="clean", assumed=("mass_grams",))  # fmt: skip
FLEET = (
    MINNOW,
    Vehicle(stock_number="HV-207", year=1974, make="Tamarack", model="Wayfarer high-roof camper, long wheelbase",
            body="camper", value_minor=61_500_00),
    Vehicle(stock_number="HV-033", year=1958, make="Corvane", model="Forester off-roader", body="off-roader",
            value_minor=44_000_00),
    Vehicle(stock_number="HV-318", year=1969, make="Petrel & Sons of the Isle of Skerrow", model="Model Nine Scrambler",
            body="motorcycle", value_minor=12_750_00, runs=False),
    Vehicle(stock_number="HV-251", year=1966, make="Larkspur", model="Kittiwake", body="roadster",
            value_minor=29_900_00),
)  # fmt: skip


@dataclass(frozen=True)
class Row:
    """A charge before it is computed: rates as the dealer's cost, and what is added to them for the selling price."""

    code: str
    label: str
    unit: str
    quantity: str
    rate: str
    of: tuple[str, ...] = ()
    added: str = "0.14"
    payer: str = "seller"
    estimate: bool = False
    note: str = ""


ROAD = (
    Row("truck.base", "Base fee", "lump", "1", "120"),
    Row("truck.linehaul", "Carriage, 1,001 to 3,000 miles", "mi", "2794", "0.82"),
    Row("truck.fuel", "Fuel surcharge", "mi", "2794", "0.226", added="0"),
    Row("extra.low", "Lift gate loading for a low car", "lump", "1", "95"),
    Row("extra.residential", "Narrow street, meeting point or smaller truck", "%", "0", "7.5", ("1", "2"), "0"),
    Row("extra.cover", "Cover raised to the car's value", "%", "0", "0.35", (), "0"),
)
MANY = (
    *ROAD,
    Row("extra.season", "Winter, northern routes", "%", "0", "5", ("1", "2", "3"), "0"),
    Row("extra.remote", "Remote area", "lump", "1", "140"),
    Row("extra.express", "Express pickup", "lump", "1", "180"),
    Row("extra.long", "Over-length, a camper longer than eighteen feet with its spare wheel carrier folded", "lump", "1", "75"),
    Row("extra.together", "Reduction, several vehicles together", "%", "0", "-3.25", ("1", "2"), "0",
        note="Applies because all go on one trip."),
    Row("buyer.storage", "Storage at your end, if you cannot take delivery", "lump", "1", "40", payer="buyer", estimate=True,
        note="For each day; the depot's own price counts."),
)  # fmt: skip


def rounded(amount: Decimal, currency: str) -> Decimal:
    return amount.quantize(Decimal(1).scaleb(-decimals(currency)), ROUND_HALF_UP)


def charges_for(
    rows: Sequence[Row], vehicle: Vehicle, currency: str, first: int, factor: Decimal, carrier_cell: str
) -> list[Charge]:
    charges: list[Charge] = []
    for offset, row in enumerate(rows):
        number = first + offset
        of = tuple(str(first + int(line) - 1) for line in row.of)
        buying = Decimal(row.rate) if row.unit == "%" else Decimal(row.rate) * factor
        selling = buying * (1 + Decimal(row.added))
        if row.unit == "lump":
            buying, selling = rounded(buying, currency), rounded(selling, currency)
        quantity = cost_quantity = Decimal(row.quantity)
        if row.unit == "%":
            based_on = [charge for charge in charges if charge.line in of]
            value = rounded(Decimal(vehicle.value_minor or 0).scaleb(-2), currency)
            quantity = sum((charge.amount for charge in based_on), Decimal(0)) if of else value
            cost_quantity = sum((charge.cost.amount for charge in based_on), Decimal(0)) if of else value
        part = Decimal("0.01") if row.unit == "%" else Decimal(1)
        charges.append(
            Charge(
                line=str(number), code=row.code, label=row.label, stage="carriage", vehicle=vehicle.stock_number,
                quantity=quantity, unit=row.unit, rate=selling, of=of, amount=rounded(quantity * selling * part, currency),
                payer=row.payer, estimate=row.estimate, note=row.note,
                source=f"trucking.xlsx › {carrier_cell}!D{10 + offset}",
                cost=Cost(quantity=cost_quantity, rate=buying, amount=rounded(cost_quantity * buying * part, currency)),
            )
        )  # fmt: skip
    return charges


def option(
    title: str,
    *,
    trailer: str,
    carrier: str,
    vehicles: Sequence[Vehicle],
    rows: Sequence[Row],
    currency: str,
    factor: str,
    pickup: int,
    delivery: int,
    good_for: tuple[str, ...],
    cover: str,
) -> Option:
    charges: list[Charge] = []
    for vehicle in vehicles:
        charges += charges_for(rows, vehicle, currency, len(charges) + 1, Decimal(factor), "Per mile")
    before = sum((c.amount for c in charges if c.payer == "seller"), Decimal(0))
    step = Decimal(5) if decimals(currency) else Decimal(500)
    rounding = rounded(step - before % step, currency) if before % step else Decimal(0)
    if rounding:
        charges.append(
            Charge(line=str(len(charges) + 1), code="rounding", label=f"Rounded up to the next {step}", stage="carriage",
                   quantity=Decimal(1), unit="lump", rate=rounding, amount=rounding, source="trucking.xlsx › Pricing!B9",
                   cost=Cost(quantity=Decimal(1), rate=rounded(Decimal(0), currency), amount=rounded(Decimal(0), currency)))
        )  # fmt: skip
    total = sum((c.amount for c in charges if c.payer == "seller"), Decimal(0))
    local = sum((c.amount for c in charges if c.payer == "buyer"), rounded(Decimal(0), currency))
    start = AS_OF + timedelta(days=4)
    picked = (start + timedelta(days=pickup), start + timedelta(days=pickup + 5))
    brought = (start + timedelta(days=delivery), start + timedelta(days=delivery + 6))
    leg = Leg(
        mode="truck", carrier=carrier, from_=BELLINGHAM, to=ASHEVILLE, great_circle=2328.4, distance=2794, unit="mi",
        method="factor", method_note="straight line × 1.20", vehicles=tuple(v.stock_number for v in vehicles),
    )  # fmt: skip
    return Option(
        title=title,
        good_for=good_for,
        trailer=trailer,
        term="DAP",
        term_place="Asheville, NC 28801",
        total=total,
        buyer_pays_locally=local,
        deposit=rounded(total * Decimal("0.25"), currency),
        cover=rounded(Decimal(cover), currency),
        total_cost=sum((c.cost.amount for c in charges if c.payer == "seller"), Decimal(0)),
        legs=(leg,),
        charges=tuple(charges),
        dates=Dates(
            pickup=picked,
            delivery=brought,
            timeline=(
                Milestone(what="You say yes and pay the deposit", earliest=AS_OF, latest=AS_OF + timedelta(days=14)),
                Milestone(what="Vehicle ready at our yard in Bellingham, WA", earliest=start, latest=start),
                Milestone(what="Picked up; condition report with photographs", earliest=picked[0], latest=picked[1]),
                Milestone(what="On the road, 6 driving days", earliest=picked[0], latest=brought[1],
                          note="Drivers must rest; weather and mountain passes may add a day."),
                Milestone(what="Delivered to your door; look it over before you sign", earliest=brought[0],
                          latest=brought[1]),
                Milestone(what="Last day to report hidden damage to us", earliest=brought[1] + timedelta(days=7),
                          latest=brought[1] + timedelta(days=7)),
            ),
        ),
        documents=(
            Document(code="title", title="Certificate of title, signed over", due=picked[0], prepared_by="office",
                     given_to="buyer", copies="original", note="Sent by courier with tracking."),
            Document(code="bill-of-sale", title="Bill of sale", due=picked[0], prepared_by="office", given_to="buyer",
                     copies="two, both signed"),
            Document(code="condition-report", title="Condition report with dated photographs", due=picked[1],
                     prepared_by="yard", given_to="carrier"),
        ),
        tasks=(
            Task(code="who-receives", title="Tell us who takes delivery, with a telephone number", owner="buyer",
                 due=start, stage="agreed"),
            Task(code="carrier-cover", title="Check the carrier's certificate", owner="office", due=start, stage="ready"),
        ),
        included=(
            "Pick-up at our yard and delivery to your door, or as near as the truck can safely come",
            "The carrier's cargo cover while the vehicle is in its care",
            "Fuel surcharge as of the day of this quote",
            "Condition report with photographs at pick-up and delivery",
        ),
        not_included=(
            "Sales or use tax, registration and plates where you live",
            "Storage if nobody can take delivery on the agreed day",
            "Personal belongings left in the vehicle",
        ),
        warnings=(("The car is low: 4.3 in under the sills. An open carrier's ramp may need boards.",)
                  if trailer == "open" else ()),
    )  # fmt: skip


def sample_quote(
    *,
    choices: int = 2,
    vehicles: Sequence[Vehicle] = (MINNOW,),
    rows: Sequence[Row] = ROAD,
    currency: str = "USD",
    scale: str = "1",
    buyer: str = "Ottoline Quill",
    number: str | None = "Q-2026-0041",
) -> Quote:
    """Return a quote with so many choices; `scale` multiplies every rate."""
    every = {"vehicles": vehicles, "rows": rows, "currency": currency}
    times = Decimal(scale)
    options = (
        option("Open trailer, lowest price", trailer="open", carrier="Tern Haulage", factor=str(times), pickup=3,
               delivery=10, good_for=("lowest price", "everyday cars"), cover="150000", **every),
        option("Enclosed trailer", trailer="enclosed", carrier="Gannet Covered Carriage", factor=str(times * Decimal("1.55")),
               pickup=4, delivery=12, good_for=("low and valuable cars", "winter roads"), cover="500000", **every),
        option("Enclosed trailer, soonest", trailer="enclosed", carrier="Puffin Express Lines",
               factor=str(times * Decimal("1.9137")), pickup=0, delivery=7, good_for=("a fixed date",), cover="350000", **every),
        option("Enclosed trailer, best covered, single car with its own driver all the way", trailer="enclosed",
               carrier="Razorbill & Daughter", factor=str(times * Decimal("2.4")), pickup=5, delivery=11,
               good_for=("show cars", "the highest value"), cover="1000000", **every),
    )[:choices]  # fmt: skip
    return Quote(
        number=number,
        as_of=AS_OF,
        ready=AS_OF + timedelta(days=4),
        valid_until=AS_OF + timedelta(days=14),
        currency=currency,
        rate_book=RateBookStamp(
            fingerprint="5f2c9d0b7a11e4c8", valid_from=date(2026, 11, 1), valid_to=date(2027, 1, 31)
        ),
        program="shipcalc 0.1.0",
        dealer=DEALER,
        buyer=buyer,
        wishes=Wishes(),
        from_=BELLINGHAM,
        to=ASHEVILLE,
        vehicles=tuple(vehicles),
        recommended=min(1, choices - 1),
        reason="The roadster stands 4.3 in above the road and travels in winter: an enclosed trailer with a lift gate keeps "
        "salt and stones away and loads it without a ramp.",
        options=options,
        left_out=(
            LeftOut(
                carrier="Skua Freight", trailer="open", reason="its cargo cover of 30,000 is below the car's value"
            ),
            LeftOut(carrier="Dunlin Transport", trailer="enclosed", reason="does not deliver to North Carolina"),
        ),
        assumptions=(
            "Weight taken from the table of typical sizes for a roadster: 2,030 lb.",
            "Road miles are the straight line × 1.20: 2,794 mi.",
        ),
        cautions=(
            "The tank no more than a quarter full; the battery firmly held down; nothing loose in the car.",
            "Note any damage on the delivery receipt before you sign it.",
        ),
    )


QUOTES = {
    "one choice": lambda: sample_quote(choices=1),
    "two choices": lambda: sample_quote(choices=2),
    "three choices": lambda: sample_quote(choices=3, rows=MANY),
    "five vehicles": lambda: sample_quote(
        choices=4, vehicles=FLEET, rows=MANY,
        buyer="Bartholomew Featherstonehaugh-Cholmondeley and Wilhelmina van der Valk-Oosterhuis",
    ),
    "yen": lambda: sample_quote(choices=2, currency="JPY", scale="151", rows=MANY),
    "dinars": lambda: sample_quote(choices=3, currency="KWD", scale="0.3071", rows=MANY, number=None, buyer=""),
}  # fmt: skip


@pytest.fixture(params=QUOTES, ids=lambda name: name.replace(" ", "-"))
def any_quote(request: pytest.FixtureRequest) -> Quote:
    return QUOTES[request.param]()


@pytest.fixture
def two_choices() -> Quote:
    return QUOTES["two choices"]()


@pytest.fixture
def five_vehicles() -> Quote:
    return QUOTES["five vehicles"]()


@pytest.fixture
def make_quote() -> Callable[..., Quote]:
    return sample_quote


@pytest.fixture
def row_kind() -> type[Row]:
    return Row


@pytest.fixture
def every_row() -> Sequence[Row]:
    return MANY


@pytest.fixture
def many_vehicles() -> Sequence[Vehicle]:
    return FLEET
