"""The sheet Stage charges of `overseas.xlsx`: what arises at a stage of the way, and when."""

from datetime import date

from shipcalc.ratebook.rows.sourced import office_note_column, pickup_from_column, pickup_to_column, trust_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.conditions import Condition
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass
from shipcalc.trade import COST_STAGES, PER, STAGE_MODES


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
    per: str = column(
        "Per", Kind.CHOICE, "What the sum is for.", choices=PER, example="shipment", required=True, theme=Theme.PRICE
    )
    amount_minor: int | None = column("Amount ($)", Kind.MONEY, "The sum.", example="85")
    percent_ppm: int | None = column(
        "Percent of value", Kind.PERCENT, "Instead of a sum: percent of the vehicle's value.", example=""
    )
    estimate: bool = column(
        "Estimate", Kind.YES_NO, "yes: said to be an estimate.", example="no", default=False, theme=Theme.PRICE
    )
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
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()
