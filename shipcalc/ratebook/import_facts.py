"""What is known of the buyers' customs, as it is written into `paperwork.xlsx`: the member states of the European Union.

They share the customs tariff and differ in their tax, so that one table and a few rows a state say it; other countries stand in
`data/*.toml`. Every figure says how it was learnt: read, read at second hand, or from memory and not checked. `Checked on` is
filled only where the source itself was read.
"""

from collections.abc import Iterator

READ = "read"
SECOND_HAND = "read at second hand"
MEMORY = "from memory, not checked"

# Country, name, currency, standard tax and how it was learnt, reduced tax of a collector's piece and how it was learnt. Blank:
# not known here, and the standard tax is counted for a collector's piece as well.
STATE_FIELDS = "country name currency vat vat_known collector_vat collector_known"
STATES = """
AT | Austria     | EUR | 20 %   | memory      | 13 %  | memory
BE | Belgium     | EUR | 21 %   | memory      | 6 %   | memory
BG | Bulgaria    | EUR | 20 %   | memory      |       |
CY | Cyprus      | EUR | 19 %   | memory      |       |
CZ | Czechia     | CZK | 21 %   | memory      |       |
DE | Germany     | EUR | 19 %   | second hand | 7 %   | second hand
DK | Denmark     | DKK | 25 %   | memory      |       |
EE | Estonia     | EUR | 24 %   | memory      |       |
ES | Spain       | EUR | 21 %   | memory      |       |
FI | Finland     | EUR | 25.5 % | memory      |       |
FR | France      | EUR | 20 %   | memory      | 5.5 % | second hand
GR | Greece      | EUR | 24 %   | memory      |       |
HR | Croatia     | EUR | 25 %   | memory      |       |
HU | Hungary     | HUF | 27 %   | memory      |       |
IE | Ireland     | EUR | 23 %   | memory      |       |
IT | Italy       | EUR | 22 %   | memory      |       |
LT | Lithuania   | EUR | 21 %   | memory      |       |
LU | Luxembourg  | EUR | 17 %   | memory      |       |
LV | Latvia      | EUR | 21 %   | memory      |       |
MT | Malta       | EUR | 18 %   | memory      |       |
NL | Netherlands | EUR | 21 %   | memory      | 9 %   | second hand
PL | Poland      | PLN | 23 %   | memory      |       |
PT | Portugal    | EUR | 23 %   | memory      |       |
RO | Romania     | RON | 21 %   | memory      |       |
SE | Sweden      | SEK | 25 %   | memory      |       |
SI | Slovenia    | EUR | 22 %   | memory      |       |
SK | Slovakia    | EUR | 23 %   | memory      |       |
"""
STEERING = {"CY": "right", "IE": "right", "MT": "right"}
COLLECTOR_RATE_FROM = {
    "DE": "press and trade texts that quote the finance ministry",
    "NL": "trade texts; of price and transport",
    "FR": "customs reply that quotes the circular of 16 January 2013",
    "AT": "national law",
    "BE": "national law",
}

_LEARNT = {"memory": MEMORY, "second hand": SECOND_HAND}
_CRITERIA = (
    "At least 30 years old; original state without substantial changes to chassis, body, steering, brakes, transmission, "
    "suspension or engine; model no longer made. Its customs decide, best asked beforehand"
)
_US_ORIGIN = (
    "Goods that originate in the United States may be free of duty from 2026-07-01 to 2029-12-31 (Regulation (EU) 2026/1455, "
    "read at second hand); whether used cars are among them was not read, so the full duty is counted. Built in the EU: may come "
    "back free within three years (from memory). Registration tax is not counted"
)


def countries(cells: dict[str, str]) -> dict[str, str]:
    """Return the row of sheet Countries for a state."""
    return {
        "country": cells["country"],
        "name": cells["name"],
        "currency": cells["currency"],
        "steering": STEERING.get(cells["country"], "left; right-hand drive may be registered, from memory"),
        "collector_from_years": "30",
        "collector_criteria": _CRITERIA,
        "note": _US_ORIGIN,
        "source": f"Combined Nomenclature, additional note to chapter 97, since 2014-01-01 ({READ})",
        "checked_on": "2026-11-25",
    }


def import_charges(cells: dict[str, str]) -> Iterator[dict[str, str]]:
    """Yield the rows of sheet Import charges for a state, in the order in which they count."""
    own = {"country": cells["country"]}
    duty = {**own, "kind": "duty", "treatment": "ordinary", "base": "CIF"}
    tariff = f"Common Customs Tariff ({SECOND_HAND})"
    yield {
        **duty,
        "code": "duty",
        "label": "Customs duty, motor car",
        "motorcycle": "no",
        "percent_ppm": "10 %",
        "source": f"{tariff}, heading 8703",
    }
    motorcycle = {**duty, "motorcycle": "yes", "source": f"{tariff}, heading 8711: 6 %, up to 250 cc 8 %"}
    yield {**motorcycle, "code": "duty-motorcycle", "label": "Customs duty, motorcycle", "percent_ppm": "6 %"}
    yield {
        **motorcycle,
        "code": "duty-small",
        "label": "Customs duty, further, motorcycle up to 250 cc",
        "engine_up_to_cc": "250",
        "percent_ppm": "2 %",
    }
    tax = {**own, "kind": "tax", "code": "vat", "base": "CIF, duty and onward carriage"}
    standard = _LEARNT[cells["vat_known"]]
    yield {
        **tax,
        "treatment": "ordinary",
        "label": "Value added tax (VAT)",
        "percent_ppm": cells["vat"],
        "source": f"Standard rate ({standard})",
    }
    reduced = cells["collector_vat"]
    rate_from = COLLECTOR_RATE_FROM.get(cells["country"], "")
    yield {
        **tax,
        "treatment": "collector",
        "label": "Value added tax (VAT), collector's piece (9705), no duty",
        "percent_ppm": reduced or cells["vat"],
        "source": (
            f"Reduced rate: {rate_from} ({_LEARNT[cells['collector_known']]})"
            if reduced
            else f"The reduced rate is not known here: the standard rate stands in ({standard})"
        ),
    }
