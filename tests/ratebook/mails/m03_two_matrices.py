"""A broker's two matrices, from × to, one below the other: open above, enclosed below; some cells say no price."""

from pathlib import Path

from writing import HERE, Truth, new_workbook, put, widen

NAME = "m03_two_matrices.xlsx"
ENDS = ("Atlanta, GA", "Chicago, IL", "Houston, TX", "Boston, MA")
OPEN = {
    "Seattle, WA": (1675, 1240, 1590, 1890),
    "Portland, OR": (1640, 1225, None, 1875),
    "Sacramento, CA": (1480, 1310, 1255, "call"),
}
ENCLOSED = {
    "Seattle, WA": (2790, 2065, 2650, 3150),
    "Portland, OR": (2735, 2040, 2610, 3125),
    "Sacramento, CA": (2465, 2180, "2090*", 3290),
}


def write(folder: Path = HERE) -> None:
    book, (sheet,) = new_workbook("Dec 26")
    truth = Truth(NAME, "Two matrices of lanes, one for each trailer", carrier="Tollgate Auto Brokers")
    put(sheet, 1, "Tollgate Auto Brokers: spot board, good for December 2026 pick-ups")
    put(sheet, 2, "USD per vehicle, flat, fuel not included")
    for top, trailer, title, matrix in ((4, "open", "OPEN CARRIER", OPEN), (12, "enclosed", "ENCLOSED", ENCLOSED)):
        put(sheet, top, title, bold=True)
        put(sheet, top + 1, "From / To", *ENDS, bold=True)
        for row, (start, prices) in enumerate(matrix.items(), top + 2):
            put(sheet, row, start, *("—" if price is None else price for price in prices))
            for letter, end, price in zip("BCDE", ENDS, prices, strict=True):
                if isinstance(price, int):
                    money = {"flat": f"{price}.00", "currency": "USD", "fuel_included": False}
                    lane = {"trailer": trailer, "from": f"city:{start}", "to": f"city:{end}"}
                    days = {"valid_from": "2026-12-01", "valid_to": "2026-12-31"}
                    truth.take(
                        "Lanes", row, cell=f"{letter}{row}", carrier="Tollgate Auto Brokers", **lane, **money, **days
                    )
    put(sheet, 18, "* subject to carrier confirmation")
    truth.name("E8", "no price: call")
    truth.name("D16", "2,090 with a star: subject to carrier confirmation")
    widen(sheet, 18, 14, 14, 14, 14)
    book.save(folder / NAME)
    truth.save(folder)
