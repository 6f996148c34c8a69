"""The tax that member states of the European Union ask of a collector's piece (heading 9705) on import, where it is known.

Each is the cells of its row of the sheet Import charges. A state without one asks the standard rate of it, as far as is known.
"""

from collections.abc import Mapping

READ_ON = "2026-11-28"
COLLECTOR_RATES: Mapping[str, Mapping[str, str]] = {
    "AT": {
        "percent_ppm": "13 %",
        "source": "UStG 1994, § 10 (3) with annex 2 no. 12; guidelines of the ministry of finance, margin no. 1353",
        "trust": "partly read",
        "office_note": "Guidelines of 2015 and the chamber of commerce's page of 2024 (read); the law: not read",
        "checked_on": READ_ON,
    },
    "BE": {
        "percent_ppm": "6 %",
        "source": "Royal decree no. 20, table A, heading XXI; ministry of finance on the circular of 2018",
        "trust": "partly read",
        "office_note": "That a reduced rate holds under three criteria: the ministry's page (read); 6 %: BEHVA and btw-lijn.be "
        "(second hand)",
        "checked_on": READ_ON,
    },
    "DE": {
        "percent_ppm": "7 %",
        "source": "UStG, § 12 (2) no. 12 with annex 2 no. 54",
        "trust": "second hand",
        "office_note": "A commentary on the law (haufe.de) and press that quotes the ministry",
    },
    "DK": {
        "percent_ppm": "5 %",
        "source": "Momsloven: 25 % of a fifth of the value; veteran cars: Den juridiske vejledning, D.A.18.3.4",
        "trust": "partly read",
        "office_note": "The law's words in an older numbering, and the guide of 2023-2 (read)",
        "checked_on": READ_ON,
    },
    "ES": {
        "percent_ppm": "10 %",
        "source": "Central tax tribunal, 00/02740/2022 of 21 February 2023",
        "trust": "partly read",
        "office_note": "The beginning of the decision (read); 10 % where the criteria of 9705 are met: fiscal-impuestos.com "
        "(second hand)",
        "checked_on": READ_ON,
    },
    "FR": {
        "percent_ppm": "5.5 %",
        "source": "Law 2023-1322, article 83, since 2025-01-01; circular of 16 January 2013 on collector's vehicles",
        "trust": "second hand",
        "office_note": "actu-juridique.fr on the law; a reply of the customs that quotes the circular",
    },
    "IE": {
        "percent_ppm": "23 %",
        "source": "Revenue: no reduced rate for vintage cars, which are free of duty",
        "trust": "second hand",
        "office_note": "Irish Examiner of 2021, which quotes Revenue; the standard rate on import: answer in the Dáil, "
        "6 March 2024 (read)",
    },
    "IT": {
        "percent_ppm": "5 %",
        "source": "D.P.R. 633/1972, table A, part II-bis, no. 1-nonies; decree-law 95/2025, article 9, since 2025-07-01",
        "trust": "second hand",
        "office_note": "partnerup.it, commercialistatelematico.com, vatupdate.com, July 2025: imports too",
    },
    "LU": {
        "percent_ppm": "8 %",
        "source": "Reduced rate on works of art, collectors' items and antiques",
        "trust": "second hand",
        "office_note": "An art dealer's help page and Baker McKenzie's table of rates; vehicles are not named there",
    },
    "NL": {
        "percent_ppm": "9 %",
        "source": "Belastingdienst: collectors' items, imported from outside the Union",
        "trust": "read",
        "checked_on": READ_ON,
    },
    "PL": {
        "percent_ppm": "8 %",
        "source": "granica.gov.pl, collectors' vehicles of heading 9705",
        "trust": "read",
        "checked_on": READ_ON,
    },
    "SE": {
        "percent_ppm": "12 %",
        "source": "Tullverket, collectors' vehicles of heading 9705",
        "trust": "read",
        "checked_on": READ_ON,
    },
}
