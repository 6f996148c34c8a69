"""The sheet Ports of `overseas.xlsx`: what a terminal takes in, when, and what it asks."""

from datetime import date

from shipcalc.ratebook.rows.sourced import office_note_column, pickup_from_column, pickup_to_column, trust_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass
from shipcalc.trade import WEEK


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
        "Free days",
        Kind.WHOLE,
        "Days in the terminal before storage is charged.",
        example="7",
        default=5,
        theme=Theme.PRICE,
    )
    free_days_count: str = column(
        "Free days count",
        Kind.CHOICE,
        "working: without Saturdays, Sundays and holidays. calendar: every day.",
        choices=("working", "calendar"),
        example="working",
        default="working",
        theme=Theme.PRICE,
    )
    storage_first_minor: int = column(
        "Storage, first days ($ a day)",
        Kind.MONEY,
        "For each vehicle and day after the free days.",
        example="25",
        default=0,
    )
    storage_first_days: int = column(
        "First days",
        Kind.WHOLE,
        "How many days the first rate of storage holds.",
        example="5",
        default=5,
        theme=Theme.PRICE,
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
        theme=Theme.DAYS,
    )
    document_hours_count: str = column(
        "Hours count",
        Kind.CHOICE,
        "clock: every hour. business: only working days.",
        choices=("clock", "business"),
        example="clock",
        default="clock",
        theme=Theme.DAYS,
    )
    cutoff_days: int = column(
        "Terminal cut-off (working days)",
        Kind.WHOLE,
        "Working days before departure by which the vehicle must be in the terminal.",
        example="2",
        default=2,
        theme=Theme.DAYS,
    )
    clearance_days: int = column(
        "Clearance (working days)",
        Kind.WHOLE,
        "Working days from discharge to release, where vehicles arrive.",
        example="4",
        default=3,
        theme=Theme.DAYS,
    )
    days_off: tuple[str, ...] = column(
        "Days off",
        Kind.LIST,
        "Days of the week on which the terminal is shut, divided by ;",
        choices=WEEK,
        example="Saturday; Sunday",
        theme=Theme.DAYS,
    )
    source: str | None = column("Source", Kind.TEXT, "Where the row is from.", example="the terminal's tariff of 2026")
    loading_hours: int = column(
        "Loading before departure (hours)",
        Kind.WHOLE,
        "How long before noon of the day of departure loading begins: documents count back from it.",
        example="24",
        default=24,
        theme=Theme.DAYS,
    )
    groups: tuple[str, ...] = column(
        "Groups",
        Kind.LIST,
        "Your own words for ports that are quoted together, divided by ; — the sheet Ocean quotations may name them.",
        example="Base ports; Hamburg range",
        theme=Theme.NAME,
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()


def names_of(port: Port) -> tuple[str, ...]:
    """Return what quotations may call a port, in small letters: its code first, then its region and groups."""
    return tuple(dict.fromkeys(name.casefold() for name in (port.port, port.region, *port.groups)))
