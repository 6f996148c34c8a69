"""One column sorted without the others: common practice tells of the slip, no source. Each case sorts a column of the shipped book."""

from functools import cache
from pathlib import Path

import pytest

from shipcalc.actions.rates import Checked
from shipcalc.cli.checked import checked_lines
from shipcalc.cli.look import Look
from shipcalc.errors import Problem
from shipcalc.ratebook.checks.sorted_column import LOOKS_SORTED
from shipcalc.ratebook.drafting import draft_from
from shipcalc.ratebook.rows.tables import WORKBOOKS
from shipcalc.records import replace
from shipcalc.sheets.reading import Sheet, WorkbookFile, read_workbook

RATES = Path(__file__).parents[2] / "rates"


@cache
def shipped() -> dict[str, WorkbookFile]:
    return {name: read_workbook(RATES / name) for name in WORKBOOKS}


def with_column(workbook: str, sheet: str, header: str, changed) -> tuple[Problem, ...]:
    """Return what is said of the shipped book after one column of a sheet was changed, its cells as they come."""

    def of(own: Sheet) -> Sheet:
        if own.name != sheet:
            return own
        at = next(n for n, cell in enumerate(own.rows[0]) if str(cell or "").removesuffix("\xa0*") == header)
        filled = [row for row in own.rows[1:] if row and row[0] is not None]
        cells = changed([row[at] for row in filled])
        rows = [(*row[:at], cell, *row[at + 1 :]) for row, cell in zip(filled, cells, strict=True)]
        return replace(own, rows=(own.rows[0], *rows))

    file = shipped()[workbook]
    return draft_from(shipped() | {workbook: replace(file, sheets=tuple(map(of, file.sheets)))}, RATES).problems


def in_order(cells: list) -> list:
    return sorted(cells, key=lambda cell: (cell is None, cell.casefold() if isinstance(cell, str) else cell))


def looking_sorted(problems: tuple[Problem, ...]) -> list[str]:
    return [problem.cell for problem in problems if LOOKS_SORTED in problem.message]


@pytest.mark.parametrize(
    ("workbook", "sheet", "header", "told_at"),
    [
        ("trucking.xlsx", "Carriers", "Carrier", "A"),
        ("trucking.xlsx", "Per mile", "Carrier", "A"),
        ("trucking.xlsx", "Per mile", "Trailer", "B"),
        ("trucking.xlsx", "Per mile", "Over (mi)", "C"),
        ("trucking.xlsx", "Areas", "State", "C"),
        ("overseas.xlsx", "Ports", "Country", "D"),
        ("overseas.xlsx", "Ocean", "Mode", "E"),
        ("paperwork.xlsx", "Tasks", "Code", "A"),
        ("paperwork.xlsx", "Import charges", "Code", "A"),
    ],
)
def test_a_column_sorted_by_itself_is_named_as_the_cause(workbook: str, sheet: str, header: str, told_at: str) -> None:
    problems = with_column(workbook, sheet, header, in_order)
    assert f"{workbook} › {sheet}!{told_at}1" in looking_sorted(problems)
    assert f"{workbook} › {sheet}!{told_at}1" in looking_sorted(
        with_column(
            workbook, sheet, header, lambda cells: in_order(cells)[::-1] if None not in cells else in_order(cells)
        )
    )


def test_a_carrier_that_was_renamed_in_one_sheet_is_no_sorted_column() -> None:
    def renamed(cells: list) -> list:
        return ["Tern and Barrow" if cell in {"Moonlit Plover Lines", "Fogbell Osprey"} else cell for cell in cells]

    problems = with_column("trucking.xlsx", "Carriers", "Carrier", renamed)
    assert len([problem for problem in problems if problem.severity == "fault"]) >= 8
    assert looking_sorted(problems) == []


@pytest.mark.parametrize("sheet", ["Carriers", "Per mile", "Areas", "Ferries"])
def test_whole_rows_sorted_by_their_first_column_are_no_fault(sheet: str) -> None:
    def of(own: Sheet) -> Sheet:
        filled = [row for row in own.rows[1:] if row and row[0] is not None]
        rows = sorted(filled, key=lambda row: str(row[0]).casefold())
        assert own.name != sheet or rows != filled or sheet == "Ferries"
        return replace(own, rows=(own.rows[0], *rows)) if own.name == sheet else own

    file = shipped()["trucking.xlsx"]
    changed = shipped() | {"trucking.xlsx": replace(file, sheets=tuple(map(of, file.sheets)))}
    problems = draft_from(changed, RATES).problems
    assert looking_sorted(problems) == []
    assert [problem for problem in problems if problem.severity == "fault"] == []


def test_the_check_tells_the_cause_first_and_counts_the_rest() -> None:
    problems = with_column("trucking.xlsx", "Per mile", "Carrier", in_order)
    lines = checked_lines(Checked(Path("rates"), problems, ""), Look(), full=False)
    first = lines.index("To correct first")
    assert "Per mile!A1" in lines[first + 1]
    faults = len([problem for problem in problems if problem.severity == "fault"])
    assert f"! {faults - 3} more faults, which may all come of it; --full lists each" in lines
    every = checked_lines(Checked(Path("rates"), problems, ""), Look(), full=True)
    assert len([line for line in every if line.startswith("! ")]) >= faults
