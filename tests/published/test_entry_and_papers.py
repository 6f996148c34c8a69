"""Ages, limits of days, fees and forms in the shipped rows against what is published, each with its source and how it was learnt.

`read`: the source itself was looked at on 28 November 2026, at least the part that says so; `second hand`: a text that tells of it.
What stands in the rows is looked for by its figure, in the row that a vehicle of the right age and country is told.
"""

import re
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from shipcalc.ratebook.book import RateBook, read_rate_book

UNION = "AT BE BG CY CZ DE DK EE ES FI FR GR HR HU IE IT LT LU LV MT NL PL PT RO SE SI SK".split()


@cache
def shipped() -> RateBook:
    return read_rate_book(Path(__file__).parents[2] / "rates")


def rules(country: str, *, age: int, built_in: str = "", motorcycle: bool = False) -> dict[str, str]:
    """Return what a vehicle is told on entry, by answer."""
    told: dict[str, str] = {}
    for row in shipped().entry_rules:
        if (
            row.country == country
            and (row.age_from is None or age >= row.age_from)
            and (row.age_under is None or age < row.age_under)
            and row.motorcycle in (None, motorcycle)
            and (not row.built_in or built_in in row.built_in)
        ):
            told[row.answer] = f"{told.get(row.answer, '')} {row.rule}".strip()
    return told


def papers(code: str, country: str = "") -> str:
    """Return what documents and tasks of a code say, for a country where they name any."""
    fields = ("document", "task", "copies", "note")
    return " ".join(
        str(getattr(row, field, None) or "")
        for row in (*shipped().documents, *shipped().tasks)
        if row.code == code and (not country or country in row.to_country)
        for field in fields
    )


# Country, age, where built, answer, what must stand in the rule, who says so.
ENTRY = [
    ("GB", 40, "", "warns", r"\b14 days\b", "gov.uk, Telling HMRC (read)"),
    ("GB", 8, "", "warns", r"\bten years\b", "gov.uk, vehicles over 10 years old, as a carrier's page has it (second hand)"),
    ("DE", 40, "", "warns", r"\b30 years\b", "FZV § 2 no. 22, as a commentary quotes it (second hand)"),
    ("FR", 40, "", "warns", r"\b846 A\b", "demarches-simplifiees.fr, certificat de dédouanement 846 A (read)"),
    ("SE", 40, "US", "warns", r"2026-07-01 to 2029-12-31", "Regulation (EU) 2026/1455, as owlbrief.com tells it (second hand)"),
    ("SE", 40, "US", "warns", r"carriage straight from there", "Implementing Regulation (EU) 2026/1422, article 59a (second hand)"),
    ("SE", 40, "DE", "warns", r"\bthree years\b", "Regulation (EU) 952/2013, article 203(1), legislation.gov.uk (read)"),
    ("SE", 40, "DE", "warns", r"state in which it left", "Regulation (EU) 952/2013, article 203(5) (read)"),
    ("AE", 15, "", "restricts", r"\bten years\b", "askexplorer.com and uaeexperthub.com (second hand)"),
    ("AE", 40, "", "restricts", r"\b30 years old need a permit\b", "uaeexperthub.com, 2026 (second hand)"),
    ("SA", 8, "", "restricts", r"\bfive years\b", "Zakat, Tax and Customs Authority, as Enterprise tells it (second hand)"),
    ("SA", 8, "", "restricts", r"20,000 SAR at least, 20 to 50 %", "the same (second hand)"),
    ("SA", 40, "", "restricts", r"30 years .* not for use", "Urdu News on the authority's statement (second hand)"),
    ("KW", 8, "", "restricts", r"\bfive years\b", "yallamotor.com, 2025, and two shipping agents' lists (second hand)"),
    ("JP", 40, "", "warns", r"freight account, premium and bill of lading", "Japan Customs, answer 1109 (read)"),
    ("JP", 40, "", "warns", r"\bC-8050\b", "Japan Customs, answer 1109 (read)"),
    ("JP", 40, "", "warns", r"October 2023", "tglog.co.uk (second hand)"),
    ("AU", 20, "", "restricts", r"\b25 years\b", "Guidance for importing a vehicle that is at least 25 years old, title (read)"),
    ("AU", 40, "", "restricts", r"before the vehicle is shipped", "Importing vehicles into Australia, 2015 (read)"),
    ("NZ", 10, "", "restricts", r"less than 20 years", "NZTA, left-hand drive, category A (read)"),
    ("NZ", 10, "", "restricts", r"\b500 a year\b", "NZTA, left-hand drive, category A (read)"),
    ("NZ", 40, "", "warns", r"entry certification", "New Zealand Customs, Fact Sheet 29 (read)"),
    ("CA", 10, "", "restricts", r"less than 15 years", "riv.ca, exemptions (read)"),
    ("CA", 40, "", "warns", r"15 years .* prove its age", "riv.ca, exemptions (read)"),
    ("CA", 40, "", "warns", r"\b72 business hours\b", "19 CFR 192.2(c); the registrar's page (second hand)"),
    ("MX", 20, "", "restricts", r"30 November 2026", "mundoaduanero.mx and tribunademexico.com (second hand)"),
    ("ZA", 45, "", "restricts", r"\b40 years\b", "Rebate item 460.17/87.03/04.04, guidelines of ITAC 2017 (read)"),
    ("ZA", 45, "", "restricts", r"not for daily transport", "the same guidelines, title (read)"),
]  # fmt: skip


@pytest.mark.parametrize(("country", "age", "built_in", "answer", "says", "source"), ENTRY)
def test_a_rule_of_entry_is_the_published_one(
    country: str, age: int, built_in: str, answer: str, says: str, source: str
) -> None:
    assert re.search(says, rules(country, age=age, built_in=built_in).get(answer, "")), source


