"""The sheets Areas and Seasons of `trucking.xlsx`: where and when a truck costs more or less."""

from datetime import date

from shipcalc.ratebook.rows.extra_charges import CHARGE_TYPES
from shipcalc.ratebook.rows.sourced import pickup_from_column, pickup_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.conditions import Condition
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Area(Row):
    """One piece of a named area: several rows of one name add up. A row may carry a charge of its own."""

    area: str = column(
        "Area", Kind.CODE, "The area's name; several rows may share it.", example="Northwest", required=True
    )
    country: str = column(
        "Country", Kind.COUNTRY, "Two letters (ISO 3166-1). Blank: US.", example="US", default="US", theme=Theme.NAME
    )
    state: str | None = column(
        "State",
        Kind.STATE,
        "Two letters. Blank: the whole country, or as the ZIP columns say.",
        example="WA",
        theme=Theme.NAME,
    )
    zip_from: str | None = column(
        "ZIP from", Kind.ZIP, "First ZIP or beginning of a ZIP, kept as text.", example="", theme=Theme.NAME
    )
    zip_to: str | None = column(
        "ZIP to",
        Kind.ZIP,
        "Last ZIP or beginning of a ZIP, included. Blank: as ZIP from.",
        example="",
        theme=Theme.NAME,
    )
    applies_at: str | None = column(
        "Charged at",
        Kind.CHOICE,
        "Where the charge falls: at pickup, at delivery, or at both. Blank: this row has no charge.",
        choices=("pickup", "delivery", "both"),
        example="delivery",
        theme=Theme.PRICE,
    )
    label: str | None = column(
        "Label", Kind.TEXT, "What the buyer reads.", example="Remote delivery, Olympic Peninsula", theme=Theme.PRICE
    )
    charge: str | None = column(
        "Charge",
        Kind.CHOICE,
        "flat, percent (of linehaul) or per mile.",
        choices=CHARGE_TYPES,
        example="flat",
        theme=Theme.PRICE,
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
    city: str | None = column(
        "City",
        Kind.TEXT,
        "A piece that is one city of the state, by its name. Blank: the whole state.",
        example="",
        theme=Theme.NAME,
    )
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()


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
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()
