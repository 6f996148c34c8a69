"""An export from a carrier's own system: names of columns as in a database, ZIP prefixes in four columns, per mile with minimum."""

from pathlib import Path

from writing import HERE, Truth, save_csv

NAME = "m04_zip_export.csv"
HEAD = "CARR,EQUIP,O_ZIP3_LO,O_ZIP3_HI,D_ZIP3_LO,D_ZIP3_HI,RPM,MIN_CHG,FSC_PCT,CUR,EFF_DT,EXP_DT,TARIFF".split(",")
LINES = """
DUNL,OPN,980,984,900,904,0.78,450,18.5,USD,2026-12-01,2027-02-28,DT-77
DUNL,OPN,980,984,905,908,0.79,450,18.5,USD,2026-12-01,2027-02-28,DT-77
DUNL,OPN,980,984,606,606,0.69,600,18.5,USD,2026-12-01,2027-02-28,DT-77
DUNL,ENC,980,984,900,904,1.34,800,18.5,USD,2026-12-01,2027-02-28,DT-77
DUNL,ENC,980,984,606,606,1.215,950,18.5,USD,2026-12-01,2027-02-28,DT-77
DUNL,OPN,313,314,010,027,0.88,400,18.5,USD,2026-12-01,2027-02-28,DT-77
DUNL,OPN,313,314,331,334,,400,18.5,USD,2026-12-01,2027-02-28,DT-77
""".split()


def write(folder: Path = HERE) -> None:
    truth = Truth(NAME, "Per mile with minimum between ranges of ZIP prefixes", carrier="Dunlin Transport")
    rows = [HEAD, *(line.split(",") for line in LINES)]
    for number, row in enumerate(rows[1:], 2):
        cell = dict(zip(HEAD, row, strict=True))
        if not cell["RPM"]:
            continue
        lane = {
            "trailer": {"OPN": "open", "ENC": "enclosed"}[cell["EQUIP"]],
            "from": f"zip:{cell['O_ZIP3_LO']}-{cell['O_ZIP3_HI']}",
            "to": f"zip:{cell['D_ZIP3_LO']}-{cell['D_ZIP3_HI']}".replace("606-606", "606"),
        }
        money = {"per_mile": cell["RPM"], "minimum": cell["MIN_CHG"], "currency": "USD", "fuel_included": False}
        days = {"valid_from": cell["EFF_DT"], "valid_to": cell["EXP_DT"], "reference": "DT-77"}
        truth.take("Lanes", number, carrier="Dunlin Transport", **lane, **money, **days)
    truth.name("G8", "no rate a mile: a minimum alone is no price")
    truth.name("I1", "a fuel surcharge of 18.5 % beside every price: it belongs to the carrier's fuel scheme")
    truth.may_ask("which carrier DUNL is", "what OPN and ENC mean")
    save_csv(folder / NAME, rows, separator=",", encoding="utf-8-sig")
    truth.save(folder)
