"""A hauler's price letter: merged titles, headers in row 7, prices as text, trailers as columns, a lane that is cancelled."""

from pathlib import Path

from openpyxl.styles import Font
from writing import HERE, Truth, new_workbook, put, widen

NAME = "m01_haulers_letter.xlsx"
LANES = [
    ("Bellingham, WA", "Los Angeles, CA", "$1,250.00", "$2,100.00", "5-7 days", ("1250.00", "2100.00")),
    ("Bellingham, WA", "Phoenix, AZ", "$1,395.00", "$2,340.00", "6-8 days", ("1395.00", "2340.00")),
    ("Bellingham, WA", "Dallas, TX", "$1,780.00", "$2,950.00", "7-10 days", ("1780.00", "2950.00")),
    ("Bellingham, WA", "Denver, CO", "$1,310.00", "n/a", "5-7 days", ("1310.00", None)),
    ("Bellingham, WA", "Chicago, IL", "CANCELLED", "CANCELLED", "", None),
    ("Savannah, GA", "Miami, FL", "$ 690.00", "$1,180.00", "2-4 days", ("690.00", "1180.00")),
    ("Savannah, GA", "New York, NY", "$1,020.00", "$ 1,735.50", "3-5 days", ("1020.00", "1735.50")),
]


def write(folder: Path = HERE) -> None:
    book, (sheet,) = new_workbook("Rates")
    truth = Truth(NAME, "Lanes with a column for each trailer", carrier="Marrow Lake Hauling")
    for row, text in enumerate(
        (
            "MARROW LAKE HAULING LLC",
            "14 Quarry Spur, Burlington, WA 98233 · dispatch@marrowlake.example",
            "Dealer price list ML-2641",
            "Effective 12/01/26, valid thru 12/31/26. All prices in US dollars, fuel included.",
        ),
        1,
    ):
        put(sheet, row, text)
        sheet.merge_cells(start_row=row, end_row=row, start_column=1, end_column=5)
    sheet["A1"].font = Font(bold=True, size=16)
    put(sheet, 7, "Pick up", "Deliver to", "Open", "Enclosed", "Transit", bold=True)
    for row, (start, end, open_, enclosed, days, read) in enumerate(LANES, 8):
        put(sheet, row, start, end, open_, enclosed, days)
        for trailer, amount in zip(("open", "enclosed"), read or (), strict=False):
            if amount:
                common = {"carrier": "Marrow Lake Hauling", "reference": "ML-2641", "currency": "USD"}
                days_ = {"valid_from": "2026-12-01", "valid_to": "2026-12-31", "fuel_included": True}
                lane = {"trailer": trailer, "from": f"city:{start}", "to": f"city:{end}", "flat": amount}
                truth.take("Lanes", row, cell=("C" if trailer == "open" else "D") + str(row), **common, **lane, **days_)
    truth.refuse([12], "the lane is cancelled")
    put(sheet, 17, "Rates subject to availability. Add $150 for inoperable vehicles.")
    put(sheet, 18, "Thank you for your business! Page 1 of 1")
    truth.name("A17", "a charge for what does not run, which is no lane's price")
    widen(sheet, 22, 22, 12, 12, 12)
    book.save(folder / NAME)
    truth.save(folder)
