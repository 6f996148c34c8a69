"""A rate taken from a mail → the cells of a row of the rate book. Adding a target sheet is adding an entry to `TARGETS`."""

from collections.abc import Callable, Mapping
from decimal import ROUND_HALF_UP, Decimal

from shipcalc.places.gazetteer.regions import CANADIAN_PROVINCES
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.rows.tables import SHEETS
from shipcalc.ratebook.taking.rate import LeftOut, Rate
from shipcalc.ratebook.workbook.cells import value_of
from shipcalc.ratebook.workbook.columns import columns_of
from shipcalc.ratebook.workbook.misread import Doubt, Misread
from shipcalc.ratebook.workbook.written import CellText
from shipcalc.records import dataclass

# Where a surcharge arises, if not with the main carriage.
STAGES = {"terminal handling": "origin terminal", "terminal handling at arrival": "destination terminal"}
TENTHOUSANDTH = Decimal("0.0001")


@dataclass(frozen=True, slots=True)
class Target:
    """A sheet that rates go to: how a rate fills its cells, by field; the fields that make two rows one and the same price's.

    Rows that have the fields of `together` in common are one tariff: a new one ends all of the earlier one's rows.
    """

    sheet: str
    cells: Callable[[Rate, str, str], dict[str, CellText]]
    same: tuple[str, ...]
    price: tuple[str, ...]
    together: tuple[str, ...] = ()

    @property
    def kind(self) -> SheetKind:
        """Return the sheet's description."""
        return next(kind for kind in SHEETS if kind.name == self.sheet)


@dataclass(frozen=True, slots=True)
class Prepared:
    """A rate as a row: its cells by field, and what these read as."""

    rate: Rate
    target: Target
    cells: Mapping[str, CellText]
    values: Mapping[str, object]


def prepared(rate: Rate, mail: str, currency: str) -> Prepared | LeftOut:
    """Return a rate as a row of its sheet, or why it cannot be one. `currency` is the rate book's."""
    target = TARGETS.get(rate.target)
    if target is None:
        return LeftOut(rate.where, rate.label, f"belongs to the sheet {rate.target}, which is filled by hand")
    cells = {field: cell for field, cell in target.cells(rate, mail, currency).items() if cell not in (None, "")}
    columns = columns_of(target.kind.row_type)
    missing = [column.header for field, column in columns.items() if column.required and field not in cells]
    if missing:
        return LeftOut(rate.where, "", f"has no {' and no '.join(missing)}")
    values: dict[str, object] = {}
    for field, cell in cells.items():
        try:
            read = value_of(_as_cell(cell), columns[field], currency)
        except Misread as wrong:
            return LeftOut(rate.where, str(cell), f"{columns[field].header}: {wrong.message}")
        values[field] = read.value if isinstance(read, Doubt) else read
    return Prepared(rate, target, cells, values)


def _as_cell(cell: CellText) -> str | int | float | bool | None:
    return float(cell) if isinstance(cell, Decimal) else cell  # type: ignore[return-value]


def _lane(rate: Rate, mail: str, currency: str) -> dict[str, CellText]:
    return {
        "carrier": rate.carrier,
        "trailer": rate.trailer,
        "from_end": rate.start.text if rate.start else None,
        "to_end": rate.end.text if rate.end else None,
        "flat_minor": rate.flat,
        "rate_e4": _rounded(rate.per_mile),
        "minimum_minor": rate.minimum,
        "currency": rate.currency if rate.currency != currency else None,
        "fuel_included": "yes" if rate.fuel_included else "no",
        "valid_from": rate.valid_from,
        "valid_to": rate.valid_to,
        "reference": rate.reference,
        "source": f"{mail} › {rate.where}",
        "office_note": _note(rate),
    }


def _band(rate: Rate, mail: str, currency: str) -> dict[str, CellText]:
    span = rate.span
    assert span is not None, "a price of this sheet is for a band"
    return {
        "carrier": rate.carrier,
        "trailer": rate.trailer,
        "from_mi": span.over,
        "to_mi": span.up_to,
        "rate_e4": _rounded(rate.per_mile),
        "valid_from": rate.valid_from,
        "valid_to": rate.valid_to,
    }


