"""The table as an Excel workbook: a sheet with filters, one that says how to read it, and the price map of a single vehicle."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.bulk.output import rows_of
from shipcalc.bulk.plan import Plan
from shipcalc.bulk.table import column_names
from shipcalc.money import decimals
from shipcalc.sheets import look
from shipcalc.sheets.long_table import LongColumn, PicturePage, write_long_book

if TYPE_CHECKING:
    import pyarrow as pa

_TITLES: Mapping[str, tuple[str, float]] = {
    "vehicle": ("Vehicle", 14),
    "to": ("To", 14),
    "place": ("Place", 26),
    "trailer": ("Trailer", 11),
    "miles": ("Road miles", 11),
    "price": ("Price", 13),
    "currency": ("Currency", 10),
    "days_from": ("Days, at least", 14),
    "days_to": ("Days, at most", 14),
    "carrier": ("Carrier", 34),
    "buyer_pays_locally": ("Buyer pays locally", 18),
    "way": ("Way", 12),
    "sea_miles": ("Sea miles", 11),
    "not_in_sum": ("Not in the sum", 16),
    "note": ("Note", 44),
    "why_not": ("Why there is no price", 44),
}
_WHOLE = ("miles", "sea_miles", "days_from", "days_to")
_MONEY = ("price", "buyer_pays_locally")
_SENTENCES = ("note", "why_not")


def write_workbook(
    out: Path,
    plan: Plan,
    tables: "Iterable[pa.Table]",
    progress: Callable[[int], None],
    *,
    dealer: str,
    pictures: Sequence[PicturePage] = (),
) -> None:
    """Write the workbook. Raises WrongInput where the place cannot be written."""
    money = look.money_format(decimals(plan.book.pricing.currency))
    write_long_book(
        out,
        title="Delivered prices",
        creator=dealer or "shipcalc",
        made=plan.as_of,
        sheet="Prices",
        columns=[_column(name, money) for name in column_names(plan)],
        rows=rows_of(tables, progress),
        notes=_notes(plan),
        pictures=pictures,
    )


def _column(name: str, money: str) -> LongColumn:
    title, width = _TITLES[name]
    number_format = money if name in _MONEY else look.WHOLE if name in _WHOLE else ""
    return LongColumn(title, width, number_format, wraps=name in _SENTENCES)


def _notes(plan: Plan) -> Mapping[str, str]:
    places = {
        "zips": "every US ZIP in use" + ("" if plan.by_sea else "; what lies beyond the home roads has no price here"),
        "states": "the largest city of every state",
        "countries": "the largest city of every country",
        "ports": "the sea ports of the rate book",
        "cities": "the places of the list",
    }
    return {
        "What": f"Vehicles: {len(plan.vehicles):,}. Places: {len(plan.destinations):,}, {places[plan.destinations.kind]}.",
        "Price": "The cheapest carrier for the kind of trailer, as a single quote says it, one vehicle at a time.",
        "Days": "From the day the vehicle is ready to the delivery window's first and last day.",
        "Day": f"Prices of {plan.as_of.isoformat()}, vehicles ready on {plan.ready.isoformat()}.",
        "Rate book": plan.book.fingerprint,
        "Not promised": "Only a quote promises a price: its lines, what it does not include and its cautions are there.",
    }
