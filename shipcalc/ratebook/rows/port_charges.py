"""The sheet Port charges of `overseas.xlsx`: what a terminal asks, line by line, with its period; and storage by the day."""

from datetime import date

from shipcalc.ratebook.rows.sourced import office_note_column, trust_column, valid_from_column, valid_to_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass
from shipcalc.trade import LARGEST_AMOUNT, OCEAN_MODES, PORT_PER


@dataclass(frozen=True, slots=True, kw_only=True)
class PortCharge(Row):
    """One charge of a port; amounts in ten-thousandths of the row's own currency."""

    port: str = column("UN/LOCODE", Kind.CODE, "As on sheet Ports.", example="USSAV", required=True, refers_to="Ports")
    label: str = column("Charge", Kind.TEXT, "What the buyer reads.", example="Terminal gate fee", required=True)
    mode: str | None = column(
        "Mode",
        Kind.CHOICE,
        "roro, container (all yours), or shared container. Blank: any.",
        choices=OCEAN_MODES,
        example="roro",
        theme=Theme.NAME,
    )
    per: str = column(
        "Per",
        Kind.CHOICE,
        "What the amount is for. vehicle a day: storage after the free days.",
        choices=PORT_PER,
        example="vehicle",
        required=True,
        theme=Theme.PRICE,
    )
    amount_e4: int = column(
        "Amount",
        Kind.RATE,
        "For one of them, in the row's currency.",
        example="48",
        required=True,
        largest=LARGEST_AMOUNT,
    )
    currency: str | None = column(
        "Currency",
        Kind.CODE,
        "Three letters (ISO 4217). Blank: the currency of the rate book.",
        example="",
        theme=Theme.PRICE,
    )
    from_day: int | None = column(
        "From day",
        Kind.WHOLE,
        "Storage: the day after the free ones from which on this amount holds. Blank: the first.",
        example="",
        theme=Theme.PRICE,
    )
    valid_from: date | None = valid_from_column(example="2026-01-01")
    valid_to: date | None = valid_to_column(example="2026-12-31")
    source: str | None = column("Source", Kind.TEXT, "Where the row is from.", example="the terminal's tariff of 2026")
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