def _area(rate: Rate, mail: str, currency: str) -> dict[str, CellText]:
    end = rate.end
    assert end is not None, "a piece of an area is a place"
    first, _, last = end.text.partition("-") if end.kind == "ZIP" else ("", "", "")
    town, _, where = end.text.rpartition(", ") if end.kind == "city" else ("", "", "")
    state = end.text if end.kind == "state" else where
    country = (
        end.text.removeprefix("country ") if end.kind == "country" else "CA" if state in CANADIAN_PROVINCES else "US"
    )
    return {"area": rate.label, "country": country, "state": state, "city": town, "zip_from": first, "zip_to": last}


def _onward(rate: Rate, mail: str, currency: str) -> dict[str, CellText]:
    end = rate.end
    assert end is not None, "a price of this sheet goes to a country"
    to = {"postal": "postal_codes", "region": "regions", "state": "regions", "city": "towns"}.get(end.kind)
    return {
        "country": end.country,
        "trailer": rate.trailer,
        "base_minor": rate.flat or Decimal(0),
        "rate_e4": _rounded(rate.per_mile) or Decimal(0),
        "minimum_minor": rate.minimum,
        "port": rate.start.text if rate.start else None,
        **({to: end.text} if to else {}),
        "currency": rate.currency if rate.currency != currency else None,
        "source": f"{mail} › {rate.where}",
        "office_note": _note(rate),
        "valid_from": rate.valid_from,
        "valid_to": rate.valid_to,
    }


def _port_charge(rate: Rate, mail: str, currency: str) -> dict[str, CellText]:
    return {
        "port": rate.start.text if rate.start else None,
        "label": rate.label,
        "mode": rate.mode,
        "per": rate.basis,
        "amount_e4": _rounded(rate.flat),
        "currency": rate.currency if rate.currency != currency else None,
        "from_day": rate.from_day,
        "valid_from": rate.valid_from,
        "valid_to": rate.valid_to,
        "source": f"{mail} › {rate.where}",
        "office_note": "; ".join(text for text in (rate.reference, _note(rate)) if text),
    }


def _ocean(rate: Rate, mail: str, currency: str) -> dict[str, CellText]:
    return {
        "quotation": rate.reference or mail.rpartition(".")[0],
        "forwarder": rate.carrier,
        "line": rate.line,
        "mode": rate.mode,
        "from_port": rate.start.text if rate.start else None,
        "to_port": rate.end.text if rate.end else None,
        "surcharge": rate.label,
        "stage": STAGES.get(rate.label),
        "basis": rate.basis,
        "amount_e4": rate.flat,
        "percent_ppm": rate.percent / 100 if rate.percent is not None else None,
        "currency": rate.currency if rate.currency != currency and rate.percent is None else None,
        "minimum_e4": rate.minimum,
        "valid_from": rate.valid_from,
        "valid_to": rate.valid_to,
        "free_days": rate.free_days if not rate.label else None,
        "source": f"{mail} › {rate.where}",
        "office_note": _note(rate),
    }


def _note(rate: Rate) -> str:
    return "; ".join(text for text in (rate.condition, rate.remark) if text)


def _rounded(number: Decimal | None) -> Decimal | None:
    """Return a rate a mile as it is kept, to the ten-thousandth, half up."""
    return number.quantize(TENTHOUSANDTH, ROUND_HALF_UP) if number is not None else None


TARGETS: Mapping[str, Target] = {
    "Lanes": Target(
        "Lanes",
        _lane,
        ("carrier", "trailer", "from_end", "to_end"),
        ("flat_minor", "rate_e4", "minimum_minor", "currency", "fuel_included"),
    ),
    "Per mile": Target(
        "Per mile", _band, ("carrier", "trailer", "from_mi", "to_mi"), ("rate_e4",), together=("carrier", "trailer")
    ),
    "Areas": Target(
        "Areas", _area, ("area", "country", "state", "city", "zip_from", "zip_to"), ("zip_from",), together=("area",)
    ),
    "On-carriage": Target(
        "On-carriage",
        _onward,
        ("country", "trailer", "port", "postal_codes", "regions", "towns"),
        ("base_minor", "rate_e4", "minimum_minor", "currency"),
    ),
    "Port charges": Target(
        "Port charges", _port_charge, ("port", "label", "mode", "per", "from_day"), ("amount_e4", "currency")
    ),
    "Ocean quotations": Target(
        "Ocean quotations",
        _ocean,
        ("forwarder", "line", "mode", "from_port", "to_port", "basis", "surcharge"),
        ("amount_e4", "percent_ppm", "minimum_e4", "currency", "free_days"),
    ),
}
