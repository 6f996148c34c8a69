"""A carrier's workbook with a letter, a sheet for each coast in its own order of columns, hidden old rows, and a fuel table."""

from datetime import date
from pathlib import Path

from writing import HERE, Truth, new_workbook, put, widen

NAME = "m06_sheets_by_coast.xlsx"
WEST = [
    (1, "98225", "California (north)", "940-961", 1180, "incl."),
    (2, "98225", "California (south)", "900-935", 1275, "incl."),
    (3, "98225", "Arizona", "850-865", 1390, "incl."),
    (4, "98225", "Nevada", "889-898", 1150, "+ fuel"),
]
EAST = [
    (850.0, "enclosed", "Florida", "Savannah GA 31401"),
    (1640.0, "enclosed", "Maine", "Savannah GA 31401"),
    (1215.5, "enclosed", "New York", "Savannah GA 31401"),
]
STATES = {"Florida": "FL", "Maine": "ME", "New York": "NY"}


def write(folder: Path = HERE) -> None:
    book, (letter, west, east, fuel) = new_workbook("Letter", "West", "East", "FSC")
    truth = Truth(NAME, "Two sheets of lanes in different orders of columns", carrier="Copperline Carriage")
    put(letter, 2, "Dear partner,")
    put(
        letter, 3, "please find our 2027 prices on the next two sheets. We charge 1,250 at least for Alaska, ask first."
    )
    put(letter, 5, "Odalys Brennock, Copperline Carriage")
    truth.name("A3", "a price within a letter: at least 1,250 for Alaska, on request", sheet="Letter")
    put(west, 2, "West, open trailers, from 1 January 2027 until further notice")
    put(west, 4, "No.", "Origin ZIP", "Region", "Dest. ZIP3", "Price USD", "Fuel", bold=True)
    for row, cells in enumerate(WEST, 5):
        put(west, row, *cells)
        places = {"from": f"zip5:{cells[1]}", "to": f"zip:{cells[3]}", "trailer": "open", "flat": f"{cells[4]}.00"}
        more = {"currency": "USD", "fuel_included": cells[5] == "incl.", "valid_from": "2027-01-01"}
        truth.take("Lanes", row, sheet="West", carrier="Copperline Carriage", **places, **more)
    put(west, 9, 5, "98225", "Oregon", "970-979", 610, "incl.")
    put(west, 10, 6, "98225", "Idaho", "832-838", 645, "incl.")
    for row in (9, 10):
        west.row_dimensions[row].hidden = True
    truth.name("A9", "rows 9 and 10 are hidden: are they still offered?", sheet="West")
    put(east, 1, "EAST")
    put(east, 3, "Rate", "Equipment", "To (whole state)", "From", "Effective", bold=True)
    for row, (price, trailer, state, start) in enumerate(EAST, 4):
        put(east, row, price, trailer, state, start, date(2027, 1, 1))
        east.cell(row, 1).number_format = '"$"#,##0.00'
        places = {"from": "zip5:31401", "to": f"state:{STATES[state]}", "trailer": trailer, "flat": f"{price:.2f}"}
        days = {"currency": "USD", "valid_from": "2027-01-01"}
        truth.take("Lanes", row, sheet="East", carrier="Copperline Carriage", **places, **days)
    put(east, 8, 3705.5, "Total")
    truth.refuse([8], "a sum of prices is no price", sheet="East")
    truth.may_ask("whether fuel is in the prices of the sheet East")
    put(fuel, 1, "Diesel USD/gal from", "Surcharge")
    for row, (price, percent) in enumerate(((3.5, 0.12), (3.75, 0.14), (4.0, 0.16)), 2):
        put(fuel, row, price, percent)
    truth.name("A1", "a table of fuel steps, which belongs to the carrier's fuel scheme", sheet="FSC")
    truth.refuse([2, 3, 4], "fuel steps are no prices of lanes", sheet="FSC")
    for sheet in (west, east):
        widen(sheet, 10, 12, 20, 20, 12, 10)
    book.save(folder / NAME)
    truth.save(folder)
