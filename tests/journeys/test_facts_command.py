"""`rates facts`: which facts to look up again, and how they are marked as checked."""

import json
import shutil
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from shipcalc.actions import facts as acting
from shipcalc.ratebook.facts import REASONS, Fact, reasons_to_look
from shipcalc.records import replace

SHIPPED = Path(__file__).parents[2] / "rates"


@pytest.fixture
def few(monkeypatch):
    """Ask about three countries: the demo's quotes and forty more take long."""
    monkeypatch.setattr(acting, "read_buyers", lambda path: ())
    some = {code: acting.BUYING_MOST[code] for code in ("MX", "JP")}
    monkeypatch.setattr(acting, "BUYING_MOST", some)


@pytest.fixture
def own(here: Path) -> Path:
    return Path(shutil.copytree(SHIPPED, here / "rates"))


def written(book: Path, cells: dict[str, object]) -> None:
    """Write cells of `paperwork.xlsx`, named as the program names them."""
    file = book / "paperwork.xlsx"
    workbook = openpyxl.load_workbook(file)
    for cell, value in cells.items():
        sheet, _, at = cell.removeprefix("paperwork.xlsx › ").partition("!")
        workbook[sheet][at] = value
    workbook.save(file)


def found(say, *more: str) -> dict:
    told = say("rates", "facts", "--as-of", "2026-12-01", "--json", *more)
    assert told.status == 0, told.err
    return json.loads(told.out)


def test_twenty_countries_are_asked_about():
    assert len(acting.BUYING_MOST) == 20


def test_what_is_marked_as_checked_is_not_named_again_until_it_is_old(say, few, own):
    before = found(say)
    one = next(fact for fact in before["to_look"] if fact["sheet"] == "Import charges" and fact["countries"] == ["JP"])
    assert one["reasons"][0] in REASONS
    assert one["quotes"] > 0
    written(own, dict.fromkeys(one["trust_cells"], "read") | dict.fromkeys(one["checked_on_cells"], "2026-11-30"))
    after = found(say)
    assert one["said"] not in [fact["said"] for fact in after["to_look"]]
    assert after["read"] > before["read"]
    years_on = json.loads(say("rates", "facts", "--as-of", "2028-06-01", "--country", "jp", "--json").out)
    assert next(fact["reasons"] for fact in years_on["to_look"] if fact["said"] == one["said"]) == ["old"]


MADE_UP = Fact(
    field="import_charges", sheet="Import charges", rows=(), said="Invented", figure="", countries=("MX",), source="", address="",
    trust="read", checked_on=date(2026, 6, 1), valid_from=None, valid_to=None,
)  # fmt: skip


@pytest.mark.parametrize(
    ("day", "reasons"),
    [
        (date(2026, 10, 1), ()),
        (date(2026, 10, 2), ("changes soon",)),  # 90 days before its last day
        (date(2026, 12, 31), ("changes soon",)),
        (date(2027, 1, 1), ("ended",)),
        (date(2027, 6, 1), ("ended",)),  # a year after it was read
        (date(2027, 6, 2), ("ended", "old")),
    ],
)
def test_what_changes_soon_and_what_has_ended_is_said(day, reasons):
    one = replace(MADE_UP, valid_to=date(2026, 12, 31))
    assert reasons_to_look(one, day, soon_days=90, stale_after_days=365) == reasons


def test_what_begins_soon_is_said():
    one = replace(MADE_UP, valid_from=date(2027, 1, 1))
    told = [
        reasons_to_look(one, day, soon_days=30, stale_after_days=365) for day in (date(2026, 12, 1), date(2026, 12, 2))
    ]
    assert told == [(), ("changes soon",)]
    assert reasons_to_look(one, date(2027, 1, 1), soon_days=30, stale_after_days=365) == ()


@pytest.mark.parametrize(
    ("trust", "reasons"),
    [("", ("untold",)), ("memory", ("memory",)), ("second hand", ("second hand",)), ("partly read", ())],
)
def test_how_a_fact_was_learnt_is_a_reason_to_look(trust, reasons):
    assert (
        reasons_to_look(replace(MADE_UP, trust=trust), date(2026, 7, 1), soon_days=90, stale_after_days=365) == reasons
    )


def test_the_first_screen_is_five_and_says_where_to_write(say, few, own):
    told = say("rates", "facts", "--as-of", "2026-12-01")
    assert told.status == 0, told.err
    assert [line[:2] for line in told.out.splitlines() if line[:1].isdigit() and line[1:2] == "."] == [
        "1.", "2.", "3.", "4.", "5.",
    ]  # fmt: skip
    assert told.out.count("Write at: ") == told.out.count("Look at: ") == 5
    assert "shipcalc rates facts --all" in told.out
    every = say("rates", "facts", "--as-of", "2026-12-01", "--all", "--country", "JP")
    assert every.out.count("Why: ") == len(found(say, "--country", "JP")["to_look"])


def test_what_a_price_hangs_on_comes_before_papers_and_more_quotes_before_fewer(say, few, own):
    sheets = [(fact["sheet"], fact["quotes"]) for fact in found(say)["to_look"] if fact["quotes"]]
    prices = [quotes for sheet, quotes in sheets if sheet in ("Import charges", "Countries")]
    papers = [place for place, (sheet, _) in enumerate(sheets) if sheet in ("Documents", "Tasks", "From the buyer")]
    assert prices == sorted(prices, reverse=True)
    assert min(papers) >= len(prices)


def test_quotes_that_are_kept_are_the_ones_that_count(say, few, own):
    assert say("quote", "--vehicle", "HV-1042", "--to", "Oslo, Norway", "--as-of", "2026-12-01", "--save").status == 0
    told = found(say)
    assert (told["quotes_are"], told["quotes"]) == ("kept", 1)
    leaning = {fact["countries"][0] for fact in told["to_look"] if fact["quotes"] and fact["sheet"] == "Import charges"}
    assert leaning <= {"NO"}


def test_a_question_begins_no_register(say, few, own, tmp_path):
    found(say)
    assert not list(tmp_path.rglob("*.sqlite"))
