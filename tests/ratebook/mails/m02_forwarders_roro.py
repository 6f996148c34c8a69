"""A German forwarder's list of RoRo prices: semicolons, Windows' letters, money in the German way, words above and below."""

from pathlib import Path

from writing import HERE, Truth, save_csv

NAME = "m02_forwarders_roro.csv"
PRICES = [
    ("Baltimore", "Bremerhaven", "bis 5,00 m", "1.250,00 €", "1250.00", "5.00", None),
    ("Baltimore", "Bremerhaven", "über 5,00 m bis 6,00 m", "1.485,00 €", "1485.00", "6.00", "5.00"),
    ("Savannah", "Bremerhaven", "bis 5,00 m", "1.310,00 €", "1310.00", "5.00", None),
    ("Savannah", "Bremerhaven", "über 5,00 m bis 6,00 m", "1.560,50 €", "1560.50", "6.00", "5.00"),
    ("Baltimore", "Antwerpen", "bis 5,00 m", "1.195,00 €", "1195.00", "5.00", None),
    ("Baltimore", "Antwerpen", "über 5,00 m bis 6,00 m", "auf Anfrage", None, "6.00", "5.00"),
]


def write(folder: Path = HERE) -> None:
    truth = Truth(NAME, "Ocean prices by port pair and length", forwarder="Spedition Nordhuk")
    rows = [
        ["Spedition Nordhuk GmbH", "", "", "", ""],
        ["Am Vorhafen 9, 27568 Bremerhaven", "", "", "", ""],
        ["Angebot Nr. NH-26-1188 vom 24.11.2026", "", "", "", ""],
        [],
        ["Sehr geehrte Damen und Herren, wie besprochen unsere Raten für Oldtimer im RoRo-Verkehr:", "", "", "", ""],
        ["gültig bis 31.12.2026", "", "", "", ""],
        [],
        ["Verladehafen", "Löschhafen", "Länge", "Seefracht je Fahrzeug", "Bemerkung"],
    ]
    for start, end, length, price, amount, up_to, over in PRICES:
        rows.append([start, end, length, price, ""])
        if amount:
            quoted = {"forwarder": "Spedition Nordhuk", "quotation": "NH-26-1188", "valid_to": "2026-12-31"}
            limits = {"length_up_to_m": up_to} | ({"length_over_m": over} if over else {})
            ports = {"mode": "roro", "from_port": f"port:{start}", "to_port": f"port:{end}"}
            money = {"basis": "per vehicle", "amount": amount, "currency": "EUR"}
            truth.take("Ocean quotes", len(rows), **quoted, **ports, **money, **limits)
        else:
            truth.name(f"D{len(rows)}", "no price: on request")
    rows += [
        [],
        ["BAF 12,5 % auf die Seefracht, zuzüglich THC je Fahrzeug 95,00 €", "", "", "", ""],
        ["Freizeit am Terminal: 5 Tage. Nicht fahrbereite Fahrzeuge auf Anfrage.", "", "", "", ""],
        ["Mit freundlichen Grüßen, i. A. Wiebke Tarmstedt", "", "", "", ""],
    ]
    truth.name("A16", "two surcharges in a sentence: 12.5 % of the freight, and 95.00 EUR per vehicle")
    truth.name("A17", "five free days at the terminal; what does not run is on request")
    save_csv(folder / NAME, rows, separator=";", encoding="cp1252")
    truth.save(folder)
