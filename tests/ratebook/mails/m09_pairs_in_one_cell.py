"""A dispatcher's list saved as Unicode text: both cities in one cell, price and minimum in one cell, a line twice."""

from pathlib import Path

from writing import HERE, Truth, save_csv

NAME = "m09_pairs_in_one_cell.csv"
LINES = [
    ("Los Angeles, CA → Chicago, IL", "USD 1,150 flat", "open", {"flat": "1150.00"}),
    ("Los Angeles, CA → Nashville, TN", "USD 1,240 flat", "open", {"flat": "1240.00"}),
    ("Spokane, WA → Boise, ID", "0.92/mi (min 450)", "open", {"per_mile": "0.92", "minimum": "450.00"}),
    ("Spokane, WA → Missoula, MT", "$1.05 per mile, min. $400", "open", {"per_mile": "1.05", "minimum": "400.00"}),
    ("Los Angeles, CA → Chicago, IL", "USD 1,150 flat", "open", None),
    ("Los Angeles, CA → Chicago, IL", "USD 1,980 flat", "covered", {"flat": "1980.00"}),
    ("Portland, OR → Springfield", "USD 1,410 flat", "open", {"flat": "1410.00"}),
    ("Tucson, AZ → El Paso, TX", "USD 480-520", "open", None),
    ("Reno, NV → Elko, NV", "-", "open", None),
]


def write(folder: Path = HERE) -> None:
    truth = Truth(NAME, "City pairs and prices as a dispatcher types them", carrier="Thistlebridge Haul")
    rows = [["Lane", "Price", "Trailer", "Good until", "Comment"]]
    for lane, price, trailer, read in LINES:
        rows.append([lane, price, trailer, "12/15/2026", ""])
        start, end = lane.split(" → ")
        if read and end != "Springfield":
            places = {"from": f"city:{start}", "to": f"city:{end}"}
            more = {
                "trailer": {"covered": "enclosed"}.get(trailer, trailer),
                "currency": "USD",
                "valid_to": "2026-12-15",
            }
            truth.take("Lanes", len(rows), carrier="Thistlebridge Haul", **places, **more, **read)
    truth.name("A6", "the same as row 2")
    truth.name("A8", "which Springfield?")
    truth.name("B9", "a span is no price")
    truth.refuse([6], "row 2 over again")
    truth.refuse([9], "a span is no price")
    truth.refuse([10], "no price")
    truth.may_ask("whether fuel is included", "whether covered means enclosed")
    save_csv(folder / NAME, rows, separator="\t", encoding="utf-16")
    truth.save(folder)
