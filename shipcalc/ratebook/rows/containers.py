"""The sheet Containers of `overseas.xlsx`: what fits into which."""

from datetime import date

from shipcalc.ratebook.rows.sourced import office_note_column, pickup_from_column, pickup_to_column, trust_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.records import dataclass


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
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()
