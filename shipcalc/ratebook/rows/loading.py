"""The sheet *Ways of loading*: how a vehicle goes onto the ship or into the container, by what works on it."""

from datetime import date

from shipcalc.ratebook.rows.sourced import office_note_column, pickup_from_column, pickup_to_column, trust_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.conditions import Condition
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass
from shipcalc.trade import OCEAN_MODES, SEA_LOADINGS


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadingWay(Row):
    """One way to load a vehicle: what must work on it, what it costs. Of the rows that hold for a vehicle the first counts."""

    code: str = column(
        "Code", Kind.CODE, "A short name without spaces, one for each row.", example="in-tow", required=True
    )
    mode: str = column(
        "Mode",
        Kind.CHOICE,
        "roro, container (all yours), or shared container.",
        choices=OCEAN_MODES,
        example="roro",
        required=True,
        condition=Condition("mode", "is"),
    )
    loading: str = column(
        "Loaded",
        Kind.CHOICE,
        "driven aboard, towed aboard, static (standing on a platform with wheels), or in a container.",
        choices=SEA_LOADINGS,
        example="towed",
        required=True,
    )
    lines: tuple[str, ...] = column(
        "Lines",
        Kind.LIST,
        "Lines of the sheet Ocean that offer it, divided by ; — blank: all.",
        example="",
        condition=Condition("carrier", "one of"),
    )
    runs: bool | None = column(
        "Runs", Kind.YES_NO, "yes: only vehicles that run. Blank: any.", example="", condition=Condition("runs", "is")
    )
    rolls: bool | None = column(
        "Rolls",
        Kind.YES_NO,
        "yes: only vehicles that roll. Blank: any.",
        example="yes",
        condition=Condition("rolls", "is"),
    )
    steers: bool | None = column(
        "Steers",
        Kind.YES_NO,
        "yes: only vehicles that steer. Blank: any.",
        example="yes",
        condition=Condition("steers", "is"),
    )
    brakes: bool | None = column(
        "Brakes",
        Kind.YES_NO,
        "yes: only vehicles that brake. Blank: any.",
        example="yes",
        condition=Condition("brakes", "is"),
    )
    how: str = column(
        "In words",
        Kind.TEXT,
        "How the vehicle goes, as the buyer reads it in a sentence.",
        example="in tow",
        required=True,
    )
    equipment: str | None = column(
        "Equipment",
        Kind.TEXT,
        "What is needed for it, as the buyer reads it; with a sum, a line of the quote.",
        example="Terminal tractor and tow bar",
        theme=Theme.PRICE,
    )
    equipment_minor: int = column(
        "Hire ($)", Kind.MONEY, "Hire of the equipment for the way, for each vehicle.", example="", default=0
    )
    label: str = column(
        "Label, loading", Kind.TEXT, "What the buyer reads.", example="Towed aboard and lashed", required=True
    )
    loading_minor: int = column(
        "Loading ($)",
        Kind.MONEY,
        "For each vehicle. Packing into a container of its own stands on Containers: here what comes on top.",
        example="205",
        default=0,
    )
    unloading_label: str | None = column(
        "Label, unloading", Kind.TEXT, "What the buyer reads.", example="Towed off the ship", theme=Theme.PRICE
    )
    unloading_minor: int | None = column(
        "Unloading ($)",
        Kind.MONEY,
        "At arrival, for each vehicle, an estimate; 0 where the port's own charges hold it. Blank: not known, and the quote says so.",
        example="140",
    )
    source: str | None = column(
        "Source",
        Kind.TEXT,
        "Where conditions and prices are from.",
        example="the line's tariff",
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()
