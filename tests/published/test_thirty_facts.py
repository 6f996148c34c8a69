"""Thirty facts picked at random, held to their published source by somebody who did not write them (`data/thirty_facts.tsv`).

What was seen stands there with its address and day. Held here: each still stands in the shipped book as it was held, and what could
not be held to a source is marked so in its row that nobody takes it for checked.
"""

import csv
from functools import cache
from pathlib import Path

import pytest

from shipcalc.ratebook.book import read_rate_book
from shipcalc.ratebook.facts import Fact, facts_of

NOTES = Path(__file__).parent / "data" / "thirty_facts.tsv"
LINES = [line for line in NOTES.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
HELD = list(csv.DictReader(LINES, delimiter="\t"))


@cache
def shipped() -> dict[tuple[str, str], list[Fact]]:
    found: dict[tuple[str, str], list[Fact]] = {}
    for fact in facts_of(read_rate_book(Path(__file__).parents[2] / "rates")):
        found.setdefault((fact.sheet, fact.name), []).append(fact)
    return found


def test_thirty_are_held():
    assert len({(row["sheet"], row["fact"]) for row in HELD}) == len(HELD) == 30
    assert {row["result"] for row in HELD} == {"right", "mended", "uncertain"}


@pytest.mark.parametrize("row", HELD, ids=lambda row: row["fact"][:40])
def test_each_stands_in_the_book_as_it_was_held(row):
    assert (row["sheet"], row["fact"]) in shipped()


@pytest.mark.parametrize("row", [row for row in HELD if row["result"] != "uncertain"], ids=lambda row: row["fact"][:40])
def test_what_is_right_is_trusted_as_far_as_it_was_seen(row):
    """What an official text says may be read; what somebody tells of it is second hand, or was read by somebody else."""
    for fact in shipped()[row["sheet"], row["fact"]]:
        assert fact.trust in (
            ("read", "partly read") if row["how it was seen"] == "official" else ("second hand", "partly read")
        )
        assert row["what the source says"]


def test_what_could_not_be_held_is_marked_in_its_row():
    """Its row says second hand or from memory; where it says read, it says on which day its writer read it."""
    for row in HELD:
        if row["result"] == "uncertain":
            for fact in shipped()[row["sheet"], row["fact"]]:
                assert fact.trust in ("second hand", "memory") or fact.checked_on is not None
