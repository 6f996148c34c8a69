"""The sheet Extra charges of `trucking.xlsx`: what is asked beside the miles, and when."""

from datetime import date

from shipcalc.ratebook.rows.sourced import valid_from_column, valid_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.conditions import Condition
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass
from shipcalc.trade import DRIVEN, TRAILERS

CHARGE_TYPES = ("flat", "percent", "per mile")
BASES = ("linehaul", "linehaul and fuel", "value", "value above cover")


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
        theme=Theme.PRICE,
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
        theme=Theme.PRICE,
    )
    valid_from: date | None = valid_from_column()
    valid_to: date | None = valid_to_column()
    note: str | None = column("Note", Kind.TEXT, "For the office only.", example="")
