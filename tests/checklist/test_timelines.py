"""Whole shipments from agreement to claim: the cases are files that somebody who does not program can read and correct."""

import tomllib
from pathlib import Path

import pytest

from shipcalc.checklist.making import checklist
from shipcalc.records import replace

CASES = sorted((Path(__file__).parent / "cases").glob("*.toml"))


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_shipment_worked_out_by_hand(path, make_shipment, fleet):
    case = tomllib.loads(path.read_text(encoding="utf-8"))
    vehicle = next(vehicle for vehicle in fleet if vehicle.stock_number == case["vehicle"])
    quote = make_shipment(
        replace(vehicle),
        agreed=case["agreed"],
        ready=case["ready"],
        pickup_from_days=case["pickup_days"][0],
        pickup_to_days=case["pickup_days"][1],
        miles=case["miles"],
        spare_days=case["spare_days"],
    )
    option = quote.options[0]
    assert list(option.dates.pickup) == case["pickup"]
    assert list(option.dates.delivery) == case["delivery"]

    items = {item.id: item for item in checklist(quote, option)}
    for entry in case["due"]:
        assert items[entry["task"]].due == entry["on"], f"{entry['task']}: {entry['because']}"
    assert set(case["not_needed"]).isdisjoint(items)


def test_there_are_cases():
    assert len(CASES) >= 2
