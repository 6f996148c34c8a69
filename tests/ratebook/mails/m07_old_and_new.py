"""A carrier's announcement in the old workbook format: states by name, the old and the new price side by side."""

from datetime import date
from pathlib import Path

from writing import HERE, Truth, save_xls

NAME = "m07_old_and_new.xls"
STATES = {"California": "CA", "Oregon": "OR", "Texas": "TX", "New Mexico": "NM", "Florida": "FL", "Kansas": "KS"}
LANES = [
    ("Washington", "CA (all)", 1150.0, 1225.0),
    ("Washington", "Oregon", 520.0, 555.0),
    ("Washington", "Texas", 1690.0, 1790.0),
    ("Washington", "New Mexico", 1380.0, 1380.0),
    ("Washington", "Kansas", 1415.0, None),
    ("Washington", "Florida", 1980.0, 2095.0),
    ("Washington", "Oregon", 520.0, 575.0),
]


def write(folder: Path = HERE) -> None:
    truth = Truth(NAME, "States, with old and new prices side by side", carrier="Hob Hill Motor Freight")
    rows: list[list[object]] = [
        ["HOB HILL MOTOR FREIGHT"],
        ["General rate increase. New rates apply to pick-ups from:", None, None, None, date(2027, 1, 4)],
        [],
        ["Open trailers only. Per vehicle, US $, without fuel."],
        [],
        ["Origin state", "Destination state", "Current rate", "", "New rate", "Change"],
    ]
    for start, end, old, new in LANES:
        rows.append([start, end, old, None, new, None if new is None else f"{(new / old - 1):+.1%}"])
        if new is not None and end != "Oregon":
            places = {"from": "state:WA", "to": f"state:{STATES.get(end, 'CA')}", "trailer": "open"}
            money = {"flat": f"{new:.2f}", "currency": "USD", "fuel_included": False, "valid_from": "2027-01-04"}
            truth.take("Lanes", len(rows), cell=f"E{len(rows)}", carrier="Hob Hill Motor Freight", **places, **money)
    truth.name("E8", "Oregon stands twice with different prices (rows 8 and 13)")
    truth.name("E13", "Oregon stands twice with different prices (rows 8 and 13)")
    truth.name("E11", "no new price: is the lane still offered, at the old one?")
    rows += [[], ["Average increase", None, 1236.43, None, 1269.17, None]]
    truth.refuse([15], "an average is no price")
    truth.may_ask("which of two prices to take")
    save_xls(folder / NAME, "GRI 2027", rows)
    truth.save(folder)
