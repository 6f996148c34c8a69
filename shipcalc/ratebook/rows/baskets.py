"""A table of transports that the manager wants priced by two rate books: what each row is, column by column."""

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
