"""`shipcalc papers` as the office has it: what is written, what is missing and where it goes, and what becomes of a wrong word."""

import json
from pathlib import Path

import pytest

DAY = "2026-12-01"


@pytest.fixture
def accepted(say, here: Path) -> str:
    """A shipment overseas that has begun."""
    asked = (
        "quote",
        "--vehicle",
        "HV-1042",
        "--to",
        "Bremen, Germany",
        "--buyer",
        "Perpetua Lindqvist",
        "--as-of",
        DAY,
        "--save",
    )
    assert say(*asked).status == 0
    assert say("quotes", "accept", "1", "--on", DAY, "--as-of", DAY).status == 0
    return "1"


def test_a_reference_and_an_address_are_missing_until_they_are_filled_in(say, accepted: str) -> None:
    def missing() -> set[str]:
        said = say("papers", accepted, "--as-of", DAY, "--json")
        assert said.status == 0, said.err
        return {one["field"] for paper in json.loads(said.out)["papers"] for one in paper["missing"]}

    before = missing()
    assert {"Booking", "Commodity code", "Consignee: address"} <= before
    assert say("shipments", "set", accepted, "booking=PLR-88120", "commodity=8703.23.01.90", "--as-of", DAY).status == 0
    assert say("contacts", "add", "buyer", "Perpetua Lindqvist", "--address", "Lerchenweg 7, Bremen").status == 0
    after = missing()
    assert after.isdisjoint({"Booking", "Commodity code", "Consignee: address"})
    assert after < before


def test_each_missing_thing_is_listed_once(say, accepted: str) -> None:
    said = say("papers", accepted, "--as-of", DAY)
    assert said.status == 0
    assert said.out.count("Commodity code") == 1


@pytest.mark.parametrize("word", ["bill", "invoices", "", "../evil", "=1+1"])
def test_a_word_that_names_no_paper_is_one_clear_sentence(say, accepted: str, word: str) -> None:
    """`bill` begins bill-of-sale and no other: it is that one."""
    said = say("papers", accepted, "--as-of", DAY, "--only", word)
    if word == "bill":
        assert said.status == 0
        return
    assert said.status == 2
    assert len(said.err.strip().splitlines()) <= 4
    assert f'"{word}" is not a paper' in said.err
    assert "bill-of-sale" in said.err
