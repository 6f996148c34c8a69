"""Cells that hold a formula and no value are found, whatever the sheet is called; all others are left alone."""

import io

import openpyxl
import pytest

from shipcalc.sheets.lost_cells import lost_cells
from shipcalc.sheets.package import Damaged, unpacked
from shipcalc.sheets.parts import parts_of


def workbook(title, **cells):
    book = openpyxl.Workbook()
    book.worksheets[0].title = title
    for cell, value in cells.items():
        book.worksheets[0][cell] = value
    saved = io.BytesIO()
    book.save(saved)
    return saved.getvalue()


def test_an_error_and_a_formula_without_its_result_are_lost():
    content = workbook('Bolts & "Nuts" <3>', A1="Price", B2="#REF!", AA10="=1+1", C3=5, D4="plain", E5=True)

    assert lost_cells(parts_of(unpacked(content)).sheets) == {'Bolts & "Nuts" <3>': {(1, 1): "#REF!", (9, 26): ""}}


def test_a_workbook_without_formulas_has_none():
    assert lost_cells(parts_of(unpacked(workbook("Prices", A1="Price", A2=1.9))).sheets) == {}


@pytest.mark.parametrize("content", [b"", b"no workbook", b"PK\x03\x04 half written"])
def test_a_file_that_is_no_workbook_has_none(content):
    with pytest.raises(Damaged):
        unpacked(content)
    assert lost_cells(parts_of({}).sheets) == {}
