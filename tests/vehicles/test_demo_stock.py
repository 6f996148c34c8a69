"""The invented dealer's list reads with just the problems that were left in it on purpose (demo/README.md)."""

import csv
from pathlib import Path

import pytest

from shipcalc.vehicles.stock import Stock, find_vehicle
from shipcalc.vehicles.stock_list import read_stock

DEMO = Path(__file__).parents[2] / "demo"


@pytest.fixture(scope="module")
def stock() -> Stock:
    return read_stock(DEMO / "stock.xlsx")


def test_it_has_just_the_planned_problems(stock: Stock) -> None:
    told = [(problem.severity, problem.cell.rpartition("!")[2], problem.message[:34]) for problem in stock.problems]
    assert told == [
        ("fault", "T11", '"41oo" is not a number'),
        ("warning", "F53", '"ZA9AL19RZKAH7V344" fails the chec'),
        ("warning", "F84", '"1J9JR49R3HAH7V786" fails its chec'),
        ("warning", "E112", '"landaulet" is not a body the prog'),
    ]
    assert [number for number, _ in stock.unusable] == ["HV-1013"]


def test_it_has_what_a_demo_needs(stock: Stock) -> None:
    assert len(stock.vehicles) == 159
    assert {vehicle.yard for vehicle in stock.vehicles} == {"Bellingham", "Savannah"}
    assert (
        min(vehicle.year or 0 for vehicle in stock.vehicles),
        max(vehicle.year or 0 for vehicle in stock.vehicles),
    ) == (
        1928,
        1994,
    )
    values = [vehicle.value_minor or 0 for vehicle in stock.vehicles]
    assert (min(values), max(values)) == (350_000, 41_000_000)
    assert sum(vehicle.length_mm is None for vehicle in stock.vehicles) == 9
    assert sum(not vehicle.runs for vehicle in stock.vehicles) == 13
    assert {vehicle.title for vehicle in stock.vehicles} == {
        "clean",
        "lien",
        "salvage",
        "foreign",
        "bill of sale only",
        "missing",
    }


def test_the_vehicle_of_the_examples_is_in_it(stock: Stock) -> None:
    vehicle = find_vehicle(stock, "hv 1042")
    assert (vehicle.name, vehicle.yard, vehicle.value_minor) == (
        "1961 Larkspur Minnow roadster",
        "Bellingham",
        3_800_000,
    )


def test_every_caller_asks_for_a_vehicle_that_is_in_it(stock: Stock) -> None:
    with (DEMO / "buyers.csv").open(encoding="utf-8", newline="") as file:
        buyers = list(csv.DictReader(file))
    assert [row["Where"] for row in buyers] == ["home"] * 15 + ["overseas"] * 8
    wanted = [number for row in buyers for number in row["Vehicles"].split(";")]
    assert all(find_vehicle(stock, number) for number in wanted)
    assert len(set(wanted)) == len(wanted)
