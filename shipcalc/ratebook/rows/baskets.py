"""Tables of transports: what the manager wants priced by two rate books, and who asks for what, and has bought, in the demo."""

from datetime import date

from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.records import dataclass
from shipcalc.trade import TRAILERS


@dataclass(frozen=True, slots=True, kw_only=True)
class BasketRow(Row):
    """One transport to be priced."""

    vehicle: str = column("Vehicle", Kind.TEXT, "A stock number or a description.", example="HV-1042", required=True)
    to: str = column("To", Kind.TEXT, "A ZIP, a city or a point.", example="59715", required=True)
    start: str | None = column("From", Kind.TEXT, "Blank: the yard of the vehicle.", synonyms=("Start",))
    ready: date | None = column("Ready", Kind.DATE, "Blank: the day of the comparison.", example="2026-12-15")
    trailer: str | None = column("Trailer", Kind.CHOICE, "Blank: any.", choices=TRAILERS)
    lift_gate: bool = column("Lift gate", Kind.YES_NO, "Blank: no.", default=False)
    limited_access: bool = column("Limited access", Kind.YES_NO, "Blank: no.", default=False)
    express: bool = column("Express", Kind.YES_NO, "Blank: no.", default=False)
    term: str | None = column("Term", Kind.TEXT, "A delivery term. Blank: the usual one.")


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyerRow(Row):
    """One buyer's question, as a salesperson takes it down."""

    name: str = column("Buyer", Kind.TEXT, "The buyer's name.", example="Ottilie Marsh", required=True)
    vehicles: tuple[str, ...] = column("Vehicles", Kind.LIST, "Divided by ;", example="HV-1042", required=True)
    to: str = column("To", Kind.TEXT, "A ZIP, a city or a point.", example="59715", required=True)
    ready_in_days: int | None = column("Ready in days", Kind.WHOLE, "Blank: at once.", example="7")
    trailer: str | None = column("Trailer", Kind.CHOICE, "Blank: any.", choices=TRAILERS)
    lift_gate: bool = column("Lift gate", Kind.YES_NO, "Blank: no.", default=False)
    limited_access: bool = column("Limited access", Kind.YES_NO, "Blank: no.", default=False)
    express: bool = column("Express", Kind.YES_NO, "Blank: no.", default=False)
    ocean: str | None = column("Ocean", Kind.TEXT, "roro or container. Blank: either.")
    term: str | None = column("Term", Kind.TEXT, "A delivery term. Blank: the usual one.")
    currency: str | None = column("Currency", Kind.TEXT, "The buyer's currency.")
    collect: bool = column("Collect", Kind.YES_NO, "Blank: no.", default=False)
    terminal: bool = column("Terminal", Kind.YES_NO, "Blank: no.", default=False)
    keep_days: int | None = column("Keep days", Kind.WHOLE, "Kept in the yard for so long first.", example="120")
    where: str | None = column("Where", Kind.TEXT, "At home or overseas, for whoever reads the table.")
    note: str | None = column("Note", Kind.TEXT, "What the buyer said.")


@dataclass(frozen=True, slots=True, kw_only=True)
class SaleRow(Row):
    """What became of one of the demo's quotes of the last weeks. Days are counted back from the demo's day."""

    name: str = column("Buyer", Kind.TEXT, "The buyer's name.", example="Edwina Castellane", required=True)
    vehicles: tuple[str, ...] = column("Vehicles", Kind.LIST, "Divided by ;", example="HV-1166", required=True)
    to: str = column("To", Kind.TEXT, "A ZIP, a city or a point.", example="Madison, WI", required=True)
    ocean: str | None = column("Ocean", Kind.TEXT, "roro or container. Blank: either.")
    trailer: str | None = column("Trailer", Kind.CHOICE, "Blank: any.", choices=TRAILERS)
    quoted: int = column("Quoted", Kind.WHOLE, "So many days ago.", example="24", required=True)
    accepted: int | None = column("Accepted", Kind.WHOLE, "So many days ago. Blank: still open.", example="22")
    pickup: int | None = column("Picked up", Kind.WHOLE, "So many days ago.", example="15")
    port: int | None = column("Gate", Kind.WHOLE, "In the terminal so many days ago.")
    sailing: int | None = column("Sailed", Kind.WHOLE, "So many days ago.")
    arrival: int | None = column("Arrived", Kind.WHOLE, "In port, or at the border, so many days ago.")
    release: int | None = column("Released", Kind.WHOLE, "By customs and line so many days ago.")
    delivery: int | None = column("Delivered", Kind.WHOLE, "So many days ago.")
    left_open: tuple[str, ...] = column(
        "Left open", Kind.LIST, "Tasks that are due and not done, by their codes.", example="receipt-back"
    )
    office: str | None = column("Office", Kind.TEXT, "Who in the office has it.", example="Nadia")
    yard: str | None = column("Yard", Kind.TEXT, "Who in the yard has it.", example="Ida")
    references: tuple[str, ...] = column(
        "References", Kind.LIST, "As shipments set takes them, divided by ;", example="booking=TH-4471"
    )
    note: str | None = column("Note", Kind.TEXT, "How it stands, for whoever reads the table.")
