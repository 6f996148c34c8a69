"""What is known of the buyers' customs, as it is written into `paperwork.xlsx`: the member states of the European Union.

They share the customs tariff and differ in their tax, so that one table and a few rows a state say it; other countries stand in
`data/*.toml`. Every row says how its figures were learnt (column Trust, for the office). `Checked on` is filled only where the
source itself was read.
"""

from collections.abc import Iterator, Mapping

from shipcalc.ratebook.making.collector_rates import COLLECTOR_RATES, READ_ON

# Country, name, currency, standard tax and how it was learnt.
STATE_FIELDS = "country name currency vat vat_known"
STATES = """
AT | Austria     | EUR | 20 %   | second hand
BE | Belgium     | EUR | 21 %   | second hand
BG | Bulgaria    | EUR | 20 %   | second hand
CY | Cyprus      | EUR | 19 %   | second hand
CZ | Czechia     | CZK | 21 %   | second hand
DE | Germany     | EUR | 19 %   | second hand
DK | Denmark     | DKK | 25 %   | second hand
EE | Estonia     | EUR | 24 %   | second hand
ES | Spain       | EUR | 21 %   | second hand
FI | Finland     | EUR | 25.5 % | second hand
FR | France      | EUR | 20 %   | second hand
GR | Greece      | EUR | 24 %   | second hand
HR | Croatia     | EUR | 25 %   | second hand
HU | Hungary     | HUF | 27 %   | second hand
IE | Ireland     | EUR | 23 %   | second hand
IT | Italy       | EUR | 22 %   | second hand
LT | Lithuania   | EUR | 21 %   | second hand
LU | Luxembourg  | EUR | 17 %   | second hand
LV | Latvia      | EUR | 21 %   | second hand
MT | Malta       | EUR | 18 %   | second hand
NL | Netherlands | EUR | 21 %   | second hand
PL | Poland      | PLN | 23 %   | second hand
PT | Portugal    | EUR | 23 %   | second hand
RO | Romania     | RON | 21 %   | second hand
SE | Sweden      | SEK | 25 %   | second hand
SI | Slovenia    | EUR | 22 %   | second hand
SK | Slovakia    | EUR | 23 %   | second hand
"""
# The laws that set the standard rates, where their words were read; the other rates are those of the Commission's database.
_ALIKE = "The sentence as several papers of 2026 print it alike, with the address of the law (read); that page itself was not"
STANDARD_RATES: Mapping[str, Mapping[str, str]] = {
    "DE": {
        "source": "UStG, § 12 (1)",
        "address": "https://www.gesetze-im-internet.de/ustg_1980/__12.html",
        "office_note": _ALIKE,
    },
    "DK": {"source": "Momsloven, § 33", "address": "https://www.retsinformation.dk", "office_note": _ALIKE},
    "ES": {
        "source": "Ley 37/1992, article 90",
        "address": "https://www.boe.es/buscar/act.php?id=BOE-A-1992-28740",
        "office_note": _ALIKE,
    },
    "FI": {
        "source": "Finnish Tax Administration: general rate since 2024-09-01",
        "address": "https://vero.fi/en/businesses-and-corporations/taxes-and-charges/vat/rates-of-vat/",
        "office_note": "Its page on the rate from 1 September 2024 (read)",
        "trust": "read",
    },
    "FR": {
        "source": "Code général des impôts, article 278",
        "address": "https://www.economie.gouv.fr/cedef/taux-tva-france-et-union-europeenne",
        "office_note": "The ministry's sentence as three papers print it alike (read); the page itself was not",
    },
    "IT": {
        "source": "D.P.R. 633/1972, article 16",
        "address": "https://www.normattiva.it/uri-res/N2Ls?urn:nir:stato:decreto.del.presidente.della.repubblica:1972-10-26;633~art16",
        "office_note": "The article as two papers print it (read): 22 per cent; in the new code article 34 of D.Lgs. 10/2026",
    },
    "NL": {
        "source": "Wet op de omzetbelasting 1968, article 9",
        "address": "https://wetten.overheid.nl/BWBR0002629",
        "office_note": _ALIKE,
    },
    "SE": {
        "source": "Mervärdesskattelag (2023:200), chapter 9, § 2",
        "address": "https://www.riksdagen.se",
        "office_note": "A copy of the paragraph as it stands until 2028-01-01 and from then on, 25 per cent both (read)",
    },
}
TARIC = "https://ec.europa.eu/taxation_customs/dds2/taric/taric_consultation.jsp"
TAX_DATABASE = "https://ec.europa.eu/taxation_customs/tedb/"
STEERING = {"CY": "right", "IE": "right", "MT": "right"}
PREFERENCE_DAYS = {"valid_from": "2026-07-01", "valid_to": "2029-12-31"}
PREFERENCE_SOURCE = {
    "source": "Regulation (EU) 2026/1455; proof of origin: Implementing Regulation (EU) 2026/1422, article 59a",
    "trust": "second hand",
    "office_note": "Both regulations as owlbrief.com tells them; that cars made in the United States come in free: press. "
    "The annex with its tariff codes was looked for again on 2026-11-28 and not found, so the full duty is counted. A program "
    "that reads the annex finds all of chapter 85 there (second hand); a Polish dealer's page of August 2026 says that electric "
    "cars are left out (second hand)",
    "address": "https://eur-lex.europa.eu/legal-content/EN/TXT/?uri=CELEX:32026R1455",
}

