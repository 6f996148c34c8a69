"""What makes a row the same row in another edition of the workbook, wherever it stands: its names, not its position."""

from collections.abc import Iterator, Mapping

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.names import naming_field
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import Kind, Row, columns_of

# By the field of Tables; a sheet that is not here is told by its required names, choices and dates.
_IDENTITY: Mapping[str, tuple[str, ...]] = {
    "carriers": ("carrier", "trailer"),
    "bands": ("carrier", "trailer", "from_mi"),
    "extras": ("code",),
    "lanes": ("carrier", "trailer", "from_end", "to_end", "valid_from"),
    "areas": ("area", "country", "state", "city", "zip_from", "zip_to"),
    "seasons": ("season",),
    "diesel": ("region", "as_of"),
    "fuel": ("scheme", "as_of"),
    "fuel_steps": ("scheme", "from_price_e4"),
    "road_factors": ("from_place", "to_place", "over_mi", "up_to_mi"),
    "storage": ("storage", "yard"),
    "terminals": ("terminal",),
    "loaded": ("carrier", "trailer", "vehicles", "valid_from"),
    "occasions": ("carrier", "trailer", "name", "valid_from"),
    "classes": ("carrier", "trailer", "name", "valid_from"),
    "markups": ("carrier", "buyer", "country"),
    "sizes": ("body",),
    "settings": ("setting", "valid_from"),
    "documents": ("code",),
    "tasks": ("code",),
    "from_buyer": ("code",),
    "ports": ("port",),
    "ocean": ("service",),
    "quotations": (
        "quotation",
        "forwarder",
        "line",
        "mode",
        "from_port",
        "to_port",
        "surcharge",
        "basis",
        "valid_from",
    ),
    "port_charges": ("port", "label", "mode", "per", "from_day", "valid_from"),
    "loading_ways": ("code",),
    "stage_charges": ("code",),
    "on_carriage": ("country", "trailer", "port", "postal_codes", "regions", "towns"),
    "ferries": ("ferry", "from_zip", "to_zip", "carrier"),
    "ferries_abroad": ("ferry",),
    "gateways": ("country", "port"),
    "passages": ("passage",),
    "border_ports": ("crossing",),
    "marine_cover": ("conditions", "mode"),
    "countries": ("country",),
    "import_charges": ("country", "code"),
    "entry_rules": ("country", "rule"),
    "holds": ("country", "subdivision"),
}
_TELLING = frozenset(
    (Kind.CODE, Kind.TEXT, Kind.CHOICE, Kind.DATE, Kind.COUNTRY, Kind.STATE, Kind.PLACE, Kind.ZIP, Kind.END)
)


def identity_fields(kind: SheetKind) -> tuple[str, ...]:
    """Return the fields that tell the rows of a sheet apart."""
    if kind.rows in _IDENTITY:
        return _IDENTITY[kind.rows]
    columns = columns_of(kind.row_type)
    required = tuple(field for field, column in columns.items() if column.required and column.kind in _TELLING)
    first = naming_field(kind.row_type)
    return required or ((first,) if first else tuple(columns))


def identity_of(row: Row, fields: tuple[str, ...]) -> tuple[object, ...]:
    """Return what is the same for the same row: names without regard to case."""
    return tuple(value.casefold() if isinstance(value := getattr(row, field), str) else value for field in fields)


def area_pieces_stand_once(tables: Tables) -> Iterator[Problem]:
    """A piece of an area stands in one row, or its charge would be charged twice."""
    fields = _IDENTITY["areas"]
    first: dict[tuple[object, ...], Row] = {}
    for row in tables.areas:
        earlier = first.setdefault(identity_of(row, fields), row)
        if earlier is not row:
            where = short_cell(earlier, "area")
            message = f'this piece of "{row.area}" is already at {where}'
            if row.charge is not None:
                yield fault(
                    row, "area", f"{message}, so that its charge is counted twice", "remove one of the two rows"
                )
            else:
                yield warning(row, "area", message, "remove one of the two rows")


def areas_are_parts(tables: Tables) -> Iterator[Problem]:
    """An area told by states or ZIPs has no row for the whole country, or every place would lie in it."""
    parts = {(row.area.casefold(), row.country) for row in tables.areas if row.state or row.city or row.zip_from}
    for row in tables.areas:
        if not (row.state or row.city or row.zip_from) and (row.area.casefold(), row.country) in parts:
            message = f'this row takes all of {row.country} into "{row.area}", whose other rows name parts of it'
            yield warning(row, "state", message, "write the state or the ZIPs, or remove the row")


CHECKS = (area_pieces_stand_once, areas_are_parts)
