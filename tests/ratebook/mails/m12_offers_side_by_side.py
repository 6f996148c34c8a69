"""A German forwarder's offers side by side: German labels, sums as 1.450,00, a bunker surcharge that is a bare number."""

from pathlib import Path

from writing import HERE, Truth, new_workbook, put, widen

NAME = "m12_offers_side_by_side.xlsx"
LEFT = ("Bremerhaven", "New York", "40' HC", "EUR 1.450,00", 9.5, "EUR 265,00", "Bremerhaven → New York")
RIGHT = ("Hamburg", "Baltimore, MD", "20'", "EUR 980,50", 9.5, "EUR 230,00", "Hamburg → Baltimore")
LABELS = ("Verladehafen", "Löschhafen", "Container", "Seefracht", "BAF", "THC origin")


def write(folder: Path = HERE) -> None:
    book, (sheet,) = new_workbook("Angebot")
    truth = Truth(NAME, "Two ocean quotations side by side in German", forwarder="Habichtsee Spedition")
    put(sheet, 1, "Habichtsee Spedition GmbH", bold=True)
    put(sheet, 3, "Angebot Nr.", "HS-4471", column=1)
    put(sheet, 4, "Gültig bis", "31.12.2026")
    for row, label in enumerate(LABELS, 6):
        put(sheet, row, label, LEFT[row - 6], None, label, RIGHT[row - 6])
    put(sheet, 12, "Freie Tage", 7, None, "Freie Tage", 5)
    sides = (
        ("B", "port:DEBRV", "port:USNYC", "container 40HC", 7),
        ("E", "port:DEHAM", "port:USBAL", "container 20", 5),
    )
    sums = {"B": ("1450.00", "265.00"), "E": ("980.50", "230.00")}
    for letter, start, end, basis, free in sides:
        own = {
            "forwarder": "Habichtsee Spedition",
            "quotation": "HS-4471",
            "valid_to": "2026-12-31",
            "mode": "container",
        }
        own |= {"from_port": start, "to_port": end, "basis": basis}
        freight, handling = sums[letter]
        truth.take("Ocean quotes", 9, cell=f"{letter}9", **own, amount=freight, currency="EUR", free_days=free)
        truth.take("Ocean quotes", 10, cell=f"{letter}10", **own, percent="9.5", currency="", label="bunker")
        truth.take(
            "Ocean quotes", 11, cell=f"{letter}11", **own, amount=handling, currency="EUR", label="terminal handling"
        )
    truth.may_ask("whether BAF 9.5 is a percentage or money")
    widen(sheet, 18, 20, 3, 18, 20)
    book.save(folder / NAME)
    truth.save(folder)
