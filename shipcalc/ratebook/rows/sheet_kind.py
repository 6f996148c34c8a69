"""What a sheet of the rate book is: its name, its rows, and what stands above them."""

from importlib import import_module

from shipcalc.ratebook.workbook.columns import Row
from shipcalc.records import dataclass

# Sheets that hold no rows: the front, and what is told of all sheets.
OVERVIEW, NOTES = "Overview", "Notes"


@dataclass(frozen=True, slots=True)
class SheetKind:
    """One sheet: its name, what its rows are, the field of Tables they fill, and three lines that explain it.

    `row` is the row's type, or where it is found ("ports.Port"): a quote at home asks for none of those, and need not
    import them. Where `must_have_rows`, a sheet with nothing but headers is a fault; where `may_be_missing`, a workbook without
    it is sound.
    """

    name: str
    row: type[Row] | str
    rows: str
    about: tuple[str, str, str]
    must_have_rows: bool = False
    may_be_missing: bool = False
    without: str = "it counts as empty"

    @property
    def is_overseas(self) -> bool:
        """Return whether only overseas quotes ask for the sheet's rows."""
        return isinstance(self.row, str)

    @property
    def row_type(self) -> type[Row]:
        """Return what the sheet's rows are."""
        if not isinstance(self.row, str):
            return self.row
        module, _, name = self.row.partition(".")
        found: type[Row] = getattr(import_module(f"shipcalc.ratebook.rows.{module}"), name)
        return found
