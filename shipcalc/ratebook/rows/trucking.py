"""The sheets of `trucking.xlsx`: what each row is, column by column.

Condition columns are blank for "any". A range is two columns, `… over` (not itself included) and `… up to` (included).
Lengths reach the program in millimetres, masses in grams, money in minor units, rates in ten-thousandths, percentages in
millionths; the headers say which unit the manager writes.
"""

from datetime import date

from shipcalc.ratebook.rows.sourced import trust_column, valid_from_column, valid_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.conditions import Condition
from shipcalc.records import dataclass
from shipcalc.trade import DRIVEN, TRAILERS

# What is driven stands on no trailer: a hired driver delivers it on its own wheels.
CHARGE_TYPES = ("flat", "percent", "per mile")
BASES = ("linehaul", "linehaul and fuel", "value", "value above cover")


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier(Row):
    """One carrier's service with one kind of trailer: where it goes, what it takes, its fixed prices."""

    carrier: str = column(
        "Carrier",
        Kind.CODE,
        "The carrier's name. One row for each kind of trailer it runs.",
        example="Tern Haulage",
        required=True,
    )
    trailer: str = column(
        "Trailer",
        Kind.CHOICE,
        "Open (flat-beds too), enclosed, or driven: a hired driver delivers it on its own wheels.",
        example="open",
        required=True,
        choices=TRAILERS,
    )
    private: bool = column(
        "Name private", Kind.YES_NO, "Yes: the buyer never sees the carrier's name.", example="yes", default=True
    )
    from_areas: tuple[str, ...] = column(
        "Picks up in",
        Kind.LIST,
        "Names of areas (sheet Areas), divided by ; — blank: anywhere on the home road network.",
        example="Northwest; Southeast",
        refers_to="Areas",
    )
    to_areas: tuple[str, ...] = column(
        "Delivers to",
        Kind.LIST,
        "Names of areas (sheet Areas), divided by ; — blank: anywhere on the home road network.",
        example="",
        refers_to="Areas",
    )
    longest_mm: int | None = column(
        "Longest (in)", Kind.LENGTH, "Longest vehicle it takes, inches. Blank: no limit.", example="228"
    )
    widest_mm: int | None = column(
        "Widest (in)", Kind.LENGTH, "Widest vehicle it takes, inches. Blank: no limit.", example="84"
    )
    highest_mm: int | None = column(
        "Highest (in)", Kind.LENGTH, "Highest vehicle it takes, inches. Blank: no limit.", example="80"
    )
    lowest_clearance_mm: int | None = column(
        "Least clearance (in)",
        Kind.LENGTH,
        "Least ground clearance its ramp allows, inches. Blank: no limit.",
        example="4.5",
    )
    heaviest_grams: int | None = column(
        "Heaviest (lb)", Kind.MASS, "Heaviest vehicle it takes, pounds. Blank: no limit.", example="7000"
    )
    cover_minor: int = column(
        "Cargo cover ($)",
        Kind.MONEY,
        "Its cargo cover for one vehicle, as its certificate says.",
        example="150000",
        required=True,
    )
    cover_can_rise: bool = column(
        "Cover can be raised",
        Kind.YES_NO,
        "Yes: it takes a dearer vehicle for an extra charge (sheet Extra charges, of: value above cover). No: it is left out.",
        example="no",
        default=False,
    )
    takes_inoperable: bool = column(
        "Takes inoperable",
        Kind.YES_NO,
        "Yes: it loads a vehicle that does not run, as long as it rolls, steers and brakes.",
        example="yes",
        default=False,
    )
    winch: bool = column(
        "Has a winch",
        Kind.YES_NO,
        "Yes: it also loads a vehicle that does not roll, steer or brake.",
        example="no",
        default=False,
    )
    lift_gate: bool = column(
        "Has a lift gate",
        Kind.YES_NO,
        "Yes: it loads with a lift gate; a low vehicle then needs no ramp.",
        example="no",
        default=False,
    )
    base_minor: int = column(
        "Base fee ($)", Kind.MONEY, "A fixed sum for every vehicle, before the miles.", example="120", default=0
    )
    minimum_minor: int = column(
        "Minimum ($)", Kind.MONEY, "Base fee and miles together never cost less than this.", example="450", default=0
    )
    bands: str = column(
        "Bands price",
        Kind.CHOICE,
        "whole trip: all miles at the rate of the band the trip falls in. graduated: each mile at the rate of its own band.",
        example="whole trip",
        choices=("whole trip", "graduated"),
        default="whole trip",
    )
    fuel_scheme: str | None = column(
        "Fuel scheme",
        Kind.CODE,
        "Name of a scheme on sheet Fuel. Blank: no fuel surcharge.",
        example="Per mile",
        refers_to="Fuel",
    )
    pickup_from_days: int = column(
        "Pickup from (days)", Kind.WHOLE, "Earliest pickup, days after the vehicle is ready.", example="2", default=1
    )
    pickup_to_days: int = column(
        "Pickup to (days)", Kind.WHOLE, "Latest pickup, days after the vehicle is ready.", example="6", default=7
    )
    express_pickup_days: int | None = column(
        "Express pickup (days)",
        Kind.WHOLE,
        "Latest pickup when the buyer pays for express pickup. Blank: not offered.",
        example="2",
    )
    spare_days: int = column(
        "Spare days on the road",
        Kind.WHOLE,
        "Days added to the driving days for other stops: the late end of the delivery window.",
        example="3",
        default=2,
    )
    valid_from: date | None = valid_from_column("2026-01-01")
    valid_to: date | None = valid_to_column("2027-12-31")
    higher_than_mm: int | None = column(
        "Only higher than (in)",
        Kind.LENGTH,
        "Only vehicles higher than this, inches, as a service for motor homes. Blank: any.",
        example="",
    )
    miles_a_day: int | None = column(
        "Miles a day",
        Kind.WHOLE,
        "How far it comes in a day with its other stops; never farther than hours of service let it. Blank: as on Pricing.",
        example="450",
    )
    note: str | None = column("Note", Kind.TEXT, "For the office only.", example="")


