"""The sheet Carriers of `trucking.xlsx`: who drives, how fast, what he takes and covers."""

from datetime import date

from shipcalc.ratebook.rows.sourced import valid_from_column, valid_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass
from shipcalc.trade import TRAILERS


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
        "Name private",
        Kind.YES_NO,
        "Yes: the buyer never sees the carrier's name.",
        example="yes",
        default=True,
        theme=Theme.DETAIL,
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
        theme=Theme.LIMIT,
    )
    cover_can_rise: bool = column(
        "Cover can be raised",
        Kind.YES_NO,
        "Yes: it takes a dearer vehicle for an extra charge (sheet Extra charges, of: value above cover). No: it is left out.",
        example="no",
        default=False,
        theme=Theme.LIMIT,
    )
    takes_inoperable: bool = column(
        "Takes inoperable",
        Kind.YES_NO,
        "Yes: it loads a vehicle that does not run, as long as it rolls, steers and brakes.",
        example="yes",
        default=False,
        theme=Theme.LIMIT,
    )
    winch: bool = column(
        "Has a winch",
        Kind.YES_NO,
        "Yes: it also loads a vehicle that does not roll, steer or brake.",
        example="no",
        default=False,
        theme=Theme.LIMIT,
    )
    lift_gate: bool = column(
        "Has a lift gate",
        Kind.YES_NO,
        "Yes: it loads with a lift gate; a low vehicle then needs no ramp.",
        example="no",
        default=False,
        theme=Theme.LIMIT,
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
        theme=Theme.PRICE,
    )
    fuel_scheme: str | None = column(
        "Fuel scheme",
        Kind.CODE,
        "Name of a scheme on sheet Fuel. Blank: no fuel surcharge.",
        example="Per mile",
        refers_to="Fuel",
        theme=Theme.PRICE,
    )
    pickup_from_days: int = column(
        "Pickup from (days)",
        Kind.WHOLE,
        "Earliest pickup, days after the vehicle is ready.",
        example="2",
        default=1,
        theme=Theme.DAYS,
    )
    pickup_to_days: int = column(
        "Pickup to (days)",
        Kind.WHOLE,
        "Latest pickup, days after the vehicle is ready.",
        example="6",
        default=7,
        theme=Theme.DAYS,
    )
    express_pickup_days: int | None = column(
        "Express pickup (days)",
        Kind.WHOLE,
        "Latest pickup when the buyer pays for express pickup. Blank: not offered.",
        example="2",
        theme=Theme.DAYS,
    )
    spare_days: int = column(
        "Spare days on the road",
        Kind.WHOLE,
        "Days added to the driving days for other stops: the late end of the delivery window.",
        example="3",
        default=2,
        theme=Theme.DAYS,
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
        "How far it gets in a day with its other stops; never farther than hours of service let it. Blank: as on Pricing.",
        example="450",
        theme=Theme.DAYS,
    )
    currency: str | None = column(
        "Currency",
        Kind.TEXT,
        "Of its base fee, its minimum and its rates on Per mile: three letters (ISO 4217), with a rate on the sheet Currencies. "
        "Blank: the rate book's.",
        example="",
    )
    note: str | None = column("Note", Kind.TEXT, "For the office only.", example="")
