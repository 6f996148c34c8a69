"""In what order columns stand in a new sheet, and what each is about: from their descriptions, the same for every sheet."""

from shipcalc.ratebook.checks.names import naming_field
from shipcalc.ratebook.workbook.columns import Column, Kind, Row, columns_of
from shipcalc.ratebook.workbook.themes import Theme

FIGURES = frozenset((Kind.MONEY, Kind.RATE, Kind.PERCENT, Kind.LENGTH, Kind.MASS, Kind.MILES, Kind.WHOLE, Kind.FACTOR))
_PRICES = (Kind.MONEY, Kind.RATE, Kind.PERCENT)
_LIMITS = (Kind.LENGTH, Kind.MASS)
_NAMES = (Kind.CODE, Kind.TEXT, Kind.COUNTRY)
_ENDS = (Kind.END,)
_VALID = ("valid_from", "valid_to")
_SOURCES = ("source", "trust", "note", "office_note", "reference", "checked_on", "address")


def theme_of(field: str, column: Column) -> Theme:
    """Return what a column is about: what its description says, else what follows from it."""
    if column.theme is not None:
        return column.theme
    if field in _SOURCES:
        return Theme.SOURCE
    if field in _VALID:
        return Theme.VALID
    if column.kind in _PRICES and column.condition is None:
        return Theme.PRICE
    if column.kind in _ENDS or (column.required and column.kind not in FIGURES):
        return Theme.NAME
    if column.condition is not None:
        return Theme.WHEN
    return Theme.LIMIT if column.kind in _LIMITS and not column.required else Theme.DETAIL


def columns_in_order(row_type: type[Row]) -> dict[str, Column]:
    """Return the columns as they stand in a new sheet: the name of a row first, then theme by theme as they are described."""
    columns = columns_of(row_type)
    first = naming_field(row_type)
    order = list(Theme)
    themes = {field: theme_of(field, column) for field, column in columns.items()}
    has_names = Theme.NAME in themes.values()

    def place(field: str) -> tuple[int, int]:
        column, theme = columns[field], themes[field]
        if not has_names and theme is not Theme.SOURCE:  # a price alone says nothing: as it is described
            theme = Theme.NAME
        is_name = theme is Theme.NAME and column.required and column.kind in _NAMES
        return order.index(theme), 0 if field == first else 1 if is_name else 2

    return {field: columns[field] for field in sorted(columns, key=place)}
