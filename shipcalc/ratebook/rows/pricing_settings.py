"""The settings of the sheet Pricing: what is known, how each value is read, and the rules that come of them."""

from collections.abc import Collection, Iterator, Sequence
from datetime import date, timedelta
from decimal import Decimal

from shipcalc.errors import Problem
from shipcalc.ratebook.rows.pricing_setting import PricingSetting
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.workbook.cells import value_of
from shipcalc.ratebook.workbook.columns import Column, Kind
from shipcalc.ratebook.workbook.misread import Doubt, Misread, nearest
from shipcalc.ratebook.workbook.written import cell_of
from shipcalc.records import dataclass, replace
from shipcalc.sheets.numbers import plain
from shipcalc.trade import BALANCES, COVER_CONDITIONS, DELIVERY_TERMS


@dataclass(frozen=True, slots=True)
class Setting:
    """One known setting: its name on the sheet, the field it fills, how its value is read and shown."""

    name: str
    field: str
    kind: Kind
    unit: str
    example: str
    note: str
    choices: tuple[str, ...] = ()
    overseas: bool = False

    @property
    def may_change(self) -> bool:
        """Return whether it may have another value for pickups from some day on: only what the price of a day is made with."""
        return self.field.startswith("markup_") or self.field == "enclosed_from_minor"


@dataclass(frozen=True, slots=True)
class _Read:
    """A row whose setting is known; `value` is None where it cannot be read."""

    row: PricingSetting
    setting: Setting
    value: object


def read_settings(
    rows: tuple[PricingSetting, ...], *, sells_overseas: bool = False
) -> tuple[PricingRules, tuple[Problem, ...]]:
    """Return the rules that the rows of the sheet Pricing set, and what is wrong with them.

    A setting that is not there keeps its default; one that only overseas quotes need is missed only where `sells_overseas`.
    """
    known = {setting.name.casefold(): setting for setting in SETTINGS}
    currency = _currency(rows)
    found: list[_Read] = []
    problems: list[Problem] = []
    for row in rows:
        setting = known.get(row.setting.casefold())
        if setting is None:
            problems.append(_unknown(row))
        elif twin := next((one for one in found if one.setting is setting and _share_a_day(one.row, row)), None):
            message = f'"{setting.name}" is set twice'
            problems.append(
                Problem(row.at.cell("setting"), message, f"remove it here or at {twin.row.at.cell('value')}")
            )
        else:
            value, wrong = _value(row, setting, currency)
            problems.extend((*_without_days(row, setting), *wrong))
            found.append(_Read(row, setting, value))
    rules = _rules_of(found)
    named = {one.setting.name for one in found}
    return rules, (*problems, *_backwards(rules), *_unset(rows, named, sells_overseas), *_gaps(found, rules))


def _rules_of(found: Sequence[_Read]) -> PricingRules:
    """Return the rules of the first days, with those that follow."""
    begins = (one.row.valid_from for one in found if one.row.valid_from)
    ends = (one.row.valid_to + timedelta(days=1) for one in found if one.row.valid_to and one.row.valid_to < date.max)
    later = tuple((day, _rules_on(found, day)) for day in sorted({*begins, *ends}))
    return replace(_rules_on(found, date.min), later=later)


def _rules_on(found: Sequence[_Read], day: date) -> PricingRules:
    held = [one for one in found if _begins(one.row) <= day <= (one.row.valid_to or date.max)]
    values = {one.setting.field: one.value for one in held if one.value is not None}
    cells = {one.setting.name: one.row.at.cell("value") for one in held}
    return PricingRules(**values, cells=cells)  # type: ignore[arg-type]


def _begins(row: PricingSetting) -> date:
    return row.valid_from or date.min


def _share_a_day(one: PricingSetting, other: PricingSetting) -> bool:
    return _begins(one) <= (other.valid_to or date.max) and _begins(other) <= (one.valid_to or date.max)


def _without_days(row: PricingSetting, setting: Setting) -> Iterator[Problem]:
    """Yield that a setting has one value for all days, where its row has a day."""
    dated = next((field for field in ("valid_from", "valid_to") if getattr(row, field) is not None), None)
    if dated is not None and not setting.may_change:
        message = f'"{setting.name}" has one value for all days'
        yield Problem(
            row.at.cell(dated), message, "clear the date; another value goes into a copy that waits for its day"
        )