# Country, an age at which the published limit no longer holds, the answer, what must not stand there any more.
BEYOND = [
    ("GB", 12, "warns", r"ten years"),
    ("AE", 9, "restricts", r"."),
    ("SA", 5, "restricts", r"."),
    ("KW", 5, "restricts", r"."),
    ("NZ", 22, "restricts", r"."),
    ("CA", 17, "restricts", r"."),
    ("MX", 30, "restricts", r"."),
    ("AU", 25, "restricts", r"25 years"),
]


@pytest.mark.parametrize(("country", "age", "answer", "gone"), BEYOND)
def test_beyond_the_published_age_the_rule_is_not_told(country: str, age: int, answer: str, gone: str) -> None:
    """The same sources as above."""
    assert not re.search(gone, rules(country, age=age).get(answer, ""))


# Code, country, what must stand in the rows, who says so.
PAPERS = [
    ("title-export", "", r"original and 2 copies of both sides", "19 CFR 192.1, 192.2(b)(1) (definitions read)"),
    ("title-export", "", r"72 hours before it is loaded", "19 CFR 192.2(c), as importexporthelp.com tells it (second hand)"),
    ("papers-presented", "", r"72 hours before the border, the vehicle when it crosses", "the same (second hand)"),
    ("export-filing", "", r"72 hours before export", "15 CFR 30.4(b)(5), flyer of customs and census (read earlier)"),
    ("export-filing", "", r"Whatever the value, to Canada too", "15 CFR 30.2(a)(1)(iv)(H); 76 FR 4002 proposes it (read)"),
    ("shipper-instruction", "", r"no post box", "15 CFR 30.6(a)(1)(ii) (read)"),
    ("odometer", "", r"2010 and earlier is exempt", "49 CFR 580.17(a)(3) (read)"),
    ("odometer", "", r"from model year 2011 on, .* for 20 years", "49 CFR 580.17(a)(4) (read)"),
    ("claim", "", r"less than 9 months to claim, nor less than 2 years to sue", "49 USC 14706(e)(1) (second hand)"),
    ("claim-receipt", "", r"\b30 days\b", "49 CFR 370.5; for part 378 the same: jjkellercompliancenetwork.com (second hand)"),
    ("claim-answer", "", r"\b120 days\b.*\b60 days\b", "49 CFR 370.9 (second hand)"),
    ("customs-certificate", "GB", r"\b14 days\b", "gov.uk, Telling HMRC (read)"),
    ("customs-certificate", "FR", r"\b846 A\b", "demarches-simplifiees.fr (read)"),
    ("customs-certificate", "CH", r"\b13\.20 A\b", "handelskammerjournal.ch (second hand)"),
    ("age-proof", "CA", r"15 years and older", "riv.ca, exemptions (read)"),
    ("age-proof", "AU", r"25 years", "Guidance for importing a vehicle at least 25 years old, title (read)"),
    ("import-approval", "ZA", r"40 years", "Guidelines on rebate item 460.17/87.03/04.04 (read)"),
    ("conformity", "CA", r"younger than 15 years", "riv.ca, exemptions (read)"),
    ("stink-bug", "AU", r"1 September to 30 April", "Australian department of agriculture, seasonal measures (read earlier)"),
]  # fmt: skip


@pytest.mark.parametrize(("code", "country", "says", "source"), PAPERS)
def test_a_paper_or_task_says_what_is_published(code: str, country: str, says: str, source: str) -> None:
    assert re.search(says, papers(code, country)), source


@pytest.mark.parametrize("country", UNION)
def test_a_collectors_piece_is_at_least_thirty_years_old_in_the_union(country: str) -> None:
    """Additional note to chapter 97: customs.gov.mt, guidelines of 2018; tullverket.se, Samlarfordon; granica.gov.pl (all read)."""
    (row,) = (row for row in shipped().countries if row.country == country)
    assert row.collector_from_years == 30


@pytest.mark.parametrize("country", UNION)
def test_with_proof_of_origin_nothing_but_the_tax_is_asked_and_only_while_the_regulation_holds(country: str) -> None:
    """From 1 July 2026 to 31 December 2029: Regulation (EU) 2026/1455, owlbrief.com and press (second hand)."""
    (row,) = (row for row in shipped().import_charges if row.country == country and row.treatment == "preference")
    assert (row.kind, row.built_in) == ("tax", ("US",))
    assert (row.valid_from, row.valid_to) == (date(2026, 7, 1), date(2029, 12, 31))


def test_canada_frees_of_duty_and_surtax_what_is_more_than_25_years_old() -> None:
    """Tariff item 9966.00.00: cbsa.gc.ca, memorandum D10-15-20, 2014 (read)."""
    rows = {row.code: row for row in shipped().import_charges if row.country == "CA"}
    assert {rows["duty"].age_under, rows["surtax"].age_under} == {25}


def test_australia_frees_of_duty_what_is_thirty_years_old() -> None:
    """Of an age of 30 years or more none: pssremovals.com, cbw.com (second hand)."""
    (row,) = (row for row in shipped().import_charges if row.country == "AU" and row.code == "duty")
    assert row.age_under == 30


def test_a_motorhome_pays_ten_percent_in_new_zealand_and_a_car_nothing() -> None:
    """New Zealand Customs, Fact Sheet 29 (read)."""
    (row,) = (row for row in shipped().import_charges if row.country == "NZ" and row.kind == "duty")
    assert row.percent_ppm == 100_000
    assert "motorhome" in row.body
