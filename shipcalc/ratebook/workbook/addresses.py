"""A cell's address as the program writes it, taken apart again: `trucking.xlsx › Per mile!D14`."""

import re

from shipcalc.records import dataclass

_ADDRESS = re.compile(r"(?P<workbook>.*?) › (?P<sheet>[^!]*)(?:!(?P<letters>[A-Z]+)(?P<row>[0-9]+))?")


@dataclass(frozen=True, slots=True)
class Address:
    """Workbook and sheet; `letters` and `row` (counted from 1) are empty and 0 where the whole sheet is meant."""

    workbook: str
    sheet: str
    letters: str = ""
    row: int = 0

    @property
    def cell(self) -> str:
        """Return the cell as it is called on its sheet, `D14`; empty for the whole sheet."""
        return f"{self.letters}{self.row}" if self.row else ""


def address_in(text: str) -> Address | None:
    """Return the address that a text is, or None where it is none (the path of a folder or of a file)."""
    found = _ADDRESS.fullmatch(text)
    if found is None:
        return None
    return Address(found["workbook"], found["sheet"], found["letters"] or "", int(found["row"] or 0))
