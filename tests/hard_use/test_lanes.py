"""A table of prices after a stop, and as a spreadsheet opens it. Found on 28 November 2026: another block's part was taken."""

import csv
from pathlib import Path

import pyarrow as pa
import pytest

from shipcalc.bulk import plan, running
from shipcalc.sheets.plain_csv import as_text
from tests.hard_use.conftest import assert_told

LANES = (
    "lanes",
    "--vehicle",
    "HV-1042",
    "--vehicle",
    "HV-1153",
    "--to",
    "states",
    "--as-of",
    "2026-12-01",
    "--out",
    "prices.csv",
)


@pytest.fixture
def stopped(say, here: Path, monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """The parts that a stop has left: one for each of two vehicles; beside them what was written by then."""
    monkeypatch.setattr(plan, "MOST_ROWS", 120)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device", "prices.csv")

    with monkeypatch.context() as meanwhile:
        meanwhile.setattr("shipcalc.bulk.output.write_csv", lambda _out, tables, _done: full(list(tables)))
        assert_told(say(*LANES), "no space left on device")
    (here / ".prices.csv.x7abc_12").write_bytes(b"half a file")
    return sorted(here.glob(".prices.csv.*.parts/*.arrow"))


def spoil(how: str, parts: list[Path]) -> None:
    first, second = parts[:2]
    whole = first.read_bytes()
    if how == "another block's":
        second.write_bytes(whole)
    elif how == "of another order":
        with pa.memory_map(str(first)) as file:
            table = pa.ipc.open_file(file).read_all().replace_schema_metadata({b"shipcalc": b"another 0"})
        with pa.OSFile(str(first), "wb") as sink, pa.ipc.new_file(sink, table.schema) as writer:
            writer.write_table(table)
    else:
        first.write_bytes({"truncated": whole[: len(whole) // 2], "empty": b"", "no table": b"half written"}[how])


@pytest.mark.parametrize("how", ["truncated", "empty", "no table", "another block's", "of another order"])
@pytest.mark.fault("a table of prices stopped, and its parts spoilt", tried="a part cut off, emptied, of another block, of another order", outcome="priced again: the file is the same as without a stop")  # fmt: skip
def test_a_part_that_is_not_whole_or_not_this_blocks_is_priced_again(
    say, here: Path, stopped: list[Path], how: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    spoil(how, stopped)
    priced = []
    of_block = running.rows_of_block
    monkeypatch.setattr(
        running, "rows_of_block", lambda plan, block: (priced.append(block.number), of_block(plan, block))[1]
    )
    assert say(*LANES).status == 0
    assert len(priced) == 1, "the other part was kept"
    after_a_stop = (here / "prices.csv").read_bytes()
    assert [path.name for path in here.iterdir()] == ["prices.csv"], "neither parts nor halves are left"
    assert say(*LANES).status == 0
    assert (here / "prices.csv").read_bytes() == after_a_stop


def test_no_cell_of_a_table_begins_like_a_formula(say, here: Path) -> None:
    """What a spreadsheet takes for a formula: https://owasp.org/www-community/attacks/CSV_Injection."""
    (here / "stock.csv").write_text(
        'Stock number,Year,Make,Body,Runs,Value ($),Yard\n"=1+1|cmd",1961,Larkspur,roadster,yes,9000,"Bellingham, WA"\n'
    )
    (here / "places.csv").write_text('Place\n"Madison, WI"\n"33.9, -118.2"\n')
    said = say(
        "lanes", "--stock", "stock.csv", "--to", "cities", "places.csv", "--out", "prices.csv", "--as-of", "2026-12-01"
    )
    assert said.status == 0, said.err
    rows = list(csv.reader((here / "prices.csv").read_text().splitlines()))
    assert len(rows) == 5
    begin = {cell[:1] for row in rows for cell in row}
    assert begin.isdisjoint("=+@\t\r"), begin
    assert all(cell.lstrip("-").replace(".", "").isdigit() for row in rows for cell in row if cell.startswith("-"))


@pytest.mark.parametrize(
    ("cell", "told"),
    [
        ("=1+1", "'=1+1"), ("+49 30", "+49 30"), ("+cmd", "'+cmd"), ("-2+3|cmd", "'-2+3|cmd"), ("@SUM(1)", "'@SUM(1)"),
        ("\t=1", "'\t=1"), ("\r=1", "'\r=1"), ("-33.92, 18.42", "-33.92, 18.42"), ("Madison", "Madison"), ("", ""), (None, None),
    ],
)  # fmt: skip
def test_an_apostrophe_makes_text_of_what_would_be_computed(cell: str | None, told: str | None) -> None:
    assert as_text(cell) == told