_CRITERIA = (
    "At least 30 years old; original state without substantial changes to chassis, body, steering, brakes, transmission, "
    "suspension or engine; model no longer made. Its customs decide; ask beforehand"
)
_NOTE = "Registration tax is not counted"
US_ORIGIN = (
    "What was made in the United States comes in free of duty from 2026-07-01 to 2029-12-31, with proof of that origin and of "
    "carriage straight from there, if annex I of the regulation names its tariff code: have a customs broker confirm it for "
    "headings 8703 and 8711. Both sums are shown, the full one is counted. Collector's pieces (9705) are free of duty in any case"
)
BACK_TO_THE_UNION = (
    "A vehicle that left the European Union as its goods and comes back within three years, in the state in which it left, is "
    "free of duty on application, with proof"
)


def countries(cells: dict[str, str]) -> dict[str, str]:
    """Return the row of sheet Countries for a state."""
    return {
        "country": cells["country"],
        "name": cells["name"],
        "currency": cells["currency"],
        "steering": STEERING.get(cells["country"], "left; right-hand drive may be registered"),
        "collector_from_years": "30",
        "collector_criteria": _CRITERIA,
        "note": _NOTE,
        "source": "Combined Nomenclature, additional note to chapter 97, since 2014-01-01",
        "trust": "read",
        "checked_on": "2026-11-25",
    }


def entry_rules(cells: dict[str, str]) -> Iterator[dict[str, str]]:
    """Yield the rows of sheet Entry rules for a state: what its customs ask by where the vehicle was built."""
    own = {"country": cells["country"], "answer": "warns"}
    yield {
        **own,
        "rule": US_ORIGIN,
        "built_in": "US",
        **PREFERENCE_SOURCE,
    }
    yield {
        **own,
        "rule": BACK_TO_THE_UNION,
        "built_in": "; ".join(line.split(" | ")[0].strip() for line in STATES.strip().splitlines()),
        "source": "Regulation (EU) No 952/2013, article 203",
        "trust": "read",
        "checked_on": READ_ON,
    }


def import_charges(cells: dict[str, str]) -> Iterator[dict[str, str]]:
    """Yield the rows of sheet Import charges for a state, in the order in which they count."""
    own = {"country": cells["country"]}
    duty = {**own, "kind": "duty", "treatment": "ordinary", "base": "CIF"}
    tariff = "Common Customs Tariff"
    yield {
        **duty,
        "code": "duty",
        "label": "Customs duty, motor car",
        "motorcycle": "no",
        "percent_ppm": "10 %",
        "source": f"{tariff}, heading 8703",
        "trust": "second hand",
        "address": TARIC,
        "office_note": "Customs guides; a copy of TARIC prints 10 % against all countries for 8703 80 10 10 (celna24.de)",
    }
    motorcycle = {
        **duty,
        "motorcycle": "yes",
        "source": f"{tariff}, heading 8711: 6 %, up to 250 cc 8 %",
        "trust": "second hand",
        "address": TARIC,
    }
    yield {**motorcycle, "code": "duty-motorcycle", "label": "Customs duty, motorcycle", "percent_ppm": "6 %"}
    yield {
        **motorcycle,
        "code": "duty-small",
        "label": "Customs duty, further, motorcycle up to 250 cc",
        "engine_up_to_cc": "250",
        "percent_ppm": "2 %",
    }
    tax = {**own, "kind": "tax", "code": "vat", "base": "CIF, duty and onward carriage"}
    yield {
        **tax,
        "treatment": "ordinary",
        "label": "Value added tax (VAT)",
        "percent_ppm": cells["vat"],
        **_standard_rate(cells),
    }
    yield {
        **tax,
        "treatment": "collector",
        "label": "Value added tax (VAT), collector's piece (9705), no duty",
        "percent_ppm": cells["vat"],
        "source": "Standard rate; ask whether a reduced one applies",
        "trust": cells["vat_known"],
        **COLLECTOR_RATES.get(cells["country"], {}),
    }


def _standard_rate(cells: dict[str, str]) -> Mapping[str, str]:
    """Return where a state's standard rate is from and how it was learnt."""
    law = STANDARD_RATES.get(cells["country"])
    if law is None:
        return {"source": "Standard rate", "trust": cells["vat_known"], "address": TAX_DATABASE}
    return {"trust": "partly read", "checked_on": READ_ON, **law, "source": f"Standard rate: {law['source']}"}


def preference(cells: dict[str, str]) -> dict[str, str]:
    """Return the row of sheet Import charges for what is made in the United States, with proof: no duty, and the standard tax."""
    return {
        **PREFERENCE_SOURCE,
        "country": cells["country"],
        "code": "vat",
        "label": "Value added tax (VAT), made in the United States with proof of it, no duty",
        "kind": "tax",
        "treatment": "preference",
        "built_in": "US",
        "percent_ppm": cells["vat"],
        "base": "CIF, duty and onward carriage",
        "source": f"Standard rate; no duty: {PREFERENCE_SOURCE['source']}",
        **PREFERENCE_DAYS,
    }