def _gaps(found: Sequence[_Read], rules: PricingRules) -> Iterator[Problem]:
    """Yield where a setting that has a value on some days of the book has none on others."""
    first, last = rules.valid_from or date.min, rules.valid_to or date.max
    begins = [first, *(day for day, _ in rules.later if first < day <= last)]
    for number, day in enumerate(begins):
        of_day = rules.of_day(day).cells
        until = begins[number + 1] - timedelta(days=1) if number + 1 < len(begins) else last
        missing = {one.setting.name: one for one in found if one.setting.name not in of_day and one.setting.may_change}
        for name, one in missing.items():
            days = f"from {day} to {until}" if until < date.max else f"from {day} on"
            message = f'"{name}" has no value for pickups {days}'
            field = "valid_from" if _begins(one.row) > day else "valid_to"
            yield Problem(one.row.at.cell(field), message, "let a row begin sooner or end later", "warning")


def currency_of(rows: tuple[PricingSetting, ...]) -> str:
    """Return the currency that amounts of the whole book are in."""
    return _currency(rows)


def _currency(rows: tuple[PricingSetting, ...]) -> str:
    found = next((row.value.upper() for row in rows if row.setting.casefold() == "currency"), "USD")
    return found if _is_currency(found) else "USD"


def _is_currency(code: str) -> bool:
    return len(code) == 3 and code.isascii() and code.isalpha()


def _value(row: PricingSetting, setting: Setting, currency: str) -> tuple[object, tuple[Problem, ...]]:
    where = row.at.cell("value")
    if setting.field == "currency":
        code = row.value.upper()
        if not _is_currency(code):
            wrong = f'"{row.value}" is not the code of a currency'
            return None, (Problem(where, wrong, "write its three letters (ISO 4217), e.g. USD"),)
        return code, ()
    try:
        value = value_of(row.value, _column(setting), currency)
    except Misread as misread:
        return None, (Problem(where, misread.message, misread.remedy),)
    if setting.field in _ABOVE_ZERO and value == 0:
        return None, (Problem(where, f'"{setting.name}" is zero', f"write {setting.unit}, e.g. {setting.example}"),)
    if isinstance(value, Doubt):
        return value.value, (Problem(where, value.message, value.remedy, "warning"),)
    return value, ()


def find_setting(row: PricingSetting) -> tuple[Column, object] | None:
    """Return what a row's value is and, as its kind keeps it, how much; None where nobody knows or it cannot be read."""
    setting = next((one for one in SETTINGS if one.name.casefold() == row.setting.casefold()), None)
    if setting is None:
        return None
    column = _column(setting)
    try:
        value = value_of(row.value, column, "USD")
    except Misread:
        return None
    return None if isinstance(value, Doubt) else (column, value)


def spelt(row: PricingSetting) -> PricingSetting:
    """Return a row with its value as people write it, so that 14 % typed as text and as a number say the same."""
    found = find_setting(row)
    if found is None:
        return row
    column, value = found
    cell = cell_of(value, column, "USD")
    if column.kind is Kind.PERCENT and isinstance(cell, Decimal):
        return replace(row, value=f"{plain(cell.scaleb(2))} %")
    number = isinstance(cell, int | float | Decimal) and not isinstance(cell, bool)
    return replace(row, value=plain(Decimal(str(cell))) if number else str(cell))


def _column(setting: Setting) -> Column:
    header = f"{setting.name} ($)" if setting.kind is Kind.MONEY else setting.name
    return Column(header, setting.kind, setting.note, setting.example, choices=setting.choices)


def _unknown(row: PricingSetting) -> Problem:
    near = nearest(row.setting, (setting.name for setting in SETTINGS))
    names = ", ".join(setting.name for setting in SETTINGS)
    remedy = f'write "{near}" if that is meant, or remove the row' if near else f"the known ones are: {names}"
    return Problem(row.at.cell("setting"), f'there is no setting "{row.setting}"', remedy)


def _backwards(rules: PricingRules) -> Iterator[Problem]:
    if rules.valid_from and rules.valid_to and rules.valid_to < rules.valid_from:
        yield Problem(
            rules.cells["Valid to"],
            f"the rate book ends on {rules.valid_to}, before it begins on {rules.valid_from}",
            "swap the two dates or correct the year",
        )
    if rules.farthest_export_port_mi > _LONGEST_ROAD_MI:
        yield Problem(
            rules.cells["Farthest export port (mi)"],
            f"{rules.farthest_export_port_mi:,} miles is farther than any road leads",
            f"write what a truck may drive to a port, {_LONGEST_ROAD_MI:,} at the most",
        )


def _unset(rows: tuple[PricingSetting, ...], named: Collection[str], sells_overseas: bool) -> Iterator[Problem]:
    """A markup that nobody set is none: said, since every price hangs on it."""
    for setting in SETTINGS if rows else ():
        is_asked_for = sells_overseas or not setting.overseas
        if setting.field.startswith("markup_") and is_asked_for and setting.name not in named:
            where = f"{rows[0].at.workbook} › {rows[0].at.sheet}"
            message = f'there is no setting "{setting.name}", so nothing is added'
            yield Problem(
                where, message, f"add a row with it, e.g. {setting.example}, or 0 % if that is meant", "warning"
            )


