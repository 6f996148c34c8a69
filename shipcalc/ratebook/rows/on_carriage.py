"""The sheet On-carriage of `overseas.xlsx`: the road from the port of arrival."""

from datetime import date

from shipcalc.places.place import Place
from shipcalc.ratebook.rows.sourced import office_note_column, pickup_from_column, pickup_to_column, trust_column
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class OnCarriage(Row):
    """Carriage by road from the arrival port to the buyer, by country: an estimate."""

    country: str = column("Country", Kind.COUNTRY, "Two letters (ISO 3166-1).", example="DE", required=True)
    trailer: str = column(
        "Trailer", Kind.CHOICE, "Open or enclosed.", choices=("open", "enclosed"), example="open", required=True
    )
    base_minor: int = column("Base ($)", Kind.MONEY, "A fixed sum for each vehicle.", example="180", default=0)
    rate_e4: int = column("$ per mile", Kind.RATE, "For each road mile and vehicle.", example="2.40", required=True)
    minimum_minor: int = column("Minimum ($)", Kind.MONEY, "Never less for a vehicle.", example="300", default=0)
    miles_a_day: int = column(
        "Miles a day", Kind.WHOLE, "How far it gets in a day.", example="300", default=300, theme=Theme.DAYS
    )
    spare_days: int = column(
        "Spare days", Kind.WHOLE, "Days of waiting for a full load.", example="4", default=3, theme=Theme.DAYS
    )
    winch_minor: int | None = column(
        "Winch ($)",
        Kind.MONEY,
        "At each end, for a vehicle that rolls but cannot be driven. Blank: not known, and the quote says so.",
        example="95",
    )
    skates_minor: int | None = column(
        "Skates and forklift ($)",
        Kind.MONEY,
        "At each end instead of the winch, for a vehicle that does not roll. Blank: not known, and the quote says so.",
        example="210",
    )
    port: str | None = column(
        "From port",
        Kind.CODE,
        "Only from this port (UN/LOCODE). Blank: any.",
        example="",
        refers_to="Ports",
        theme=Theme.NAME,
    )
    postal_codes: tuple[str, ...] = column(
        "Postal codes",
        Kind.LIST,
        "Only to postal codes that begin so, divided by ; — the longest beginning counts. Blank: any.",
        example="80; 81; 82",
        theme=Theme.NAME,
    )
    regions: tuple[str, ...] = column(
        "Regions",
        Kind.LIST,
        "Only to these states or provinces, as the program names them, divided by ; — blank: any.",
        example="",
        theme=Theme.NAME,
    )
    towns: tuple[str, ...] = column(
        "Towns",
        Kind.LIST,
        "Only to these towns, divided by ; — blank: any. A town counts before postal codes, these before regions.",
        example="",
        theme=Theme.NAME,
    )
    currency: str | None = column(
        "Currency",
        Kind.TEXT,
        "Of the row's sums: three letters (ISO 4217), with a rate on the sheet Currencies. Blank: the rate book's.",
        example="",
        theme=Theme.PRICE,
    )
    source: str | None = column("Source", Kind.TEXT, "Where the row is from.", example="the haulier's offer")
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    valid_from: date | None = pickup_from_column()
    valid_to: date | None = pickup_to_column()


def closeness(row: OnCarriage, to: Place, port: str) -> tuple[int, int, bool] | None:
    """Return how closely a row of the buyer's country names a place and the port it comes from; None where it is not for these.

    Of several that hold the highest counts: a town before postal codes, the longest beginning of these before a region, and then
    the port.
    """
    code = _bare(to.postal_code)
    longest = max((len(_bare(own)) for own in row.postal_codes if code and code.startswith(_bare(own))), default=0)
    asked = (
        (3, 0, row.towns, _is_one(to.name, row.towns)),
        (2, longest, row.postal_codes, longest > 0),
        (1, 0, row.regions, _is_one(to.subdivision, row.regions)),
    )
    named = [(kind, length) for kind, length, cells, holds in asked if cells and holds]
    is_for_it = len(named) == sum(bool(cells) for _, _, cells, _ in asked)
    if not is_for_it or (row.port is not None and row.port.casefold() != port.casefold()):
        return None
    return *max(named, default=(0, 0)), row.port is not None


def is_for_the_country(row: OnCarriage) -> bool:
    """Return whether a row holds for every place of its country, from every port."""
    return not (row.port or row.postal_codes or row.regions or row.towns)


def _bare(code: str) -> str:
    return code.replace(" ", "").casefold()


def _is_one(name: str, of: tuple[str, ...]) -> bool:
    return name.casefold() in (each.casefold() for each in of)
