"""Where facts are looked up: the authorities' own pages, by country and by what a source begins with.

The addresses are from memory; that one stands in a row says nothing of whether anybody read the page.
"""

from collections.abc import Mapping
from typing import Any, cast

from shipcalc.ratebook.workbook.columns import Row
from shipcalc.records import replace

BY_COUNTRY: Mapping[str, str] = {
    "AE": "https://www.fca.gov.ae",
    "AU": "https://www.abf.gov.au/importing-exporting-and-manufacturing/importing/how-to-import/import-of-vehicles",
    "BE": "https://financien.belgium.be/nl/douane_accijnzen",
    "CA": "https://www.cbsa-asfc.gc.ca/import/vehicle-vehicule-eng.html",
    "CH": "https://www.bazg.admin.ch",
    "DE": "https://www.zoll.de",
    "DK": "https://info.skat.dk",
    "ES": "https://sede.agenciatributaria.gob.es",
    "FI": "https://tulli.fi/en",
    "FR": "https://www.douane.gouv.fr",
    "GB": "https://www.gov.uk/importing-vehicles-into-the-uk",
    "IT": "https://www.adm.gov.it",
    "JP": "https://www.customs.go.jp/english",
    "MX": "https://www.sat.gob.mx",
    "NL": "https://www.belastingdienst.nl",
    "NO": "https://www.toll.no",
    "NZ": "https://www.customs.govt.nz",
    "PL": "https://granica.gov.pl",
    "SA": "https://zatca.gov.sa",
    "SE": "https://www.tullverket.se",
    "ZA": "https://www.sars.gov.za",
}
BY_SOURCE = {
    "49 CFR": "https://www.ecfr.gov/current/title-49",
    "19 CFR": "https://www.ecfr.gov/current/title-19",
    "15 CFR": "https://www.ecfr.gov/current/title-15",
    "46 CFR": "https://www.ecfr.gov/current/title-46",
    "40 CFR": "https://www.ecfr.gov/current/title-40",
    "Regulation (EU)": "https://eur-lex.europa.eu",
    "Combined Nomenclature": "https://ec.europa.eu/taxation_customs/dds2/taric/taric_consultation.jsp",
    "UK Global Tariff": "https://www.trade-tariff.service.gov.uk/headings/8703",
    "CBP": "https://www.cbp.gov/trade/basic-import-export/exporting-motor-vehicle",
}


def addressed(rows: tuple[Row, ...]) -> tuple[Row, ...]:
    """Return rows of a sheet of facts, those without an address of their own with one that fits."""
    return tuple(_addressed(row) for row in rows)


def _addressed(row: Row) -> Row:
    source = getattr(row, "source", None) or ""
    if getattr(row, "address", None) or not hasattr(row, "address") or source.startswith("common practice"):
        return row
    found = next((address for begins, address in BY_SOURCE.items() if source.startswith(begins)), "")
    found = found or BY_COUNTRY.get(getattr(row, "country", ""), "")
    own: Any = row
    return cast(Row, replace(own, address=found)) if found else row
