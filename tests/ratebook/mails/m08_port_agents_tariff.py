"""A port agent's tariff: charges line by line with their basis and period, storage in steps, a worked example below."""

from pathlib import Path

from writing import HERE, Truth, new_workbook, put, widen

NAME = "m08_port_agents_tariff.xlsx"
LINES = [
    ("1.1", "Terminal handling, self-propelled vehicle", "per unit", 145, None, "vehicle"),
    ("1.2", "Terminal handling, towed or static", "per unit", 260, None, "vehicle"),
    ("1.3", "Terminal handling by measure", "per W/M", 8.75, 95, "W/M"),
    ("1.4", "Container unstuffing, 40'", "per container", 390, None, "container 40"),
    ("2.1", "Customs transit document T1", "per document", 55, None, "document"),
    ("2.2", "Weighbridge", "per unit", 22.5, None, "vehicle"),
    ("2.3", "Battery disconnect and check", "on request", None, None, ""),
]


def write(folder: Path = HERE) -> None:
    book, (sheet,) = new_workbook("Tariff 2027")
    truth = Truth(NAME, "Port charges line by line", agent="Kluysmans Havenagentuur", port="port:Antwerp")
    put(sheet, 1, "Kluysmans Havenagentuur bv, Antwerp: public tariff for vehicles")
    put(sheet, 2, "In force 01/01/2027 to 31/12/2027. Amounts in euro, excl. VAT.")
    truth.name("A2", "31/12 tells that days come first here: 1 January 2027, not the other way round")
    put(sheet, 4, "Item", "Description", "Basis", "EUR", "Minimum", bold=True)
    for row, (item, label, basis, amount, minimum, unit) in enumerate(LINES, 5):
        put(sheet, row, item, label, basis, amount if amount is not None else "o/r", minimum)
        if amount is not None:
            money = {"basis": unit, "amount": f"{amount:.2f}", "currency": "EUR"}
            least = {"minimum": f"{minimum:.2f}"} if minimum else {}
            days = {"valid_from": "2027-01-01", "valid_to": "2027-12-31"}
            truth.take("Port charges", row, port="port:Antwerp", label=label, reference=item, **money, **least, **days)
    truth.name("D11", "no price: on request")
    put(sheet, 14, "3", "Storage per vehicle and day", bold=True)
    for row, (span, amount) in enumerate((("day 1–5", "free"), ("day 6–14", 7.5), ("from day 15", 15)), 15):
        put(sheet, row, None, span, "per day", amount)
    steps = (("16", 6, 14, "7.50"), ("17", 15, 0, "15.00"))
    for row, first, last, price in steps:
        span = {"from_day": first} | ({"to_day": last} if last else {})
        money = {"basis": "vehicle and day", "amount": price, "currency": "EUR", "free_days": 5}
        days = {"valid_from": "2027-01-01", "valid_to": "2027-12-31"}
        truth.take("Port charges", int(row), port="port:Antwerp", label="Storage", **span, **money, **days)
    put(sheet, 20, "Example: one running vehicle, collected on day 7", bold=True)
    put(sheet, 21, None, "Terminal handling", None, 145)
    put(sheet, 22, None, "Storage 2 days", None, 15)
    put(sheet, 23, None, "TOTAL", None, 160)
    truth.refuse([21, 22, 23], "a worked example is no tariff")
    truth.may_ask("which port", "at which stage these arise")
    widen(sheet, 7, 44, 16, 10, 10)
    book.save(folder / NAME)
    truth.save(folder)
