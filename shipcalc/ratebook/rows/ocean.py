"""The sheet Ocean of `overseas.xlsx`: ships, when they sail and what they cost."""

from datetime import date

from shipcalc.places.sea.passages import PASSAGE_NAMES
from shipcalc.ratebook.rows.sourced import valid_from_column, valid_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass
from shipcalc.trade import LARGEST_BASE, OCEAN_BASES, OCEAN_MODES

# A late container ship came 5.1 days late on the average of all trades, and 56 in 100 were in time (Sea-Intelligence, Global Liner
# Performance, May 2024, as the press reports it; 4.5 to 7 days in other years). Over 35 days at sea that is 15 percent.
LATE_PPM = 150_000


@dataclass(frozen=True, slots=True, kw_only=True)
class OceanService(Row):
    """One line's service between two regions: its price is base + nautical miles × rate, for every pair of their ports."""

    service: str = column(
        "Service", Kind.CODE, "A name, one for each row.", example="Tideway RoRo East–North Europe", required=True
    )
    carrier: str = column("Carrier", Kind.CODE, "The line.", example="Tideway", required=True)
    private: bool = column(
        "Name private",
        Kind.YES_NO,
        "Yes: the buyer never sees the line's name.",
        example="yes",
        default=True,
        theme=Theme.DETAIL,
    )
    mode: str = column(
        "Mode",
        Kind.CHOICE,
        "roro, container (all yours), or shared container.",
        choices=OCEAN_MODES,
        example="roro",
        required=True,
        theme=Theme.NAME,
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
        theme=Theme.PRICE,
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
        theme=Theme.LIMIT,
    )
    inoperable_minor: int = column(
        "Inoperable ($)",
        Kind.MONEY,
        "For each vehicle that cannot be driven: that does not run, roll, steer or brake.",
        example="450",
        default=0,
        theme=Theme.LIMIT,
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
        "Sails every (days)", Kind.WHOLE, "Days between sailings.", example="14", required=True, theme=Theme.DAYS
    )
    first_sailing: date = column(
        "A sailing on",
        Kind.DATE,
        "Any one sailing; the others are counted from it.",
        example="2026-12-04",
        required=True,
        theme=Theme.DAYS,
    )
    sailings: tuple[str, ...] = column(
        "Listed sailings",
        Kind.LIST,
        "Days of departure that the line has published, divided by ; — while they last they count, not the rhythm.",
        example="2026-12-04; 2026-12-19",
        theme=Theme.DAYS,
    )
    knots: float = column("Knots", Kind.FACTOR, "Speed at sea.", example="14.3", default=14.0, theme=Theme.DAYS)
    port_days: int = column(
        "Days in ports",
        Kind.WHOLE,
        "Days for calls on the way and transshipment.",
        example="3",
        default=2,
        theme=Theme.DAYS,
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
        theme=Theme.DAYS,
    )
