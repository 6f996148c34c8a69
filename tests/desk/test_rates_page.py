"""The rates page: a workbook that is sent is looked at beside the book in force, and nothing changes."""

import io
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import openpyxl
import pytest
from fastapi.testclient import TestClient

from shipcalc.actions.sources import find_sources
from shipcalc.desk.app import make_desk

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def desk() -> Iterator[TestClient]:
    made = make_desk(
        lambda day: find_sources(folder=ROOT, as_of=day),
        today=lambda: date(2026, 12, 1),
        now=lambda: "2026-12-01T16:20:05Z",
    )
    with TestClient(made, base_url="http://127.0.0.1:8720", raise_server_exceptions=False) as client:
        yield client


def test_the_book_in_force_is_there_to_take_along(desk: TestClient) -> None:
    assert "/rates/book/trucking.xlsx" in desk.get("/rates").text
    assert desk.get("/rates/book/trucking.xlsx").content == (ROOT / "rates" / "trucking.xlsx").read_bytes()
    assert desk.get("/rates/book/..%2Fpyproject.toml").status_code in (404, 422)
    assert desk.get("/rates/book/passwd").status_code == 422


def test_a_fault_in_a_workbook_that_is_sent_is_told_by_its_cell(desk: TestClient) -> None:
    book = openpyxl.load_workbook(ROOT / "rates" / "trucking.xlsx")
    sheet = book["Carriers"]
    row = next(number for number in range(1, 60) if sheet.cell(number, 1).value == "Three Puffins Haulage")
    sheet.cell(row, 1).value = None
    out = io.BytesIO()
    book.save(out)
    told = desk.post("/rates/check", files={"books": ("trucking.xlsx", out.getvalue())})
    assert told.status_code == 200
    assert f"Carriers!A{row}" in told.text
    assert "stop" in told.text


def test_a_workbook_of_another_name_or_kind_is_one_sentence(desk: TestClient) -> None:
    other = desk.post("/rates/check", files={"books": ("mine.xlsx", (ROOT / "rates" / "trucking.xlsx").read_bytes())})
    assert other.status_code == 422
    assert "mine.xlsx" in other.json()["detail"]
    broken = desk.post("/rates/check", files={"books": ("trucking.xlsx", b"not a workbook")})
    assert broken.status_code == 422
    assert "inside" in broken.json()["detail"]
