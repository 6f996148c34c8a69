"""A buyer reads facts and cautions; how a source was learnt is for the office, and stands in nothing that a buyer gets."""

import re
import zipfile
from pathlib import Path

import pytest

MARKS = re.compile(
    r"second hand|secondary source|from memory|not checked|(?:was|were) (?:not )?read\b|\(read\b|(?:was|were) not found|compared with the official",
    re.IGNORECASE,
)
ASK = ("--vehicle", "HV-1042", "--as-of", "2026-12-01", "--ready", "2026-12-15")
PLACES = (
    "London, United Kingdom", "Hamburg, Germany", "Milan, Italy", "Oslo, Norway", "Zurich, Switzerland", "Toronto, Canada",
    "Monterrey, Mexico", "Sydney, Australia", "Auckland, New Zealand", "Yokohama, Japan", "Dubai, United Arab Emirates",
    "Cape Town, South Africa", "Lagos, Nigeria", "Montevideo, Uruguay", "Busan, South Korea", "Honolulu, HI", "Boise, ID",
)  # fmt: skip


def words_of(workbook: Path) -> str:
    """Return all that stands in a workbook, hidden or not."""
    with zipfile.ZipFile(workbook) as parts:
        return " ".join(
            parts.read(name).decode("utf-8", "replace") for name in parts.namelist() if name.endswith(".xml")
        )


@pytest.mark.parametrize("place", PLACES)
def test_no_trust_mark_reaches_a_buyer(say, here: Path, place: str) -> None:
    told = say("quote", *ASK, "--to", place, "--full", "--out", "made", "--json")
    if told.status == 1:  # refused or barred: there is nothing for a buyer
        return
    assert told.status == 0, told.err
    for_buyer = say("quote", *ASK, "--to", place, "--for", "buyer", "--json")
    screen = say("quote", *ASK, "--to", place, "--full")
    gets = {"data": for_buyer.out, "screen": screen.out}
    for file in (here / "made" / "buyer").iterdir():
        gets[file.name] = (
            words_of(file) if file.suffix == ".xlsx" else file.read_text(encoding="utf-8", errors="replace")
        )
    found = {name: MARKS.findall(text) for name, text in gets.items() if MARKS.search(text)}
    assert not found, {
        name: MARKS.search(gets[name])
        and gets[name][max(0, MARKS.search(gets[name]).start() - 100) : MARKS.search(gets[name]).end() + 40]
        for name in found
    }  # type: ignore[union-attr]
    assert len(gets) >= 4


def test_the_office_reads_how_each_source_was_learnt(say, here: Path) -> None:
    told = say("quote", *ASK, "--to", "Hamburg, Germany", "--out", "made", "--json")
    assert told.status == 0, told.err
    checklist = words_of(here / "made" / "office" / "checklist.xlsx")
    assert "trust: memory" in checklist
    assert "trust: second hand" in checklist
