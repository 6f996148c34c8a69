"""A forwarder's offers as forms: labels and values, two containers one below the other, charges for both at the end."""

from datetime import date
from pathlib import Path

from writing import HERE, Truth, new_workbook, put, widen

NAME = "m11_two_offers_as_forms.xlsx"
QUOTED = {
    "forwarder": "Shearwater Quay Forwarding",
    "quotation": "SQ-26-3307",
    "valid_to": "2026-12-31",
    "mode": "container",
}
OFFERS = (
    (10, "A) Savannah to Bremerhaven, 1 x 40'HC", "port:USSAV", "port:DEBRV", "container 40HC", 2850, "12.5", 285, 7),
    (18, "B) Baltimore to Antwerp, 1 x 20'", "port:USBAL", "port:BEANR", "container 20", 1640, "11", 240, 10),
)


def write(folder: Path = HERE) -> None:
    book, (sheet,) = new_workbook("Offer")
    truth = Truth(NAME, "Two ocean quotations as forms, one below the other", forwarder="Shearwater Quay Forwarding")
    put(sheet, 1, "Shearwater Quay Forwarding Inc.", bold=True)
    put(sheet, 2, "9 Lantern Wharf, Savannah, GA 31401")
    put(sheet, 4, "Quotation no.", "SQ-26-3307")
    put(sheet, 5, "Date of issue", date(2026, 12, 1))
    put(sheet, 6, "Validity", "30 days from date of issue")
    put(sheet, 7, "Attention", "Mr. Orrin Hale, collector cars")
    for row, heading, start, end, basis, freight, share, handling, free in OFFERS:
        put(sheet, row, heading, bold=True)
        put(sheet, row + 1, "Ocean freight", f"USD {freight:,}.00")
        put(sheet, row + 2, "BAF", f"{share} %", "of ocean freight")
        put(sheet, row + 3, "THC origin", "USD", handling, "per container")
        put(sheet, row + 4, "THC destination", f"EUR {handling - 25},00/container".replace(",00", ".00"))
        put(sheet, row + 5, "Free days at destination", free)
        own = {**QUOTED, "from_port": start, "to_port": end, "basis": basis}
        truth.take(
            "Ocean quotes", row + 1, cell=f"B{row + 1}", **own, amount=f"{freight}.00", currency="USD", free_days=free
        )
        truth.take("Ocean quotes", row + 2, cell=f"B{row + 2}", **own, percent=share, currency="", label="bunker")
        amount = {"amount": str(handling), "currency": "USD", "label": "terminal handling"}
        truth.take("Ocean quotes", row + 3, cell=f"C{row + 3}", **own, **amount)
        amount = {"amount": str(handling - 25), "currency": "EUR", "label": "terminal handling at arrival"}
        truth.take("Ocean quotes", row + 4, cell=f"B{row + 4}", **own, **amount)
    put(sheet, 25, "Charges for both offers", bold=True)
    put(sheet, 26, "B/L fee", "USD 75.00")
    put(sheet, 28, "War risk as per tariff at time of shipment. Cargo insurance USD 45 on request.")
    truth.name("A26", "a surcharge on both offers")
    truth.name("A28", "a condition and a sum in words")
    widen(sheet, 34, 28, 16, 16)
    book.save(folder / NAME)
    truth.save(folder)
