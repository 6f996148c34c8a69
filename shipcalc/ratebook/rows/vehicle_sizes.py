"""The sheet Vehicle sizes of `trucking.xlsx`: typical sizes where a vehicle's own are not known."""

from shipcalc.ratebook.rows.sourced import trust_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class VehicleSize(Row):
    """Typical outer size of a body, for vehicles whose sizes are not known."""

    body: str = column("Body", Kind.CODE, "As in the stock list.", example="roadster", required=True)
    also: tuple[str, ...] = column(
        "Also called", Kind.LIST, "Other words for it, divided by ;", example="spider; open two-seater"
    )
    length_mm: int = column("Length (in)", Kind.LENGTH, "Over everything.", example="153.5", required=True)
    width_mm: int = column("Width (in)", Kind.LENGTH, "Mirrors folded.", example="60.2", required=True)
    height_mm: int = column("Height (in)", Kind.LENGTH, "With the roof up.", example="49.2", required=True)
    clearance_mm: int = column(
        "Clearance (in)", Kind.LENGTH, "Under the lowest part between the axles.", example="5", required=True
    )
    mass_grams: int = column("Weight (lb)", Kind.MASS, "Ready for the road.", example="2030", required=True)
    source: str | None = column("Source", Kind.TEXT, "Where the figures are from.", example="measured")
    trust: str | None = trust_column()