# More than from Key West to the end of the Alaskan roads (5,500 miles; from memory).
_LONGEST_ROAD_MI = 6_000
_ABOVE_ZERO = frozenset(
    (
        "rounding_step_minor",
        "days_valid",
        "road_speed_mph",
        "miles_a_day",
        "fuel_stale_after_days",
        "source_stale_after_days",
        "farthest_export_port_mi",
        "currency_stale_after_days",
    )
)

SETTINGS = (
    Setting(
        "Currency",
        "currency",
        Kind.CODE,
        "three letters (ISO 4217)",
        "USD",
        "The currency of every amount in this workbook.",
    ),
    Setting("Valid from", "valid_from", Kind.DATE, "date", "2026-01-01", "First day these prices may be quoted."),
    Setting("Valid to", "valid_to", Kind.DATE, "date", "2027-12-31", "Last day these prices may be quoted."),
    Setting(
        "Markup on linehaul",
        "markup_linehaul_ppm",
        Kind.PERCENT,
        "percent",
        "14 %",
        "Added to the carrier's base fee and miles, and to seasons.",
    ),
    Setting("Markup on fuel", "markup_fuel_ppm", Kind.PERCENT, "percent", "0 %", "Added to the fuel surcharge."),
    Setting(
        "Markup on extra charges",
        "markup_extras_ppm",
        Kind.PERCENT,
        "percent",
        "10 %",
        "Added to extra charges and to charges of areas.",
    ),
    Setting(
        "Rounding step",
        "rounding_step_minor",
        Kind.MONEY,
        "dollars",
        "5",
        "The total is rounded up to a multiple of this.",
    ),
    Setting("Days valid", "days_valid", Kind.WHOLE, "days", "14", "How long a quote may be accepted."),
    Setting("Deposit", "deposit_ppm", Kind.PERCENT, "percent of the total", "20 %", "Due when the buyer accepts."),
    Setting(
        "Enclosed from",
        "enclosed_from_minor",
        Kind.MONEY,
        "dollars",
        "75000",
        "From this value of the vehicle on, an enclosed trailer is recommended. No row: never for the value alone.",
    ),
    Setting(
        "Road speed (mph)",
        "road_speed_mph",
        Kind.FACTOR,
        "miles an hour",
        "55",
        "Average speed while driving: how soon a driver may lawfully be there.",
    ),
    Setting(
        "Fuel price stale after (days)",
        "fuel_stale_after_days",
        Kind.WHOLE,
        "days",
        "14",
        "An older fuel price is a warning on every quote.",
    ),
    Setting(
        "Source stale after (days)",
        "source_stale_after_days",
        Kind.WHOLE,
        "days",
        "365",
        "The check names rows whose source was last looked at longer ago (Checked on).",
    ),
    Setting(
        "Markup, ocean freight",
        "markup_ocean_ppm",
        Kind.PERCENT,
        "percent",
        "12 %",
        "Added to ocean freight.",
        overseas=True,
    ),
    Setting(
        "Markup, ports, papers and on-carriage",
        "markup_port_ppm",
        Kind.PERCENT,
        "percent",
        "10 %",
        "Added to charges of ports, containers and papers, and to carriage from the arrival port.",
        overseas=True,
    ),
    Setting(
        "Overseas term",
        "overseas_term",
        Kind.CHOICE,
        "delivery term (Incoterms 2020)",
        "DAP",
        "The delivery term of an overseas quote, unless another is asked for.",
        choices=DELIVERY_TERMS,
        overseas=True,
    ),
    Setting(
        "Cover conditions",
        "cover_conditions",
        Kind.CHOICE,
        "A, B or C",
        "A",
        "The marine cover of an overseas quote, unless the delivery term asks for more.",
        choices=COVER_CONDITIONS,
        overseas=True,
    ),
    Setting(
        "Farthest export port (mi)",
        "farthest_export_port_mi",
        Kind.MILES,
        "road miles",
        "3500",
        "Ports farther from the yard by road than this are not considered.",
        overseas=True,
    ),
    Setting(
        "Currency rate stale after (days)",
        "currency_stale_after_days",
        Kind.WHOLE,
        "days",
        "14",
        "An older rate of exchange is a warning on every quote that uses it.",
        overseas=True,
    ),
    Setting(
        "Balance due",
        "balance_due",
        Kind.CHOICE,
        ", ".join(BALANCES),
        "before pickup",
        "When the rest of the price is due: quotes say it, and the tasks of the checklist follow it.",
        choices=BALANCES,
    ),
    Setting(
        "Miles a day",
        "miles_a_day",
        Kind.WHOLE,
        "road miles",
        "450",
        "How far a truck gets in a day with its other stops, where the sheet Carriers does not say.",
    ),
)
