"""The sheet Markups of `trucking.xlsx`: other markups than those of Pricing, by carrier, country or kind of buyer."""

from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkupRow(Row):
    """Markups for some shipments. Cell by cell the row counts that names the most of carrier, kind of buyer and country;
    where no row says one, the sheet Pricing does.
    """

    carrier: str | None = column(
        "Carrier",
        Kind.CODE,
        "A carrier of the sheet Carriers, for its trucks alone. Blank: the row is for all of them.",
        example="Tern Haulage",
        refers_to="Carriers",
        theme=Theme.NAME,
    )
    buyer: str | None = column(
        "Kind of buyer",
        Kind.TEXT,
        "As it is named with a quote (--buyer-is), e.g. dealer or private. Blank: the row is for all of them.",
        example="dealer",
        theme=Theme.NAME,
    )
    country: str | None = column(
        "Country",
        Kind.COUNTRY,
        "Where it goes, two letters (ISO 3166-1), US at home. Blank: the row is for all of them.",
        example="DE",
        theme=Theme.NAME,
    )
    linehaul_ppm: int | None = column("Linehaul", Kind.PERCENT, "Markup on the truck's linehaul.", example="12 %")
    fuel_ppm: int | None = column("Fuel", Kind.PERCENT, "Markup on its fuel surcharge.", example="")
    extras_ppm: int | None = column("Extra charges", Kind.PERCENT, "Markup on its extra charges.", example="")
    ocean_ppm: int | None = column("Ocean freight", Kind.PERCENT, "Markup on ocean freight.", example="")
    port_ppm: int | None = column(
        "Ports and papers", Kind.PERCENT, "Markup on ports, papers and on-carriage.", example=""
    )
    least_minor: int | None = column(
        "Least margin ($)",
        Kind.MONEY,
        "On a truck's linehaul alone, for each vehicle: our price is so much above the carrier's at least. Overseas too, not on the ship.",
        example="75",
    )
    note: str | None = column("Note", Kind.TEXT, "For the office only.", example="")
