"""The sheets of `overseas.xlsx`: ports, ocean services, containers, charges by stage, marine cover, currencies.

Money is in the book's currency unless a column says otherwise; distances at sea are nautical miles.
"""

from datetime import date

from shipcalc.places.sea.passages import PASSAGE_NAMES
from shipcalc.ratebook.rows.sourced import office_note_column, trust_column, valid_from_column, valid_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.conditions import Condition
from shipcalc.records import dataclass
from shipcalc.trade import COST_STAGES, COVER_CONDITIONS, LARGEST_BASE, OCEAN_BASES, OCEAN_MODES, PER, STAGE_MODES, WEEK

# A late container ship came 5.1 days late on the average of all trades, and 56 in 100 were in time (Sea-Intelligence, Global Liner
# Performance, May 2024, as the press reports it; 4.5 to 7 days in other years). Over 35 days at sea that is 15 percent.
LATE_PPM = 150_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Port(Row):
    """One sea port: what it handles, what it charges, how long it takes."""

    port: str = column(
        "UN/LOCODE", Kind.CODE, "Five characters (UNECE Recommendation 16).", example="USSAV", required=True
    )
    name: str = column("Port", Kind.TEXT, "Its name.", example="Savannah", required=True)
    region: str = column(
        "Region", Kind.CODE, "The group of ports that ocean services name.", example="US South Atlantic", required=True
    )
    country: str = column("Country", Kind.COUNTRY, "Two letters (ISO 3166-1).", example="US", required=True)
    latitude: float = column(
        "Latitude", Kind.FACTOR, "Degrees north; south is negative.", example="32.08", required=True, signed=True
    )
    longitude: float = column(
        "Longitude", Kind.FACTOR, "Degrees east; west is negative.", example="-81.09", required=True, signed=True
    )
    exports: bool = column("Ships from here", Kind.YES_NO, "yes: quotes may load here.", example="yes", default=False)
    roro: bool = column("RoRo", Kind.YES_NO, "yes: vehicles are driven on and off here.", example="yes", default=False)
    container: bool = column(
        "Container", Kind.YES_NO, "yes: containers are handled here.", example="yes", default=False
    )
    gate_minor: int = column(
        "Gate and handling, vehicle ($)", Kind.MONEY, "For each vehicle driven on or off.", example="95", default=0
    )
    wharfage_e4: int = column(
        "Wharfage ($ per revenue ton)",
        Kind.RATE,
        "For each revenue ton (the greater of cubic metres and tonnes) of a vehicle driven on or off.",
        example="3.20",
        default=0,
    )
    thc_minor: int = column(
        "Terminal handling, container ($)", Kind.MONEY, "For each container (THC).", example="310", default=0
    )
    free_days: int = column(
        "Free days", Kind.WHOLE, "Days in the terminal before storage is charged.", example="7", default=5
    )
    free_days_count: str = column(
        "Free days count",
        Kind.CHOICE,
        "working: without Saturdays, Sundays and holidays. calendar: every day.",
        choices=("working", "calendar"),
        example="working",
        default="working",
    )
    storage_first_minor: int = column(
        "Storage, first days ($ a day)",
        Kind.MONEY,
        "For each vehicle and day after the free days.",
        example="25",
        default=0,
    )
    storage_first_days: int = column(
        "First days", Kind.WHOLE, "How many days the first rate of storage holds.", example="5", default=5
    )
    storage_then_minor: int = column(
        "Storage, then ($ a day)", Kind.MONEY, "For each vehicle and day after that.", example="60", default=0
    )
    document_hours: int = column(
        "Documents before departure (hours)",
        Kind.WHOLE,
        "How long before departure the export papers and the vehicle must be presented.",
        example="72",
        default=72,
    )
    document_hours_count: str = column(
        "Hours count",
        Kind.CHOICE,
        "clock: every hour. business: only working days.",
        choices=("clock", "business"),
        example="clock",
        default="clock",
    )
    cutoff_days: int = column(
        "Terminal cut-off (working days)",
        Kind.WHOLE,
        "Working days before departure by which the vehicle must be in the terminal.",
        example="2",
        default=2,
    )
    clearance_days: int = column(
        "Clearance (working days)",
        Kind.WHOLE,
        "Working days from discharge to release, where vehicles arrive.",
        example="4",
        default=3,
    )
    days_off: tuple[str, ...] = column(
        "Days off",
        Kind.LIST,
        "Days of the week on which the terminal is shut, divided by ;",
        choices=WEEK,
        example="Saturday; Sunday",
    )
    source: str | None = column("Source", Kind.TEXT, "Where the row is from.", example="the terminal's tariff of 2026")
    loading_hours: int = column(
        "Loading before departure (hours)",
        Kind.WHOLE,
        "How long before noon of the day of departure loading begins: documents count back from it.",
        example="24",
        default=24,
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class OceanService(Row):
    """One line's service between two regions: its price is base + nautical miles × rate, for every pair of their ports."""

    service: str = column(
        "Service", Kind.CODE, "A name, one for each row.", example="Tideway RoRo East–North Europe", required=True
    )
    carrier: str = column("Carrier", Kind.CODE, "The line.", example="Tideway", required=True)
    private: bool = column(
        "Name private", Kind.YES_NO, "Yes: the buyer never sees the line's name.", example="yes", default=True
    )
    mode: str = column(
        "Mode",
        Kind.CHOICE,
        "roro, container (all yours), or shared container.",
        choices=OCEAN_MODES,
        example="roro",
        required=True,
    )
    from_region: str = column(
        "From region", Kind.CODE, "As on sheet Ports.", example="US North Atlantic", required=True
    )
    to_region: str = column("To region", Kind.CODE, "As on sheet Ports.", example="North Europe", required=True)
    basis: str = column(
        "Basis",
        Kind.CHOICE,
        "What base and rate are for. A W/M ton is the greater of cubic metres and tonnes.",
        choices=OCEAN_BASES,
        example="per W/M",
        required=True,
    )
    base_e4: int = column(
        "Base ($)", Kind.RATE, "For each unit of the basis.", example="28", largest=LARGEST_BASE, default=0
    )
    per_nmi_e4: int = column(
        "$ per nautical mile", Kind.RATE, "For each unit of the basis and nautical mile.", example="0.0060", default=0
    )
    minimum_minor: int = column(
        "Minimum ($)",
        Kind.MONEY,
        "Freight of one unit is never less: a vehicle, or a container.",
        example="650",
        default=0,
    )
    bunker_ppm: int = column(
        "Bunker (BAF)", Kind.PERCENT, "Bunker adjustment, percent of freight.", example="12 %", default=0
    )
    currency_ppm: int = column(
        "Currency (CAF)", Kind.PERCENT, "Currency adjustment, percent of freight.", example="4 %", default=0
    )
    peak_ppm: int = column(
        "Peak season", Kind.PERCENT, "Percent of freight, while it is in force.", example="", default=0
    )
    security_minor: int = column(
        "Security ($)", Kind.MONEY, "For each vehicle driven on, or each container.", example="15", default=0
    )
    bill_minor: int = column("Bill of lading ($)", Kind.MONEY, "For each shipment.", example="65", default=0)
    takes_inoperable: bool = column(
        "Takes inoperable",
        Kind.YES_NO,
        "Yes: also a vehicle that cannot be driven, as far as the sheet Ways of loading has a way for it.",
        example="no",
        default=False,
    )
    inoperable_minor: int = column(
        "Inoperable ($)",
        Kind.MONEY,
        "For each vehicle that cannot be driven: that does not run, roll, steer or brake.",
        example="450",
        default=0,
    )
    longest_mm: int | None = column(
        "Longest (in)", Kind.LENGTH, "Longest vehicle it takes. Blank: no limit.", example=""
    )
    highest_mm: int | None = column(
        "Highest (in)", Kind.LENGTH, "Highest vehicle it takes. Blank: no limit.", example=""
    )
    heaviest_grams: int | None = column(
        "Heaviest (lb)", Kind.MASS, "Heaviest vehicle it takes. Blank: no limit.", example=""
    )
    sails_every_days: int = column(
        "Sails every (days)", Kind.WHOLE, "Days between sailings.", example="14", required=True
    )
    first_sailing: date = column(
        "A sailing on",
        Kind.DATE,
        "Any one sailing; the others are counted from it.",
        example="2026-12-04",
        required=True,
    )
    sailings: tuple[str, ...] = column(
        "Listed sailings",
        Kind.LIST,
        "Days of departure that the line has published, divided by ; — while they last they count, not the rhythm.",
        example="2026-12-04; 2026-12-19",
    )
    knots: float = column("Knots", Kind.FACTOR, "Speed at sea.", example="14.3", default=14.0)
    port_days: int = column(
        "Days in ports", Kind.WHOLE, "Days for calls on the way and transshipment.", example="3", default=2
    )
    avoids: tuple[str, ...] = column(
        "Avoids",
        Kind.LIST,
        "Canals and straits that it does not use, divided by ;",
        choices=PASSAGE_NAMES,
        example="suez",
    )
    valid_from: date | None = valid_from_column()
    valid_to: date | None = valid_to_column()
    note: str | None = column("Note", Kind.TEXT, "For the office only.", example="")
    late_ppm: int = column(
        "May be late by",
        Kind.PERCENT,
        "Share of the days at sea, started days counted whole, by which it may come later than reckoned.",
        example="15 %",
        default=LATE_PPM,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class ContainerType(Row):
    """One size of container: what fits, what loading it costs. Least sizes of ISO 1496-1 unless the manager measures."""

    container: str = column(
        "Container", Kind.CHOICE, "Its size.", choices=("20′", "40′", "40′HC"), example="40′HC", required=True
    )
    inside_length_mm: int = column(
        "Inside length (mm)", Kind.WHOLE, "Least inside length.", example="11998", required=True
    )
    inside_width_mm: int = column("Inside width (mm)", Kind.WHOLE, "Least inside width.", example="2330", required=True)
    inside_height_mm: int = column(
        "Inside height (mm)", Kind.WHOLE, "Least inside height.", example="2655", required=True
    )
    door_width_mm: int = column(
        "Door width (mm)", Kind.WHOLE, "Least width of the door opening.", example="2286", required=True
    )
    door_height_mm: int = column(
        "Door height (mm)", Kind.WHOLE, "Least height of the door opening.", example="2566", required=True
    )
    payload_kg: int = column(
        "Payload (kg)",
        Kind.WHOLE,
        "What it may carry, within the limits of the roads at both ends.",
        example="19000",
        required=True,
    )
    end_clearance_mm: int = column(
        "Clearance, ends (mm)", Kind.WHOLE, "Left free before, behind and between vehicles.", example="100", default=100
    )
    side_clearance_mm: int = column(
        "Clearance, sides (mm)", Kind.WHOLE, "Left free on each side.", example="50", default=50
    )
    top_clearance_mm: int = column("Clearance, top (mm)", Kind.WHOLE, "Left free above.", example="50", default=50)
    drayage_minor: int = column(
        "Drayage ($)", Kind.MONEY, "From the packing place to the terminal.", example="380", default=0
    )
    loading_minor: int = column(
        "Loading and lashing, vehicle ($)", Kind.MONEY, "For each vehicle: load, block, lash.", example="425", default=0
    )
    materials_minor: int = column(
        "Materials, container ($)", Kind.MONEY, "Timber, lashings, for each container.", example="90", default=0
    )
    unloading_minor: int = column(
        "Unloading at arrival, vehicle ($)", Kind.MONEY, "For each vehicle, an estimate.", example="250", default=0
    )
    source: str | None = column("Source", Kind.TEXT, "Where the sizes are from.", example="ISO 1496-1")
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class StageCharge(Row):
    """One row of the decision table of charges by stage: export papers, port agents, cleaning, clearance at arrival."""

    code: str = column(
        "Code",
        Kind.CODE,
        "A short name without spaces, one for each row. What an agent at arrival asks for handing over begins with hand-over.",
        example="export-filing",
        required=True,
    )
    label: str = column(
        "Label", Kind.TEXT, "What the buyer reads.", example="Export declaration (EEI) filed for you", required=True
    )
    stage: str = column(
        "Stage",
        Kind.CHOICE,
        "Where the cost arises; the delivery term decides who pays.",
        choices=COST_STAGES,
        example="export clearance",
        required=True,
    )
    mode: str | None = column(
        "Mode",
        Kind.CHOICE,
        "truck: only where a truck carries it over a border. Blank: any.",
        choices=STAGE_MODES,
        example="roro",
        condition=Condition("mode", "is"),
    )
    to_country: tuple[str, ...] = column(
        "To country",
        Kind.LIST,
        "Two-letter countries, divided by ; — blank: any.",
        example="AU; NZ",
        condition=Condition("to_country", "one of"),
    )
    not_to_country: tuple[str, ...] = column(
        "Not to country",
        Kind.LIST,
        "Two-letter countries where it is not charged, divided by ;",
        example="US; GU",
        condition=Condition("to_country", "none of"),
    )
    title: tuple[str, ...] = column(
        "Title",
        Kind.LIST,
        "Kinds of title, divided by ; — blank: any.",
        example="lien",
        condition=Condition("title", "one of"),
    )
    runs: bool | None = column(
        "Runs",
        Kind.YES_NO,
        "no: only vehicles that do not run. Blank: any.",
        example="",
        condition=Condition("runs", "is"),
    )
    year_up_to: int | None = column(
        "Year up to",
        Kind.WHOLE,
        "Only vehicles of this model year or older. Blank: any.",
        example="",
        condition=Condition("year", "up to", unknown="not met"),
    )
    per: str = column("Per", Kind.CHOICE, "What the sum is for.", choices=PER, example="shipment", required=True)
    amount_minor: int | None = column("Amount ($)", Kind.MONEY, "The sum.", example="85")
    percent_ppm: int | None = column(
        "Percent of value", Kind.PERCENT, "Instead of a sum: percent of the vehicle's value.", example=""
    )
    estimate: bool = column("Estimate", Kind.YES_NO, "yes: said to be an estimate.", example="no", default=False)
    source: str | None = column("Source", Kind.TEXT, "Where the figure is from.", example="own tariff of 2026")
    season_from: date | None = column(
        "Season from",
        Kind.DATE,
        "Only for ships that may leave within a season of every year; day and month count. Blank: any.",
        example="",
        condition=Condition("leaves", "season", unknown="not met", part="first"),
    )
    season_to: date | None = column(
        "Season to",
        Kind.DATE,
        "The last day of that season.",
        example="",
        condition=Condition("leaves", "season", unknown="not met", part="last"),
    )
    takes_days: int | None = column(
        "Takes (days)",
        Kind.WHOLE,
        "In its season: days between coming to the port and being ready for the ship.",
        example="",
    )
    said: str | None = column(
        "Said above the price", Kind.TEXT, "In its season: what the buyer is told before the price.", example=""
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class OnCarriage(Row):
    """Carriage by road from the arrival port to the buyer, by country: an estimate."""

    country: str = column("Country", Kind.COUNTRY, "Two letters (ISO 3166-1).", example="DE", required=True)
    trailer: str = column(
        "Trailer", Kind.CHOICE, "Open or enclosed.", choices=("open", "enclosed"), example="open", required=True
    )
    base_minor: int = column("Base ($)", Kind.MONEY, "A fixed sum for each vehicle.", example="180", default=0)
    rate_e4: int = column("$ per mile", Kind.RATE, "For each road mile and vehicle.", example="2.40", required=True)
    minimum_minor: int = column("Minimum ($)", Kind.MONEY, "Never less for a vehicle.", example="300", default=0)
    miles_a_day: int = column("Miles a day", Kind.WHOLE, "How far it comes in a day.", example="300", default=300)
    spare_days: int = column("Spare days", Kind.WHOLE, "Days of waiting for a full load.", example="4", default=3)
    winch_minor: int | None = column(
        "Winch ($)",
        Kind.MONEY,
        "At each end, for a vehicle that rolls but cannot be driven. Blank: not known, and the quote says so.",
        example="95",
    )
    skates_minor: int | None = column(
        "Skates and forklift ($)",
        Kind.MONEY,
        "At each end instead of the winch, for a vehicle that does not roll. Blank: not known, and the quote says so.",
        example="210",
    )
    source: str | None = column("Source", Kind.TEXT, "Where the row is from.", example="the haulier's offer")
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class MarineCover(Row):
    """Marine cargo cover: conditions (Institute Cargo Clauses A, B, C), rate, minimum."""

    conditions: str = column(
        "Conditions",
        Kind.CHOICE,
        "A covers most perils, C the fewest (Institute Cargo Clauses 1.1.09).",
        choices=COVER_CONDITIONS,
        example="A",
        required=True,
        condition=Condition("cover", "is"),
    )
    mode: str | None = column(
        "Mode", Kind.CHOICE, "Blank: any.", choices=OCEAN_MODES, example="", condition=Condition("mode", "is")
    )
    rate_ppm: int = column("Rate", Kind.PERCENT, "Percent of the insured sum.", example="1.35 %", required=True)
    minimum_minor: int = column("Minimum ($)", Kind.MONEY, "Least premium of a shipment.", example="150", default=0)
    insured_ppm: int = column(
        "Insured sum",
        Kind.PERCENT,
        "Percent of the value with carriage; delivery terms ask for 110 %.",
        example="110 %",
        over_whole=True,
        default=1_100_000,
    )
    excess_ppm: int = column(
        "Excess", Kind.PERCENT, "Percent of the insured sum that the insured bears.", example="1 %", default=0
    )
    note: str | None = column("Note", Kind.TEXT, "What it does not cover, in plain words.", example="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Currency(Row):
    """What one unit of the book's currency buys. Several rows of a currency are its history: the latest not after the quote counts."""

    currency: str = column("Currency", Kind.CODE, "Three letters (ISO 4217).", example="EUR", required=True)
    as_of: date = column("As of", Kind.DATE, "The day of the rate.", example="2026-11-23", required=True)
    rate: float = column(
        "For one dollar", Kind.FACTOR, "Units of the currency for one dollar.", example="0.9215", required=True
    )
    buffer_ppm: int = column(
        "Buffer",
        Kind.PERCENT,
        "Added to the converted price as a buffer against exchange-rate movements until payment.",
        example="1.5 %",
        default=0,
    )
    source: str | None = column("Source", Kind.TEXT, "Where the rate was read.", example="the bank's sheet of the day")
    trust: str | None = trust_column()
