"""An ocean forwarder's sheet with two header rows, sizes and W/M as columns, two currencies, surcharges as lines below."""

from pathlib import Path

from writing import HERE, Truth, new_workbook, put, widen

NAME = "m05_ocean_two_headers.xlsx"
PAIRS = [
    ("USBAL", "Baltimore", "DEBRV", "Bremerhaven", "USD", 1450, 2250, 2350, 68.5, 7),
    ("USBAL", "Baltimore", "BEANR", "Antwerp", "USD", 1395, 2190, 2290, 66, 7),
    ("USSAV", "Savannah", "NLRTM", "Rotterdam", "USD", 1520, 2340, None, 71, 10),
    ("USLAX", "Los Angeles", "JPYOK", "Yokohama", "USD", 980, 1475, 1475, 44.25, 14),
    ("CAHAL", "Halifax", "GBLIV", "Liverpool", "CAD", 2150, 3280, 3390, 92, 5),
]
COLUMNS = (("G", "container 20"), ("H", "container 40"), ("I", "container 40HC"), ("J", "per W/M"))


def write(folder: Path = HERE) -> None:
    book, (sheet,) = new_workbook("FCL LCL Q1")
    truth = Truth(NAME, "Ocean prices by port pair and size, two header rows", forwarder="Brackwater Forwarding")
    put(sheet, 1, "Brackwater Forwarding Inc.", bold=True)
    put(sheet, 2, "Quotation", "BW/27/0093", None, "Issued", "20-Nov-2026")
    put(sheet, 3, "Validity", "01 Jan 2027 – 31 Mar 2027")
    put(sheet, 5, "Port of loading", None, "Port of discharge", None, None, "Curr.", "FCL lump sum", None, None, "LCL")
    put(sheet, 6, "Code", "Name", "Code", "Name", None, None, "20'", "40'", "40'HC", "per W/M", "Free days at dest.")
    for cells in ("A5:B5", "C5:D5", "G5:I5", "F5:F6"):
        sheet.merge_cells(cells)
    for row, (start, name, end, other, currency, *amounts, free) in enumerate(PAIRS, 7):
        put(sheet, row, start, name, end, other, None, currency, *amounts, free)
        for (letter, basis), amount in zip(COLUMNS, amounts, strict=True):
            if amount is not None:
                ports = {"mode": "container", "from_port": f"port:{start}", "to_port": f"port:{end}"}
                money = {"basis": basis, "amount": f"{amount:.2f}", "currency": currency, "free_days": free}
                quoted = {"forwarder": "Brackwater Forwarding", "quotation": "BW/27/0093"}
                days = {"valid_from": "2027-01-01", "valid_to": "2027-03-31"}
                truth.take("Ocean quotes", row, cell=f"{letter}{row}", **quoted, **ports, **money, **days)
    put(sheet, 13, "Surcharges (all port pairs)", bold=True)
    put(sheet, 14, "BAF", None, None, None, None, "%", 11.5)
    put(sheet, 15, "THC origin", None, None, None, None, "USD", 210, 285, 285, 9.5)
    put(sheet, 16, "THC destination", None, None, None, None, "EUR", 225, 260, 260, 11)
    put(sheet, 17, "Documentation fee per B/L", None, None, None, None, "USD", 65)
    for row, why in ((14, "11.5 % of the freight"), (15, "money per size"), (16, "money per size"), (17, "per B/L")):
        truth.name(f"A{row}", f"a surcharge for all pairs: {why}")
    put(sheet, 19, "Rates exclude war risk and customs. E&OE.")
    widen(sheet, 24, 14, 18, 14, 3, 7, 10, 10, 10, 10, 18)
    book.save(folder / NAME)
    truth.save(folder)
