"""The sheets of `paperwork.xlsx` about the buyer's country: countries, import charges, entry rules, holds.

Every figure here is an estimate for the buyer's side, with its source, how far to trust it, and the day it was checked. What is
due is decided by the customs of the country; a licensed customs broker says so beforehand.
"""

from datetime import date

from shipcalc.ratebook.rows.sourced import (
    address_column,
    checked_on_column,
    fact_from_column,
    fact_to_column,
    office_note_column,
    trust_column,
)
from shipcalc.ratebook.workbook.columns import Kind, Row, column
from shipcalc.ratebook.workbook.conditions import Condition
from shipcalc.ratebook.workbook.themes import Theme
from shipcalc.records import dataclass
from shipcalc.trade import IMPORT_TREATMENTS

BASES_OF_IMPORT = (
    "FOB",
    "CIF",
    "FOB and duty",
    "CIF and duty",
    "CIF, duty and onward carriage",
    "CIF, duty and tax",
    "FOB + 10 % and duty",
)
CLASSES = ("duty", "tax")
ANSWERS = ("bars", "restricts", "warns")
HOLDS = ("refused", "to be released", "released")


@dataclass(frozen=True, slots=True, kw_only=True)
class Country(Row):
    """One destination country: what its customs count from, and when a collector's vehicle may be treated as one."""

    country: str = column("Country", Kind.CODE, "Two letters (ISO 3166-1).", example="DE", required=True)
    name: str = column("Name", Kind.TEXT, "Its name.", example="Germany", required=True)
    currency: str = column("Currency", Kind.CODE, "Three letters (ISO 4217).", example="EUR", required=True)
    steering: str | None = column("Steering", Kind.TEXT, "What it registers: left, right or both.", example="both")
    collector_from_years: int | None = column(
        "Collector from (years)",
        Kind.WHOLE,
        "Age from which the customs may treat a vehicle as a collector's piece. Blank: no such treatment known.",
        example="30",
    )
    collector_criteria: str | None = column(
        "Collector criteria",
        Kind.TEXT,
        "What else the customs will ask for.",
        example="original state, model no longer made",
    )
    note: str | None = column("Note", Kind.TEXT, "What the buyer should know.", example="")
    source: str | None = column(
        "Source",
        Kind.TEXT,
        "The law, or who says so; the buyer may read it.",
        example="Combined Nomenclature, additional note to chapter 97",
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    checked_on: date | None = checked_on_column()
    address: str | None = address_column()
    valid_from: date | None = fact_from_column()
    valid_to: date | None = fact_to_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportCharge(Row):
    """One duty or tax of one country: rows apply in the order of the sheet, and later ones may count on earlier ones."""

    country: str = column(
        "Country",
        Kind.CODE,
        "As on sheet Countries.",
        example="DE",
        required=True,
        refers_to="Countries",
        condition=Condition("to_country", "is"),
    )
    code: str = column(
        "Code", Kind.CODE, "A short name, one for each row of a country and treatment.", example="duty", required=True
    )
    label: str = column(
        "Label", Kind.TEXT, "What the buyer reads.", example="Customs duty, passenger car", required=True
    )
    kind: str = column(
        "Kind",
        Kind.CHOICE,
        "duty or tax: what later rows' bases mean by the two.",
        choices=CLASSES,
        example="duty",
        required=True,
    )
    treatment: str | None = column(
        "Treatment",
        Kind.CHOICE,
        "ordinary, collector, or preference: with proof of origin, shown beside what is counted; blank: all.",
        choices=IMPORT_TREATMENTS,
        example="ordinary",
        condition=Condition("treatment", "is", unknown="not met"),
    )
    age_from: int | None = column(
        "Age from (years)",
        Kind.WHOLE,
        "Only vehicles at least this old.",
        example="",
        condition=Condition("age_years", "from", unknown="not met"),
    )
    age_under: int | None = column(
        "Age under (years)",
        Kind.WHOLE,
        "Only vehicles younger than this.",
        example="",
        condition=Condition("age_years", "under", unknown="not met"),
    )
    built_in: tuple[str, ...] = column(
        "Built in",
        Kind.LIST,
        "Only vehicles built in these countries, divided by ;",
        example="US",
        condition=Condition("built_in", "one of", unknown="not met"),
    )
    not_built_in: tuple[str, ...] = column(
        "Not built in",
        Kind.LIST,
        "Only vehicles not built in these countries, divided by ;",
        example="",
        condition=Condition("built_in", "none of", unknown="met"),
    )
    engine_over_cc: int | None = column(
        "Engine over (cc)",
        Kind.WHOLE,
        "Only larger engines.",
        example="",
        condition=Condition("engine_cc", "over", unknown="not met"),
    )
    engine_up_to_cc: int | None = column(
        "Engine up to (cc)",
        Kind.WHOLE,
        "Only engines up to this.",
        example="",
        condition=Condition("engine_cc", "up to", unknown="not met"),
    )
    motorcycle: bool | None = column(
        "Motorcycle",
        Kind.YES_NO,
        "yes: only motorcycles. no: everything else. Blank: any.",
        example="no",
        condition=Condition("motorcycle", "is"),
    )
    body: tuple[str, ...] = column(
        "Body",
        Kind.LIST,
        "Only vehicles whose body holds one of these words, divided by ; — blank: any.",
        example="",
        condition=Condition("body", "has a word of", unknown="not met"),
    )
    not_body: tuple[str, ...] = column(
        "Not body",
        Kind.LIST,
        "Not vehicles whose body holds one of these words, divided by ;",
        example="camper",
        condition=Condition("body", "has no word of", unknown="met"),
    )
    percent_ppm: int | None = column("Percent", Kind.PERCENT, "Of the base.", example="10 %")
    base: str | None = column(
        "Of",
        Kind.CHOICE,
        "The base. FOB: price and carriage to the ship. CIF: the same with ocean freight and cover.",
        choices=BASES_OF_IMPORT,
        example="CIF",
        theme=Theme.PRICE,
    )
    above: float | None = column(
        "Above (local currency)",
        Kind.FACTOR,
        "Only the part of the base above this sum.",
        example="",
        theme=Theme.PRICE,
    )
    flat: float | None = column(
        "Flat (local currency)", Kind.FACTOR, "A sum in place of a percentage.", example="", theme=Theme.PRICE
    )
    source: str | None = column(
        "Source", Kind.TEXT, "The law, or who says so; the buyer may read it.", example="Customs Tariff"
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    checked_on: date | None = checked_on_column()
    address: str | None = address_column()
    valid_from: date | None = fact_from_column()
    valid_to: date | None = fact_to_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryRule(Row):
    """A rule of entry that is said before the price: it bars the vehicle, restricts it, or warns of what must be done."""

    country: str = column(
        "Country",
        Kind.COUNTRY,
        "Two letters (ISO 3166-1).",
        example="AU",
        required=True,
        condition=Condition("to_country", "is"),
    )
    answer: str = column(
        "Answer",
        Kind.CHOICE,
        "bars: no price to this country. restricts: said above the price. warns: said beside it.",
        choices=ANSWERS,
        example="warns",
        required=True,
    )
    rule: str = column(
        "Rule",
        Kind.TEXT,
        "The sentence the buyer reads.",
        example="Import approval must be in hand before the vehicle is shipped.",
        required=True,
    )
    age_from: int | None = column(
        "Age from (years)",
        Kind.WHOLE,
        "Only vehicles at least this old.",
        example="",
        condition=Condition("age_years", "from", unknown="met"),
    )
    age_under: int | None = column(
        "Age under (years)",
        Kind.WHOLE,
        "Only vehicles younger than this.",
        example="",
        condition=Condition("age_years", "under", unknown="met"),
    )
    motorcycle: bool | None = column(
        "Motorcycle",
        Kind.YES_NO,
        "yes: only motorcycles. no: everything else. Blank: any.",
        example="",
        condition=Condition("motorcycle", "is"),
    )
    built_in: tuple[str, ...] = column(
        "Built in",
        Kind.LIST,
        "Only vehicles built in these countries, divided by ;",
        example="US",
        condition=Condition("built_in", "one of", unknown="not met"),
    )
    source: str | None = column(
        "Source",
        Kind.TEXT,
        "The law, or who says so; the buyer may read it.",
        example="Road Vehicle Standards Act 2018",
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    checked_on: date | None = checked_on_column()
    address: str | None = address_column()
    valid_from: date | None = fact_from_column()
    valid_to: date | None = fact_to_column()


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold(Row):
    """A destination that is not to be quoted, or only after release by whoever is responsible for export compliance."""

    country: str = column(
        "Country",
        Kind.COUNTRY,
        "Two letters (ISO 3166-1).",
        example="KP",
        required=True,
        condition=Condition("to_country", "is"),
    )
    subdivision: str | None = column(
        "Region or city",
        Kind.TEXT,
        "A part of the country by name. Blank: all of it.",
        example="",
        condition=Condition("to_part", "is"),
    )
    hold: str = column(
        "Hold",
        Kind.CHOICE,
        "refused: never quoted. to be released: quoted once the person responsible has said yes. released: quoted, and it is said.",
        choices=HOLDS,
        example="refused",
        required=True,
    )
    reason: str = column(
        "Reason",
        Kind.TEXT,
        "The sentence the salesperson reads.",
        example="Embargoed destination (Country Group E).",
        required=True,
    )
    source: str | None = column(
        "Source",
        Kind.TEXT,
        "The law, or who says so; the buyer may read it.",
        example="15 CFR part 740, supplement 1",
    )
    trust: str | None = trust_column()
    office_note: str | None = office_note_column()
    checked_on: date | None = checked_on_column()
    address: str | None = address_column()
    valid_from: date | None = fact_from_column()
    valid_to: date | None = fact_to_column()
