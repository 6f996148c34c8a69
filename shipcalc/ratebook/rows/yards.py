"""The sheets *Storage* and *Terminals* of `trucking.xlsx`: where a vehicle can wait, and where else than at the door it can be had."""

from datetime import date

from shipcalc.ratebook.rows.sourced import pickup_from_column, valid_from_column, valid_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.conditions import Condition
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass

PER = ("day", "month")


@dataclass(frozen=True, slots=True, kw_only=True)
class Storage(Row):
    """What it costs to keep one vehicle at a yard."""

    storage: str = column(
        "Storage",
        Kind.CODE,
        "A name of its own; the buyer reads it as the label of the charge.",
        example="Indoor storage at Bellingham",
        required=True,
    )
    yard: str | None = column(
        "Yard",
        Kind.TEXT,
        "The yard's name as in the stock list. Blank: any yard.",
        example="Bellingham",
        condition=Condition("yard", "is", unknown="not met"),
    )
    indoors: bool = column(
        "Indoors", Kind.YES_NO, "Yes: under a roof. For the buyer to read.", example="yes", default=False
    )
    per: str = column(
        "Per",
        Kind.CHOICE,
        "day: for every day kept. month: for every started month of 30 days.",
        example="day",
        choices=PER,
        default="day",
        theme=Theme.PRICE,
    )
    amount_minor: int = column(
        "Price ($)", Kind.MONEY, "For one vehicle and one day, or month.", example="9", required=True
    )
    free_days: int = column(
        "Free days", Kind.WHOLE, "So many first days cost nothing.", example="14", default=0, theme=Theme.PRICE
    )
    valid_from: date | None = valid_from_column("2026-01-01")
    valid_to: date | None = valid_to_column("2027-12-31")


@dataclass(frozen=True, slots=True, kw_only=True)
class Terminal(Row):
    """A place where trucks set a vehicle down for a buyer who comes for it, instead of going to the door."""

    terminal: str = column(
        "Terminal", Kind.CODE, "A name of its own; the buyer reads it.", example="Spokane terminal", required=True
    )
    zip_code: str = column("ZIP", Kind.ZIP, "Its ZIP, kept as text.", example="99224", required=True)
    carriers: tuple[str, ...] = column(
        "Carriers",
        Kind.LIST,
        "Who delivers there, divided by ; — blank: all.",
        example="Tern Haulage",
        refers_to="Carriers",
        condition=Condition("carrier", "one of"),
    )
    discount_minor: int = column(
        "Discount ($)", Kind.MONEY, "Off the price for each vehicle: no stop at a door.", example="60", default=0
    )
    fee_minor: int = column(
        "Terminal fee ($)", Kind.MONEY, "What the terminal takes for each vehicle.", example="45", default=0
    )
    free_days: int = column(
        "Free days",
        Kind.WHOLE,
        "Days it stands there before storage is asked.",
        example="3",
        default=0,
        theme=Theme.PRICE,
    )
    hours: str | None = column("Hours", Kind.TEXT, "When it can be fetched.", example="weekdays 8 to 5")
    valid_to: date | None = valid_to_column("2027-12-31")
    valid_from: date | None = pickup_from_column()
