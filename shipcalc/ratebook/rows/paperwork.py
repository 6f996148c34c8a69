"""The sheets of `paperwork.xlsx`: documents and tasks as decision tables."""

from datetime import date

from shipcalc.ratebook.rows.sourced import (
    address_column,
    checked_on_column,
    fact_from_column,
    fact_to_column,
    office_note_column,
    trust_column,
)
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.conditions import Condition
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass
from shipcalc.trade import (
    BALANCES,
    COST_STAGES,
    DELIVERY_TERMS,
    LOADINGS,
    MOMENTS,
    OWNERS,
    PAPER_MODES,
    TITLES,
    TRAILERS,
    TREATMENTS,
    WINDOW_ENDS,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditioned(Row):
    """The condition columns that documents and tasks share: all must hold; blank holds always."""

    overseas: bool | None = column(
        "Overseas",
        Kind.YES_NO,
        "yes: only shipments that leave the customs territory. no: only those that stay in it. Blank: any.",
        example="no",
        condition=Condition("overseas", "is"),
    )
    export_filing: bool | None = column(
        "Export filing",
        Kind.YES_NO,
        "yes: only where an export filing is due, as for abroad, Puerto Rico and the US Virgin Islands. Blank: any.",
        example="",
        condition=Condition("export_filing", "is"),
    )
    to_country: tuple[str, ...] = column(
        "To country",
        Kind.LIST,
        "Two-letter countries, divided by ; — blank: any.",
        example="",
        condition=Condition("to_country", "one of"),
    )
    mode: tuple[str, ...] = column(
        "Mode",
        Kind.LIST,
        "How it travels the longest part ("
        + ", ".join(PAPER_MODES)
        + "; collected: the buyer fetches it at the yard), "
        "divided by ; — blank: any.",
        example="",
        choices=PAPER_MODES,
        condition=Condition("mode", "one of"),
    )
    loaded: tuple[str, ...] = column(
        "Loaded",
        Kind.LIST,
        "How it goes onto what carries it the longest part (" + ", ".join(LOADINGS) + "), divided by ; — blank: any.",
        example="",
        choices=LOADINGS,
        condition=Condition("loaded", "one of", unknown="not met"),
    )
    term: tuple[str, ...] = column(
        "Term",
        Kind.LIST,
        "Delivery terms (" + ", ".join(DELIVERY_TERMS) + "), divided by ; — blank: any.",
        example="",
        choices=DELIVERY_TERMS,
        condition=Condition("term", "one of"),
    )
    seller_pays: tuple[str, ...] = column(
        "Seller pays",
        Kind.LIST,
        "Cost stages, divided by ; — only where the seller pays for all of them: whoever pays for a stage sees to it. Blank: any.",
        example="main carriage",
        choices=COST_STAGES,
        condition=Condition("seller_pays", "all of"),
    )
    buyer_pays: tuple[str, ...] = column(
        "Buyer pays",
        Kind.LIST,
        "Cost stages, divided by ; — only where the buyer pays for all of them. Blank: any.",
        example="",
        choices=COST_STAGES,
        condition=Condition("seller_pays", "none of"),
    )
    balance_due: tuple[str, ...] = column(
        "Balance due",
        Kind.LIST,
        "Only where the setting Balance due of trucking.xlsx is one of these ("
        + ", ".join(BALANCES)
        + "). Blank: any.",
        example="",
        choices=BALANCES,
        condition=Condition("balance_due", "one of"),
    )
    season_from: date | None = column(
        "Season from",
        Kind.DATE,
        "Only what may leave by ship (by road: be picked up) within a season of every year; day and month count. Blank: any.",
        example="",
        condition=Condition("leaves", "season", unknown="met", part="first"),
    )
    season_to: date | None = column(
        "Season to",
        Kind.DATE,
        "The last day of that season.",
        example="",
        condition=Condition("leaves", "season", unknown="met", part="last"),
    )
    treatment: str | None = column(
        "Treatment",
        Kind.CHOICE,
        "collector: only where the vehicle is brought in as a collector's piece. Blank: any.",
        choices=TREATMENTS,
        example="",
        condition=Condition("treatment", "is", unknown="not met"),
    )
    trailer: str | None = column(
        "Trailer",
        Kind.CHOICE,
        "Blank: any.",
        choices=TRAILERS,
        example="",
        condition=Condition("trailer", "is", unknown="not met"),
    )
    title: tuple[str, ...] = column(
        "Title",
        Kind.LIST,
        "Kinds of title (" + ", ".join(TITLES) + "), divided by ; — blank: any.",
        example="lien",
        choices=TITLES,
        condition=Condition("title", "one of"),
    )
    runs: bool | None = column(
        "Runs",
        Kind.YES_NO,
        "no: only vehicles that do not run. Blank: any.",
        example="",
        condition=Condition("runs", "is"),
    )
    lift_gate: bool | None = column(
        "Low or lift gate",
        Kind.YES_NO,
        "yes: only where a lift gate is used. Blank: any.",
        example="",
        condition=Condition("lift_gate", "is"),
    )
    value_over_minor: int | None = column(
        "Value over ($)",
        Kind.MONEY,
        "Only vehicles worth more than this.",
        example="",
        condition=Condition("value_minor", "over", unknown="met"),
    )
    age_from: int | None = column(
        "Age from (years)",
        Kind.WHOLE,
        "Only vehicles at least this old on arrival, by model year.",
        example="",
        condition=Condition("age_years", "from", unknown="met"),
    )
    age_under: int | None = column(
        "Age under (years)",
        Kind.WHOLE,
        "Only vehicles younger than this on arrival, by model year.",
        example="",
        condition=Condition("age_years", "under", unknown="met"),
    )
    battery: bool | None = column(
        "Driven by battery",
        Kind.YES_NO,
        "yes: only electric and hybrid vehicles. no: only others. Blank: any.",
        example="",
        condition=Condition("battery", "is"),
    )
    each_vehicle: bool = column(
        "Each vehicle",
        Kind.YES_NO,
        "yes: once for every vehicle of the shipment. no: once for the whole shipment. Blank: yes.",
        example="yes",
        default=True,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class DocumentRow(Conditioned):
    """A paper that a shipment needs when its conditions hold."""

    code: str = column("Code", Kind.CODE, "A short name without spaces.", example="title", required=True)
    document: str = column(
        "Document", Kind.TEXT, "What the paper is called.", example="Certificate of title, signed over", required=True
    )
    prepared_by: str = column(
        "Prepared by",
        Kind.CHOICE,
        "Who makes it or gets it.",
        choices=OWNERS,
        example="office",
        required=True,
        theme=Theme.DETAIL,
    )
    given_to: str | None = column("Given to", Kind.CHOICE, "Who receives it.", choices=OWNERS, example="buyer")
    copies: str | None = column("Copies", Kind.TEXT, "Original or copies, how many.", example="original")
    fee_minor: int | None = column(
        "Fee ($)",
        Kind.MONEY,
        "What it costs to get, as a note for the office: it is in no price.",
        example="",
        theme=Theme.DETAIL,
    )
    stage: str = column(
        "Due by",
        Kind.CHOICE,
        "The moment it is due by.",
        choices=MOMENTS,
        example="pickup",
        required=True,
        theme=Theme.DAYS,
    )
    days: int = column(
        "Days",
        Kind.WHOLE,
        "Days after that moment; before it is negative.",
        example="-2",
        signed=True,
        default=0,
        theme=Theme.DAYS,
    )
    note: str | None = column("Note", Kind.TEXT, "A reason or a caution.", example="")
    source: str | None = column(
        "Source", Kind.TEXT, "The law, standard or 'common practice, no source'.", example="49 CFR 373.101"
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    checked_on: date | None = checked_on_column()
    address: str | None = address_column()
    valid_from: date | None = fact_from_column()
    valid_to: date | None = fact_to_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskRow(Conditioned):
    """Something that somebody must do when its conditions hold."""

    code: str = column("Code", Kind.CODE, "A short name without spaces.", example="condition-report", required=True)
    task: str = column(
        "Task",
        Kind.TEXT,
        "What is to be done, as an order.",
        example="Fill in the condition report with the driver",
        required=True,
    )
    owner: str = column(
        "Owner", Kind.CHOICE, "Who does it.", choices=OWNERS, example="yard", required=True, theme=Theme.DETAIL
    )
    after: tuple[str, ...] = column(
        "After", Kind.LIST, "Codes of the tasks that come first, divided by ;", example="photographs", refers_to="Tasks"
    )
    stage: str = column(
        "Due by",
        Kind.CHOICE,
        "The moment it is due by.",
        choices=MOMENTS,
        example="pickup",
        required=True,
        theme=Theme.DAYS,
    )
    days: int = column(
        "Days",
        Kind.WHOLE,
        "Days after that moment; before it is negative.",
        example="0",
        signed=True,
        default=0,
        theme=Theme.DAYS,
    )
    counts_from: str | None = column(
        "Counts from",
        Kind.CHOICE,
        "Where that moment may fall on several days: first or last. What the law limits counts from the first. "
        "Blank: before the moment from the first, at it and after it from the last.",
        choices=WINDOW_ENDS,
        example="",
        theme=Theme.DAYS,
    )
    takes_days: int | None = column(
        "Takes (days)",
        Kind.WHOLE,
        "Days from its beginning until it is in hand, where others take that long over it: its moment is not before. Blank: soon.",
        example="",
        theme=Theme.DAYS,
    )
    proof: str | None = column("Proof", Kind.TEXT, "What shows that it is done.", example="signed condition report")
    critical: bool = column(
        "Critical", Kind.YES_NO, "yes: the shipment stands still without it.", example="yes", default=False
    )
    note: str | None = column("Note", Kind.TEXT, "A reason or a caution.", example="")
    source: str | None = column(
        "Source", Kind.TEXT, "The law, standard or 'common practice, no source'.", example="common practice, no source"
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    checked_on: date | None = checked_on_column()
    address: str | None = address_column()
    valid_from: date | None = fact_from_column()
    valid_to: date | None = fact_to_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class FromBuyerRow(Conditioned):
    """Something that the buyer must bring or tell when its conditions hold, as the buyer reads it."""

    code: str = column("Code", Kind.CODE, "A short name without spaces.", example="name", required=True)
    asked: str = column(
        "What we need",
        Kind.TEXT,
        "What the buyer reads, a sentence.",
        example="Your full name, as it should stand on the title.",
        required=True,
    )
    source: str | None = column(
        "Source", Kind.TEXT, "The law, standard or 'common practice, no source'.", example="common practice, no source"
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    checked_on: date | None = checked_on_column()
    address: str | None = address_column()
    valid_from: date | None = fact_from_column()
    valid_to: date | None = fact_to_column()
