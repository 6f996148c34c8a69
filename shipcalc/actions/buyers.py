"""The demo's buyers: who asks for which vehicle, and where it shall go."""

from datetime import date, timedelta
from pathlib import Path

from shipcalc.actions.quoting import Order
from shipcalc.errors import WrongInput
from shipcalc.records import dataclass
from shipcalc.sheets.reading import Sheet, is_blank, read_workbook

HEADERS = (
    "Buyer",
    "Vehicles",
    "To",
    "Ready in days",
    "Trailer",
    "Lift gate",
    "Limited access",
    "Express",
    "Ocean",
    "Term",
    "Currency",
    "Collect",
    "Terminal",
    "Keep days",
    "Where",
    "Note",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Buyer:
    """One buyer's question."""

    name: str
    vehicles: tuple[str, ...]
    to: str
    ready_in_days: int = 0
    trailer: str = ""
    lift_gate: bool = False
    limited_access: bool = False
    express: bool = False
    ocean: str = ""
    term: str = ""
    currency: str = ""
    collect: bool = False
    terminal: bool = False
    keep_days: int = 0
    note: str = ""

    def order(self, as_of: date) -> Order:
        """Return what a salesperson would type for this buyer on that day."""
        ready = as_of + timedelta(days=self.ready_in_days)
        return Order(
            vehicles=self.vehicles,
            to=self.to,
            ready=ready,
            trailer=self.trailer,
            lift_gate=self.lift_gate,
            limited_access=self.limited_access,
            express=self.express,
            ocean=self.ocean,
            term=self.term,
            currency=self.currency,
            collect=self.collect,
            terminal=self.terminal,
            keep_until=ready + timedelta(days=self.keep_days) if self.keep_days else None,
            buyer=self.name,
        )


def read_buyers(path: Path) -> tuple[Buyer, ...]:
    """Read the list of buyers. Raises WrongInput where a column is missing or a row lacks a name, a vehicle or a place."""
    sheet = read_workbook(path).sheets[0]
    rows = list(sheet.filled_rows())
    if not rows:
        raise WrongInput("has no rows", where=sheet.workbook, remedy="begin with the headers " + ", ".join(HEADERS))
    seen = [str(cell or "").strip().casefold() for cell in rows[0][1]]
    missing = [header for header in HEADERS[:3] if header.casefold() not in seen]
    if missing:
        what = f"has no column {missing[0]}"
        raise WrongInput(what, where=sheet.workbook, remedy="the columns are " + ", ".join(HEADERS))
    return tuple(_buyer(sheet, number, dict(zip(seen, cells, strict=False))) for number, cells in rows[1:])


def _buyer(sheet: Sheet, number: int, cells: "dict[str, object]") -> Buyer:
    def text(header: str) -> str:
        value = cells.get(header.casefold())
        return "" if value is None else str(value).strip()

    for column, header in enumerate(HEADERS[:3]):
        if is_blank(text(header)):
            raise WrongInput(f"has no {header.lower()}", where=sheet.cell(number, column), remedy="fill it in")

    def days(header: str) -> int:
        told = text(header) or "0"
        if not told.isdecimal():
            raise WrongInput(
                f'"{told}" is not a number of days', where=f"{sheet.workbook}, row {number + 1}", remedy="e.g. 3"
            )
        return int(told)

    return Buyer(
        name=text("Buyer"),
        vehicles=tuple(part.strip() for part in text("Vehicles").split(";") if part.strip()),
        to=text("To"),
        ready_in_days=days("Ready in days"),
        trailer=text("Trailer"),
        lift_gate=_is_yes(text("Lift gate")),
        limited_access=_is_yes(text("Limited access")),
        express=_is_yes(text("Express")),
        ocean=text("Ocean"),
        term=text("Term"),
        currency=text("Currency"),
        collect=_is_yes(text("Collect")),
        terminal=_is_yes(text("Terminal")),
        keep_days=days("Keep days"),
        note=text("Note"),
    )


def _is_yes(text: str) -> bool:
    return text.casefold() in ("yes", "y", "x", "true", "1")
