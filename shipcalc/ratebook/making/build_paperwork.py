"""Writes the `paperwork.xlsx` that comes with the program: python -m shipcalc.ratebook.making.build_paperwork FOLDER.

Its rows stand in `data/*.toml` and, for the European Union, in `import_facts.py`: change them there and write the workbook anew.
"""

import sys
from datetime import date
from pathlib import Path

from shipcalc.ratebook import embargoed
from shipcalc.ratebook.making import import_facts
from shipcalc.ratebook.making.addresses import addressed
from shipcalc.ratebook.making.build_trucking import CHECKED_ON
from shipcalc.ratebook.rows.imports import Country, EntryRule, Hold, ImportCharge
from shipcalc.ratebook.rows.paperwork import DocumentRow, FromBuyerRow, TaskRow
from shipcalc.ratebook.rows.paperwork_sheets import PAPERWORK
from shipcalc.ratebook.starter.workbooks import write_workbook
from shipcalc.ratebook.workbook.columns import Row
from shipcalc.ratebook.workbook.typed import lines, row, rows_in

_ABOUT = """\
Which papers a shipment needs and what has to be done for it, by whom and by when. From here the checklist is made. Change it
freely: it is the dealer's own list.

This is not legal advice. Source is the law, the standard or who says so; a buyer may read it. Trust says, for the office alone,
whether somebody read it, and Checked on is filled only where somebody did, with the day of that copy. Titles and
taxes are state law and differ: ask the authority of the place, or a lawyer.

Agreed, ready, pickup, delivery and after delivery are the moments; by sea there are also port (into the export terminal),
cut-off (vehicle and papers due there), sailing, arrival and release (cleared). Most are windows: days before count back from
the first day; 0 and days after count from the last. A cut-off counts from the first alone, since that ship does not wait.
Over a land border arrival is the border. Days before and after fall back to a working day of the office (Monday to Friday,
without federal holidays), and nothing is due before the agreement.

A task and a document with the same code are one line of the checklist. A document without a task gets a line of its own. A task
is never due after one that waits for it.

Duty and tax on the buyer's side are estimates from public sources; the customs of the country
decide, and a licensed customs broker says so beforehand. Where something is not known, no row stands here and the quote says so.

The $100,000 from which the insurer's letter is asked for and the fee of a duplicate title are our own invented figures.
"""
ABOUT = tuple(" ".join(paragraph.split()) for paragraph in _ABOUT.strip().split("\n\n"))


def written_rows() -> dict[str, tuple[Row, ...]]:
    """Return the rows of every sheet of the workbook, by the sheet's name."""
    states = tuple(lines(import_facts.STATE_FIELDS, import_facts.STATES))
    written: dict[str, tuple[Row, ...]] = {
        "Documents": rows_in("documents", DocumentRow),
        "Tasks": rows_in("tasks", TaskRow),
        "From the buyer": rows_in("from_buyer", FromBuyerRow),
        "Countries": (
            *rows_in("countries", Country),
            *(row(Country, import_facts.countries(cells)) for cells in states),
        ),
        "Import charges": (
            *rows_in("import_charges", ImportCharge),
            *(row(ImportCharge, charge) for cells in states for charge in import_facts.import_charges(cells)),
            *(row(ImportCharge, import_facts.preference(cells)) for cells in states),
        ),
        "Entry rules": (
            *rows_in("entry_rules", EntryRule),
            *(row(EntryRule, rule) for cells in states for rule in import_facts.entry_rules(cells)),
        ),
        "Holds": (*(row(Hold, cells) for cells in embargoed.hold_cells()), *rows_in("holds", Hold)),
    }
    return {sheet: addressed(rows) for sheet, rows in written.items()}


def main(folder: Path) -> None:
    """Write `paperwork.xlsx` into a folder."""
    write_workbook(folder / PAPERWORK, written_rows(), about=ABOUT, made=date.fromisoformat(CHECKED_ON))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
