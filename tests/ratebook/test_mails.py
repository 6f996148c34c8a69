"""The made-up rate mails are what their scripts write, and their truths can be found in them by a plain reading."""

import csv
import io
import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from openpyxl.utils.cell import column_index_from_string, coordinate_from_string
from python_calamine import CalamineWorkbook

MAILS = Path(__file__).parent / "mails"
TRUTHS = sorted(MAILS.glob("*.truth.json"))
AMOUNTS = ("flat", "per_mile", "minimum", "amount", "percent")


def sheets_of(path):
    """Sheet name → rows of cells; a CSV is one sheet without a name."""
    if path.suffix == ".csv":
        text = decoded(path.read_bytes())
        separator = max(";\t,|", key=text.count)
        return {"": list(csv.reader(io.StringIO(text), delimiter=separator))}
    book = CalamineWorkbook.from_path(path)
    return {name: book.get_sheet_by_name(name).to_python(skip_empty_area=False) for name in book.sheet_names}


def decoded(raw):
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return raw.decode("utf-16")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("cp1252")


def digits(text):
    """Of 1250.00, "$1,250.00", 1250.0 and "1.250,00 €" alike: 125."""
    return re.sub(r"\D", "", str(text)).strip("0")


def in_row(sheets, sheet, row):
    return (sheets[sheet] if sheet else next(iter(sheets.values())))[row - 1]


def cell_at(sheets, sheet, address):
    letter, row = coordinate_from_string(address)
    return in_row(sheets, sheet, row)[column_index_from_string(letter) - 1]


def test_scripts_write_the_mails_that_are_kept(tmp_path):
    subprocess.run([sys.executable, str(MAILS / "make.py"), str(tmp_path)], check=True)

    written = sorted(path.name for path in tmp_path.iterdir())
    assert written == sorted(path.name for path in MAILS.iterdir() if path.suffix in {".json", ".csv", ".xlsx", ".xls"})
    for name in written:
        if name.endswith((".json", ".csv")):
            assert (tmp_path / name).read_bytes() == (MAILS / name).read_bytes()
        else:
            assert sheets_of(tmp_path / name) == sheets_of(MAILS / name)


@pytest.mark.parametrize("truth", TRUTHS, ids=lambda path: path.name.split(".")[0])
def test_each_figure_of_a_truth_stands_where_it_says(truth):
    told = json.loads(truth.read_text(encoding="utf-8"))
    sheets = sheets_of(MAILS / told["mail"])

    for taken in told["take"]:
        source = taken["source"]
        row = in_row(sheets, source["sheet"], source["row"])
        figures = {digits(number) for cell in row for number in re.findall(r"\d[\d.,']*", str(cell))}
        for field in AMOUNTS:
            if field in taken["values"]:
                assert digits(taken["values"][field]) in figures, (source, field)
        if "cell" in source:
            at_cell = str(cell_at(sheets, source["sheet"], source["cell"]))
            assert any(digits(taken["values"].get(field, "x")) == digits(at_cell) for field in AMOUNTS), source


@pytest.mark.parametrize("truth", TRUTHS, ids=lambda path: path.name.split(".")[0])
def test_what_is_to_be_named_or_refused_is_there_and_is_not_taken(truth):
    told = json.loads(truth.read_text(encoding="utf-8"))
    sheets = sheets_of(MAILS / told["mail"])
    taken = {(item["source"]["sheet"], item["source"]["row"]) for item in told["take"]}

    for named in told["name"]:
        row = in_row(sheets, named["sheet"], coordinate_from_string(named["cell"])[1])
        assert any(str(cell).strip() for cell in row), named
    for refused in told["refuse"]:
        assert not taken & {(refused["sheet"], row) for row in refused["rows"]}
        assert all(any(str(cell).strip() for cell in in_row(sheets, refused["sheet"], row)) for row in refused["rows"])
