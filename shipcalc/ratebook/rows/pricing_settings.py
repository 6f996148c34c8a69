"""The rows of the sheet Pricing: how the value of each setting is read, what is wrong, and the rules that come of them."""

from collections.abc import Collection, Iterator, Sequence
from datetime import date, timedelta
from decimal import Decimal

from shipcalc.errors import Problem
from shipcalc.ratebook.rows.known_settings import SETTINGS, Setting
from shipcalc.ratebook.rows.pricing_setting import PricingSetting
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.workbook.cells import value_of
from shipcalc.ratebook.workbook.columns import Column, Kind
from shipcalc.ratebook.workbook.misread import Doubt, Misread, nearest
from shipcalc.ratebook.workbook.written import cell_of
from shipcalc.records import dataclass, replace
from shipcalc.sheets.numbers import plain


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
