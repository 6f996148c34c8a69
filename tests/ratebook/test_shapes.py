"""What is wrong with a workbook beside its values, and what only neighbours or a day give away: one tiny workbook each."""

import tomllib
from pathlib import Path

import pytest

from shipcalc.errors import FaultyWorkbook
from shipcalc.ratebook.book import check_rate_book, read_rate_book

SHAPES = tomllib.loads((Path(__file__).parent / "cases" / "shapes.toml").read_text(encoding="utf-8"))["shape"]
WARNING = "warning: "


def told(problem):
    return f"{WARNING if problem.severity == 'warning' else ''}{problem}"


@pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: shape["is"])
def test_what_is_wrong_with_a_workbook_is_told_by_cell(shape, shaped):
    folder = shaped(shape)

    assert [told(problem) for problem in check_rate_book(folder, as_of=shape.get("as_of"))] == shape["says"]
    if any(not line.startswith(WARNING) for line in shape["says"]):
        with pytest.raises(FaultyWorkbook):
            read_rate_book(folder)
    else:
        assert read_rate_book(folder).carriers


def test_no_two_cases_are_the_same():
    assert len({shape["is"] for shape in SHAPES}) == len(SHAPES) >= 25
