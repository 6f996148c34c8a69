"""The sheet Ocean quotations of `overseas.xlsx`: freight between ports as a forwarder or a line quoted it, with its surcharges."""

from datetime import date

from shipcalc.ratebook.rows.sourced import office_note_column, trust_column, valid_from_column, valid_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass
from shipcalc.trade import CONTAINER_SIZES, LARGEST_AMOUNT, OCEAN_MODES, QUOTED_BASES, QUOTED_STAGES


@dataclass(frozen=True, slots=True, kw_only=True)
class OceanQuotation(Row):
    """One line of a quotation: the freight between ports, or a surcharge on it.

    Amounts are ten-thousandths of the row's own currency. A surcharge holds for every freight row of its quotation that its
    ports, mode and line leave open.
    """

    quotation: str = column(
        "Quotation", Kind.CODE, "Its number, the same in all its rows.", example="HF-26-1184", required=True
    )
    forwarder: str = column(
        "Forwarder",
        Kind.CODE,
        "Who quotes: a forwarder, or the line itself. For the office only.",
        example="Harrow Quay Forwarding",
        required=True,
    )
    line: str | None = column(
        "Line",
        Kind.CODE,
        "Whose ship, as under Carrier of the sheet Ocean. Blank: any.",
        example="Tideway",
        theme=Theme.NAME,
    )
    mode: str | None = column(
        "Mode",
        Kind.CHOICE,
        "roro, container (all yours), or shared container. Only a surcharge may leave it blank: any.",
        choices=OCEAN_MODES,
        example="roro",
        theme=Theme.NAME,
    )
    from_port: str | None = column(
        "From",
        Kind.CODE,
        "A port (UN/LOCODE), or a group or region of the sheet Ports. Only a surcharge may leave it blank: any.",
        example="USSAV",
        theme=Theme.NAME,
    )
    to_port: str | None = column(
        "To",
        Kind.CODE,
        "A port (UN/LOCODE), or a group or region of the sheet Ports. Only a surcharge may leave it blank: any.",
        example="DEBRV",
        theme=Theme.NAME,
    )
    surcharge: str | None = column(
        "Surcharge",
        Kind.TEXT,
        "Blank: the row is the freight. Else what is added to it: BAF, CAF, THC.",
        example="BAF",
        theme=Theme.NAME,
    )
    basis: str | None = column(
        "Basis",
        Kind.CHOICE,
        "What the amount is for; per shipment is a lump sum. A W/M ton is the greater of cubic metres and tonnes.",
        choices=QUOTED_BASES,
        example="per W/M",
        theme=Theme.PRICE,
    )
    amount_e4: int | None = column(
        "Amount",
        Kind.RATE,
        "For one unit of the basis, in the row's currency.",
        example="62.50",
        largest=LARGEST_AMOUNT,
    )
    currency: str | None = column(
        "Currency",
        Kind.CODE,
        "Three letters (ISO 4217). Blank: the currency of the rate book.",
        example="EUR",
        theme=Theme.PRICE,
    )
    minimum_e4: int | None = column(
        "Minimum",
        Kind.RATE,
        "Never less for a vehicle, or for a container, in the row's currency.",
        example="890",
        largest=LARGEST_AMOUNT,
    )
    percent_ppm: int | None = column(
        "Percent of freight", Kind.PERCENT, "A surcharge: instead of an amount.", example="12 %"
    )
    stage: str | None = column(
        "Stage",
        Kind.CHOICE,
        "A surcharge: where it arises, which says who pays it. Blank: main carriage.",
        choices=QUOTED_STAGES,
        example="",
    )
    includes: tuple[str, ...] = column(
        "Includes",
        Kind.LIST,
        "The freight: stages whose charges on the sheets Ports, Port charges and Containers it holds already, divided by ;",
        choices=QUOTED_STAGES[:-1],
        example="",
    )
    valid_from: date | None = valid_from_column(example="2026-11-02")
    valid_to: date | None = valid_to_column(example="2026-12-31")
    free_days: int | None = column(
        "Free days at arrival", Kind.WHOLE, "The freight: instead of those of the port.", example="", theme=Theme.DAYS
    )
    transit_days: int | None = column(
        "Transit (days)",
        Kind.WHOLE,
        "The freight: days from sailing to arrival, if told.",
        example="",
        theme=Theme.DAYS,
    )
    cutoff_days: int | None = column(
        "Cut-off (working days)",
        Kind.WHOLE,
        "The freight: working days before departure, if told; instead of the terminal's own.",
        example="",
        theme=Theme.DAYS,
    )
    source: str | None = column(
        "Source", Kind.TEXT, "Where the row was read: the mail, the file and its row.", example="mail of 2026-11-02"
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()


def size_of(basis: str | None) -> str:
    """Return the size of container that a basis is for; "" where it is for none of them alone."""
    size = (basis or "").removeprefix("per ")
    return size if size in CONTAINER_SIZES else ""


def rank(row: OceanQuotation, from_port: str, to_port: str) -> tuple[int, ...]:
    """Return how closely a row that holds between two ports names them: of several that hold, the highest counts.

    The codes of the ports are in small letters. First the ports it names, then groups, its line, its mode and a size of container.
    """
    ends = ((row.from_port, from_port), (row.to_port, to_port))
    ports = sum(cell is not None and cell.casefold() == code for cell, code in ends)
    named = sum(cell is not None for cell, _ in ends)
    return ports, named, row.line is not None, row.mode is not None, bool(size_of(row.basis))


def quotation_of(row: OceanQuotation) -> tuple[str, str]:
    """Return what tells a quotation from others: its forwarder and number."""
    return row.forwarder.casefold(), row.quotation.casefold()
