"""What was taken from a mail of rates as tables of text, for every face: each price beside the rate book's, grouped by sheet."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.ratebook.taking.placing import Placed
    from shipcalc.ratebook.taking.rate import LeftOut, Rate

FUEL_SHORT = {True: "in", False: "extra", None: "?"}
MOST_CELLS = 4
IN_THE_BOOK = "In the book"
_BANDS = ("Cell", "Carrier", "Trailer", "Over (mi)", "Up to (mi)", "Price", IN_THE_BOOK)
_ONWARD = ("Cell", "Trailer", "From port", "Country", "To", "Price", IN_THE_BOOK)
_CHARGES = ("Cell", "Port", "Charge", "For a", "From day", "Price", IN_THE_BOOK)
_AREAS = ("Cell", "Area", "Piece", IN_THE_BOOK)
_OCEAN = ("Cell", "Mode", "From", "To", "For", "Price", IN_THE_BOOK)
# Columns whose texts are figures.
FIGURES = ("Over (mi)", "Up to (mi)", "From day", "Price")


@dataclass(frozen=True, slots=True)
class Table:
    """The rows for one sheet, under its name."""

    title: str
    headers: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def taken_tables(placed: "Sequence[Placed]") -> tuple[Table, ...]:
    """Return the rows of a mail as tables, in the order in which they are read; a sheet without rows has none."""
    makers = (
        ("Lanes", _lanes),
        ("Per mile", lambda rows: Table("Per mile", _BANDS, tuple(_band_row(one) for one in rows))),
        ("On-carriage", lambda rows: Table("On-carriage", _ONWARD, tuple(_onward_row(one) for one in rows))),
        ("Port charges", lambda rows: Table("Port charges", _CHARGES, tuple(_charge_row(one) for one in rows))),
        ("Areas", lambda rows: Table("Areas", _AREAS, tuple(_area_row(one) for one in rows))),
        ("Ocean quotations", lambda rows: Table("Ocean quotations", _OCEAN, tuple(_ocean_row(one) for one in rows))),
    )
    found = ((make, [one for one in placed if one.prepared.target.sheet == sheet]) for sheet, make in makers)
    return tuple(make(rows) for make, rows in found if rows)


def grouped(items: "Iterable[LeftOut]") -> list[str]:
    """Return what was left out, the same reason told once for all its cells."""
    by_why: dict[str, list[LeftOut]] = {}
    for item in items:
        by_why.setdefault(item.why, []).append(item)
    return [_together(why, same) for why, same in by_why.items()]


def _together(why: str, same: "Sequence[LeftOut]") -> str:
    cells = ", ".join(
        f"{item.where} ({item.what})" if item.what and item.where else item.where or item.what
        for item in same[:MOST_CELLS]
    )
    more = f" and {len(same) - MOST_CELLS} more" if len(same) > MOST_CELLS else ""
    return f"{cells}{more}: {why}"


def _lanes(lanes: "Sequence[Placed]") -> Table:
    """Fuel and days have columns where they are not the same for all."""
    rates = [one.prepared.rate for one in lanes]
    with_fuel = len({rate.fuel_included for rate in rates}) > 1
    with_days = len({days(rate) for rate in rates}) > 1
    more = (*(("Fuel",) if with_fuel else ()), *(("Valid",) if with_days else ()))
    rows = []
    for one, rate in zip(lanes, rates, strict=True):
        said = [*([FUEL_SHORT[rate.fuel_included]] if with_fuel else []), *([days(rate)] if with_days else [])]
        ends = (_end(rate.start), _end(rate.end))
        rows.append((rate.where, rate.trailer or "every", *ends, _price(rate), *said, _beside(one)))
    return Table("Lanes", ("Cell", "Trailer", "From", "To", "Price", *more, IN_THE_BOOK), tuple(rows))


def days(rate: "Rate") -> str:
    """Return from when to when a price holds."""
    first = f"from {rate.valid_from}" if rate.valid_from else ""
    last = f"to {rate.valid_to}" if rate.valid_to else ""
    return " ".join(part for part in (first, last) if part) or "no days are said"


def _band_row(one: "Placed") -> tuple[str, ...]:
    rate = one.prepared.rate
    assert rate.span is not None, "a price of this sheet is for a band"
    up_to = "no end" if rate.span.up_to is None else f"{rate.span.up_to:,}"
    return (rate.where, rate.carrier, rate.trailer, f"{rate.span.over:,}", up_to, _price(rate), _beside(one))


def _onward_row(one: "Placed") -> tuple[str, ...]:
    rate = one.prepared.rate
    assert rate.end is not None, "a price of this sheet goes to a country"
    to = rate.end.text or "the whole country"
    return (rate.where, rate.trailer, _port(rate.start), rate.end.country, to, _price(rate), _beside(one))


def _charge_row(one: "Placed") -> tuple[str, ...]:
    rate = one.prepared.rate
    day = "" if rate.from_day is None else str(rate.from_day)
    return (rate.where, _port(rate.start), rate.label, rate.basis, day, _price(rate), _beside(one))


def _area_row(one: "Placed") -> tuple[str, ...]:
    rate = one.prepared.rate
    return (rate.where, rate.label, _end(rate.end), one.status)


def _ocean_row(one: "Placed") -> tuple[str, ...]:
    rate = one.prepared.rate
    return (
        rate.where,
        rate.mode,
        _port(rate.start),
        _port(rate.end),
        ", ".join(text for text in (rate.label, rate.basis.removeprefix("per ")) if text),
        _price(rate),
        _beside(one),
    )


def _end(end: object) -> str:
    return getattr(end, "text", "") if end is not None else "anywhere"


def _port(end: object) -> str:
    return _end(end) if end is not None else "any"


def _price(rate: "Rate") -> str:
    if rate.percent is not None:
        return f"{rate.percent.normalize():f} %"
    if rate.per_mile is not None:
        least = f", min {rate.minimum:,}" if rate.minimum is not None else ""
        return f"{rate.per_mile:.4f}".rstrip("0").rstrip(".") + f" {rate.currency} a mile{least}"
    return f"{rate.flat:,.2f} {rate.currency}"


def _beside(one: "Placed") -> str:
    if one.status == "changed":
        return f"{one.before} → {_price(one.prepared.rate)}"
    return one.status if not one.before or one.status == "same" else f"new (was {one.before})"
