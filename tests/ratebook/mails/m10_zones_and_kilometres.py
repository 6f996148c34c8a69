"""A Dutch haulier's last leg: zones by postal codes in one block, prices by zone in another, beyond them by the kilometre."""

from pathlib import Path

from writing import HERE, Truth, new_workbook, put, widen

NAME = "m10_zones_and_kilometres.xlsx"
ZONES = [
    ("Z1", "NL", "Randstad", "1000-3999", "zip:1000-3999"),
    ("Z2", "NL", "East and north", "6500-9999", "zip:6500-9999"),
    ("Z3", "DE", "Rhine and Ruhr", "40, 41, 42, 44, 45, 47, 50, 51", "zip:40,41,42,44,45,47,50,51"),
    ("Z4", "DE", "Hamburg", "20-22", "zip:20-22"),
    ("Z5", "BE", "Flanders", "rest", ""),
]
PRICES = [("Z1", 185, 340), ("Z2", 265, 480), ("Z3", 320, 575), ("Z4", 540, 965), ("Z5", 240, 430)]


def write(folder: Path = HERE) -> None:
    book, (sheet,) = new_workbook("Tarief")
    truth = Truth(NAME, "Last leg by zone and by the kilometre", carrier="Vermeulen-Oosterdijk Transport")
    put(sheet, 1, "Vermeulen-Oosterdijk Transport: delivery of vehicles ex Rotterdam")
    put(sheet, 2, "Prijzen in EUR, excl. btw, geldig van 01-01-2027 t/m 30-06-2027, incl. diesel")
    put(sheet, 4, "Zone", "Land", "Omschrijving", "Postcodes", bold=True)
    for row, (zone, country, words, codes, read) in enumerate(ZONES, 5):
        put(sheet, row, zone, country, words, codes)
        if read:
            truth.take("Zones", row, zone=zone, country=f"country:{country}", place=read)
    truth.name("D9", "'rest' is no postal code")
    put(sheet, 4, "Zone", "Open", "Gesloten", column=7, bold=True)
    days = {"valid_from": "2027-01-01", "valid_to": "2027-06-30"}
    common = {"carrier": "Vermeulen-Oosterdijk Transport", "from_port": "port:Rotterdam", "currency": "EUR"}
    for row, (zone, *prices) in enumerate(PRICES, 5):
        put(sheet, row, zone, *prices, column=7)
        for letter, trailer, price in zip("HI", ("open", "enclosed"), prices, strict=True):
            values = {"zone": f"zone:{zone}", "trailer": trailer, "flat": f"{price}.00", "fuel_included": True}
            truth.take("On-carriage", row, cell=f"{letter}{row}", **common, **values, **days)
    put(sheet, 12, "Buiten de zones: open € 1,35 per km, gesloten € 2,20 per km, minimum € 250,00")
    truth.name("A12", "prices by the kilometre within a sentence: 1.35 and 2.20 EUR, 250.00 at least")
    put(sheet, 13, "Wachttijd € 55,00 per uur na het eerste uur")
    truth.name("A13", "waiting time: 55.00 EUR an hour after the first")
    truth.may_ask("what Gesloten means", "what the zone Z5 is")
    widen(sheet, 8, 8, 18, 30, 3, 3, 8, 10, 10)
    book.save(folder / NAME)
    truth.save(folder)