@dataclass(frozen=True, slots=True, kw_only=True)
class MileBand(Row):
    """One distance band of one carrier's tariff: from over `from_mi` up to and including `to_mi`."""

    carrier: str = column(
        "Carrier", Kind.CODE, "As on sheet Carriers.", example="Tern Haulage", required=True, refers_to="Carriers"
    )
    trailer: str = column("Trailer", Kind.CHOICE, "Open or enclosed.", example="open", required=True, choices=TRAILERS)
    from_mi: int = column(
        "Over (mi)",
        Kind.MILES,
        "The band begins after this many road miles; the first band at 0.",
        example="500",
        required=True,
    )
    to_mi: int | None = column(
        "Up to (mi)", Kind.MILES, "The band ends with this mile, included. Blank: no end.", example="1000"
    )
    rate_e4: int = column("Rate ($ per mile)", Kind.RATE, "Dollars for one road mile.", example="0.82", required=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class ExtraCharge(Row):
    """One row of the decision table of extra charges: all its conditions must hold; blank holds always."""

    code: str = column(
        "Code", Kind.CODE, "A short name without spaces, one for each row.", example="low-clearance", required=True
    )
    label: str = column(
        "Label", Kind.TEXT, "What the buyer reads.", example="Lift gate loading for a low car", required=True
    )
    carrier: str | None = column(
        "Carrier",
        Kind.CODE,
        "As on sheet Carriers. Blank: any.",
        example="",
        refers_to="Carriers",
        condition=Condition("carrier", "is"),
    )
    trailer: str | None = column(
        "Trailer",
        Kind.CHOICE,
        "Blank: any trailer, not what is driven.",
        choices=TRAILERS,
        example="enclosed",
        condition=Condition("trailer", "is", unknown="not met", blank_bars=(DRIVEN,)),
    )
    runs: bool | None = column(
        "Runs",
        Kind.YES_NO,
        "no: the charge is for vehicles that do not run. Blank: any.",
        example="no",
        condition=Condition("runs", "is"),
    )
    rolls: bool | None = column(
        "Rolls",
        Kind.YES_NO,
        "no: for vehicles that do not roll. Blank: any.",
        example="",
        condition=Condition("rolls", "is"),
    )
    steers: bool | None = column(
        "Steers",
        Kind.YES_NO,
        "no: for vehicles that do not steer. Blank: any.",
        example="",
        condition=Condition("steers", "is"),
    )
    brakes: bool | None = column(
        "Brakes",
        Kind.YES_NO,
        "no: for vehicles without brakes. Blank: any.",
        example="",
        condition=Condition("brakes", "is"),
    )
    modified: bool | None = column(
        "Modified",
        Kind.YES_NO,
        "yes: for vehicles altered in size or stance. Blank: any.",
        example="",
        condition=Condition("modified", "is"),
    )
    length_over_mm: int | None = column(
        "Length over (in)",
        Kind.LENGTH,
        "Only vehicles longer than this.",
        example="210",
        condition=Condition("length_mm", "over", unknown="not met"),
    )
    length_up_to_mm: int | None = column(
        "Length up to (in)",
        Kind.LENGTH,
        "Only vehicles up to this length.",
        example="",
        condition=Condition("length_mm", "up to", unknown="not met"),
    )
    width_over_mm: int | None = column(
        "Width over (in)",
        Kind.LENGTH,
        "Only vehicles wider than this.",
        example="",
        condition=Condition("width_mm", "over", unknown="not met"),
    )
    width_up_to_mm: int | None = column(
        "Width up to (in)",
        Kind.LENGTH,
        "Only vehicles up to this width.",
        example="",
        condition=Condition("width_mm", "up to", unknown="not met"),
    )
    height_over_mm: int | None = column(
        "Height over (in)",
        Kind.LENGTH,
        "Only vehicles higher than this.",
        example="72",
        condition=Condition("height_mm", "over", unknown="not met"),
    )
    height_up_to_mm: int | None = column(
        "Height up to (in)",
        Kind.LENGTH,
        "Only vehicles up to this height.",
        example="",
        condition=Condition("height_mm", "up to", unknown="not met"),
    )
    clearance_over_mm: int | None = column(
        "Clearance over (in)",
        Kind.LENGTH,
        "Only vehicles with more ground clearance than this.",
        example="",
        condition=Condition("clearance_mm", "over", unknown="not met"),
    )
    clearance_up_to_mm: int | None = column(
        "Clearance up to (in)",
        Kind.LENGTH,
        "Only vehicles with at most this ground clearance.",
        example="4.5",
        condition=Condition("clearance_mm", "up to", unknown="not met"),
    )
    mass_over_grams: int | None = column(
        "Weight over (lb)",
        Kind.MASS,
        "Only vehicles heavier than this.",
        example="5000",
        condition=Condition("mass_grams", "over", unknown="not met"),
    )
    mass_up_to_grams: int | None = column(
        "Weight up to (lb)",
        Kind.MASS,
        "Only vehicles up to this weight.",
        example="",
        condition=Condition("mass_grams", "up to", unknown="not met"),
    )
    value_over_minor: int | None = column(
        "Value over ($)",
        Kind.MONEY,
        "Only vehicles worth more than this.",
        example="",
        condition=Condition("value_minor", "over", unknown="not met"),
    )
    value_up_to_minor: int | None = column(
        "Value up to ($)",
        Kind.MONEY,
        "Only vehicles worth at most this.",
        example="",
        condition=Condition("value_minor", "up to", unknown="not met"),
    )
    lift_gate: bool | None = column(
        "Lift gate asked for",
        Kind.YES_NO,
        "yes: the buyer asks for a lift gate. Blank: any.",
        example="",
        condition=Condition("lift_gate", "is"),
    )
    limited_access: bool | None = column(
        "Limited access",
        Kind.YES_NO,
        "yes: the truck cannot reach the door (narrow street, gated place). Blank: any.",
        example="",
        condition=Condition("limited_access", "is"),
    )
    express: bool | None = column(
        "Express pickup",
        Kind.YES_NO,
        "yes: the buyer pays for express pickup. Blank: any.",
        example="",
        condition=Condition("express", "is"),
    )
    vehicles_over: int | None = column(
        "Vehicles over",
        Kind.WHOLE,
        "Only requests with more vehicles than this.",
        example="",
        condition=Condition("vehicle_count", "over"),
    )
    miles_over: int | None = column(
        "Miles over", Kind.MILES, "Only trips longer than this.", example="", condition=Condition("miles", "over")
    )
    charge: str = column(
        "Charge",
        Kind.CHOICE,
        "flat: a sum. percent: of the base named under Of. per mile: for every road mile.",
        choices=CHARGE_TYPES,
        example="flat",
        required=True,
    )
    amount_minor: int | None = column(
        "Flat ($)", Kind.MONEY, "The sum, where Charge is flat. A reduction is negative.", example="125", signed=True
    )
    percent_ppm: int | None = column(
        "Percent",
        Kind.PERCENT,
        "The percentage, where Charge is percent. A reduction is negative.",
        example="10 %",
        signed=True,
    )
    rate_e4: int | None = column(
        "$ per mile", Kind.RATE, "Dollars a mile, where Charge is per mile.", example="", signed=True
    )
    of: str | None = column(
        "Of",
        Kind.CHOICE,
        "What the percentage is taken of. Blank: linehaul (base fee and miles).",
        choices=BASES,
        example="linehaul",
    )
    valid_from: date | None = valid_from_column()
    valid_to: date | None = valid_to_column()
    note: str | None = column("Note", Kind.TEXT, "For the office only.", example="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Area(Row):
    """One piece of a named area: several rows of one name add up. A row may carry a charge of its own."""

    area: str = column(
        "Area", Kind.CODE, "The area's name; several rows may share it.", example="Northwest", required=True
    )
    country: str = column("Country", Kind.COUNTRY, "Two letters (ISO 3166-1). Blank: US.", example="US", default="US")
    state: str | None = column(
        "State", Kind.STATE, "Two letters. Blank: the whole country, or as the ZIP columns say.", example="WA"
    )
    zip_from: str | None = column("ZIP from", Kind.ZIP, "First ZIP or beginning of a ZIP, kept as text.", example="")
    zip_to: str | None = column(
        "ZIP to", Kind.ZIP, "Last ZIP or beginning of a ZIP, included. Blank: as ZIP from.", example=""
    )
    applies_at: str | None = column(
        "Charged at",
        Kind.CHOICE,
        "Where the charge falls: at pickup, at delivery, or at both. Blank: this row has no charge.",
        choices=("pickup", "delivery", "both"),
        example="delivery",
    )
    label: str | None = column(
        "Label", Kind.TEXT, "What the buyer reads.", example="Remote delivery, Olympic Peninsula"
    )
    charge: str | None = column(
        "Charge", Kind.CHOICE, "flat, percent (of linehaul) or per mile.", choices=CHARGE_TYPES, example="flat"
    )
    amount_minor: int | None = column(
        "Flat ($)", Kind.MONEY, "The sum, where Charge is flat.", example="85", signed=True
    )
    percent_ppm: int | None = column(
        "Percent", Kind.PERCENT, "The percentage of linehaul, where Charge is percent.", example="", signed=True
    )
    rate_e4: int | None = column(
        "$ per mile", Kind.RATE, "Dollars a mile, where Charge is per mile.", example="", signed=True
    )
    extra_days: int = column(
        "Extra days", Kind.WHOLE, "Days added to the late end of the delivery window.", example="2", default=0
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Season(Row):
    """A time of the year when one direction costs more, or less."""

    season: str = column("Season", Kind.CODE, "A name, one for each row.", example="Snowbirds south", required=True)
    label: str = column("Label", Kind.TEXT, "What the buyer reads.", example="Autumn demand, southbound", required=True)
    first_day: date = column(
        "First day",
        Kind.DATE,
        "First day of pickup it holds for.",
        example="2026-10-15",
        required=True,
        condition=Condition("day", "season", part="first"),
    )
    last_day: date = column(
        "Last day",
        Kind.DATE,
        "Last day of pickup it holds for.",
        example="2026-12-15",
        required=True,
        condition=Condition("day", "season", part="last"),
    )
    every_year: bool = column(
        "Every year",
        Kind.YES_NO,
        "Yes: only day and month of the dates count.",
        example="yes",
        default=True,
        condition=Condition("day", "season", part="every year"),
    )
    from_area: str | None = column(
        "From area",
        Kind.CODE,
        "As on sheet Areas. Blank: any.",
        example="Northeast",
        refers_to="Areas",
        condition=Condition("pickup_area", "lies in"),
    )
    to_area: str | None = column(
        "To area",
        Kind.CODE,
        "As on sheet Areas. Blank: any.",
        example="Florida",
        refers_to="Areas",
        condition=Condition("delivery_area", "lies in"),
    )
    percent_ppm: int = column(
        "Percent", Kind.PERCENT, "Of linehaul; a reduction is negative.", example="12 %", required=True, signed=True
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class FuelScheme(Row):
    """A fuel surcharge: per mile, (price − peg) ÷ miles per gallon; or so many percent for each started step above the peg.

    Several rows of one scheme, with different `as_of`, are its price history: the latest not after the quote's date counts.
    """

    scheme: str = column("Scheme", Kind.CODE, "The name carriers refer to.", example="Per mile", required=True)
    as_of: date = column("As of", Kind.DATE, "The day of the price.", example="2026-11-23", required=True)
    price_e4: int = column(
        "Price ($ per gallon)", Kind.RATE, "Retail diesel, dollars for a US gallon.", example="3.856", required=True
    )
    method: str = column(
        "Method",
        Kind.CHOICE,
        "per mile: (price − peg) ÷ miles per gallon, for each mile. percent steps: so many percent of linehaul for each started step above the peg.",
        choices=("per mile", "percent steps"),
        example="per mile",
        required=True,
    )
    peg_e4: int = column(
        "Peg ($ per gallon)", Kind.RATE, "No surcharge up to this price.", example="2.50", required=True
    )
    miles_per_gallon: float | None = column("Miles per gallon", Kind.FACTOR, "For the method per mile.", example="6.0")
    step_e4: int | None = column(
        "Step ($)", Kind.RATE, "For the method percent steps: the size of a step.", example="0.13"
    )
    step_percent_ppm: int | None = column(
        "Percent per step", Kind.PERCENT, "For the method percent steps: what each started step adds.", example="1 %"
    )
    source: str | None = column("Source", Kind.TEXT, "Where the price was read.", example="the week's table")
    trust: str | None = trust_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class RoadFactor(Row):
    """Road miles ÷ straight-line miles for a country, a pair of states, or one lane; the closest match counts."""

    from_place: str | None = column(
        "From",
        Kind.PLACE,
        "A country (US), a state (US-WA), a ZIP or its beginning (98225). Blank: any.",
        example="US-MI",
    )
    to_place: str | None = column("To", Kind.PLACE, "As From; the row holds in both directions.", example="US-WI")
    over_mi: float | None = column(
        "Over (mi)", Kind.FACTOR, "Only where the straight line is longer than this.", example=""
    )
    up_to_mi: float | None = column(
        "Up to (mi)", Kind.FACTOR, "Only where the straight line is up to this long.", example=""
    )
    factor: float | None = column("Factor", Kind.FACTOR, "Road miles for each straight-line mile.", example="1.20")
    road_mi: float | None = column(
        "Road miles", Kind.FACTOR, "The miles of a lane that you know; used in place of a factor.", example=""
    )
    source: str | None = column(
        "Source", Kind.TEXT, "Where the figure is from.", example="Ballou, Rahardja & Sakai 2002, table 1"
    )
    trust: str | None = trust_column()
    checked_on: date | None = column("Checked on", Kind.DATE, "When somebody last looked at it.", example="2026-11-25")


@dataclass(frozen=True, slots=True, kw_only=True)
class VehicleSize(Row):
    """Typical outer size of a body, for vehicles whose sizes are not known."""

    body: str = column("Body", Kind.CODE, "As in the stock list.", example="roadster", required=True)
    also: tuple[str, ...] = column(
        "Also called", Kind.LIST, "Other words for it, divided by ;", example="spider; open two-seater"
    )
    length_mm: int = column("Length (in)", Kind.LENGTH, "Over everything.", example="153.5", required=True)
    width_mm: int = column("Width (in)", Kind.LENGTH, "Mirrors folded.", example="60.2", required=True)
    height_mm: int = column("Height (in)", Kind.LENGTH, "With the roof up.", example="49.2", required=True)
    clearance_mm: int = column(
        "Clearance (in)", Kind.LENGTH, "Under the lowest part between the axles.", example="5", required=True
    )
    mass_grams: int = column("Weight (lb)", Kind.MASS, "Ready for the road.", example="2030", required=True)
    source: str | None = column("Source", Kind.TEXT, "Where the figures are from.", example="measured")
    trust: str | None = trust_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class PricingSetting(Row):
    """One setting of the sheet Pricing; the known ones are listed in `pricing_settings.SETTINGS`."""

    setting: str = column(
        "Setting", Kind.CODE, "One of the known settings.", example="Markup on linehaul", required=True
    )
    value: str = column("Value", Kind.TEXT, "Its value, in the unit beside it.", example="14 %", required=True)
    unit: str | None = column("Unit", Kind.TEXT, "How the value is read.", example="percent")
    note: str | None = column("Note", Kind.TEXT, "What it does.", example="")
