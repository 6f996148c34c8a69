"""A rate book as it is found: every row that can be read, and everything that is wrong, in the order of the sheets."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path

from shipcalc.errors import Problem, WrongInput
from shipcalc.ratebook.changes import following, identity
from shipcalc.ratebook.changes.fingerprint import fingerprint_of
from shipcalc.ratebook.checks import (
    by_day,
    carriers,
    charges,
    dates,
    diesel,
    elsewhere,
    ferries,
    ferries_abroad,
    fuel_steps,
    imports,
    lanes,
    loaded,
    loading,
    misspelt,
    names,
    neighbours,
    occasions,
    ocean,
    paperwork,
    places,
    quotations,
    service_classes,
    sorted_alone,
    sorted_column,
    stages,
    twice,
    ways,
    yards,
    years,
)
from shipcalc.ratebook.checks.gone import workbooks_are_there
from shipcalc.ratebook.checks.names import spelt_alike
from shipcalc.ratebook.checks.other_files import one_sheet_only
from shipcalc.ratebook.checks.remarks import in_order
from shipcalc.ratebook.rows.pricing_setting import PricingSetting
from shipcalc.ratebook.rows.pricing_settings import currency_of, read_settings, spelt
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.sheet_kind import NOTES, OVERVIEW, SheetKind
from shipcalc.ratebook.rows.tables import SHEETS, WORKBOOKS, Tables
from shipcalc.ratebook.rows.trucking_sheets import PRICING, TRUCKING
from shipcalc.ratebook.workbook.absent import absent_columns
from shipcalc.ratebook.workbook.columns import columns_of
from shipcalc.ratebook.workbook.headers import Own, headers_of
from shipcalc.ratebook.workbook.misread import nearest
from shipcalc.ratebook.workbook.reader import Reading, read_rows
from shipcalc.records import dataclass, replace
from shipcalc.sheets.marking import LIST_NAME
from shipcalc.sheets.reading import Sheet, WorkbookFile, read_workbook


@dataclass(frozen=True, slots=True)
class Draft:
    """What was read, and everything that is wrong with it, in the order of the sheets."""

    tables: Tables
    rules: PricingRules
    fingerprint: str
    problems: tuple[Problem, ...]


def draft_of(folder: Path) -> Draft:
    """Return what is read from the workbooks of a folder. Raises WrongInput where `trucking.xlsx` is missing or no workbook."""
    return draft_from({name: file for name in WORKBOOKS if (file := _workbook(folder, name)) is not None}, folder)


def draft_from(files: Mapping[str, WorkbookFile], folder: Path) -> Draft:
    """Return what is read from workbooks, by their names; `trucking.xlsx` is among them. `folder` is only told."""
    problems: list[Problem] = []
    problems.extend(_two_calendars(files))
    currency = currency_of(_settings(files[TRUCKING]))
    rows: dict[str, tuple[object, ...]] = {}
    unread: dict[str, frozenset[str] | None] = {}
    own: list[Own] = []
    for name, file in files.items():
        for sheet in WORKBOOKS[name]:
            reading = _reading(file, sheet, currency)
            problems.extend(reading.problems)
            own.extend(reading.own)
            rows[sheet.rows], unread[sheet.name] = reading.rows, reading.unread
        own.extend(_own_sheets(file, WORKBOOKS[name]))
    problems.extend(_not_read(own))
    tables = spelt_alike(Tables(**rows, unread=unread))  # type: ignore[arg-type]
    problems.extend(workbooks_are_there(tables, files.keys(), folder))
    rules, wrong_settings = read_settings(tables.settings, sells_overseas=bool(tables.ocean))
    problems.extend(wrong_settings)
    tables = replace(tables, settings=tuple(spelt(row) for row in tables.settings))
    between = [*by_day.of_every_day(tables, rules, [check for check in ON_EVERY_DAY if check not in GAPS], GAPS)]
    between.extend(problem for check in CHECKS if check not in ON_EVERY_DAY for problem in check(tables))
    problems.extend((*sorted_column.sorted_columns(tables, between), *between))
    problems.extend(dates.rows_meet_the_book(tables, rules))
    problems.extend(years.rows_stay_within_the_book(tables, rules))
    problems.extend(stages.usual_cover_has_a_rate(tables, rules))
    return Draft(tables, rules, fingerprint_of(files), in_order(tuple(problems)))


def _workbook(folder: Path, name: str) -> WorkbookFile | None:
    """Return a workbook of the folder; None where it is missing and may be."""
    path = folder / name
    if path.exists():
        return read_workbook(path)
    if name != TRUCKING:
        return None
    if not folder.is_dir():
        if folder.is_file():
            remedy = f"name its folder, {folder.parent}"
            raise WrongInput("is a file, and a rate book is a folder of workbooks", where=str(folder), remedy=remedy)
        raise WrongInput(
            "there is no such folder", where=str(folder), remedy="name the folder that holds trucking.xlsx"
        )
    near = nearest(name, (file.name for file in folder.iterdir()))
    remedy = "put the workbook there, or name the folder that holds it"
    if near:
        remedy = one_sheet_only(near, name) if Path(near).suffix.lower() == ".csv" else f"rename {near}"
    raise WrongInput(f"there is no {name} in this folder", where=str(folder), remedy=remedy)


def _two_calendars(files: Mapping[str, WorkbookFile]) -> Iterator[Problem]:
    """Excel counts days from 1900, or from 1904: a date copied between two such workbooks moves by 1,462 days."""
    from_1904 = [name for name, file in files.items() if file.from_1904]
    if from_1904 and len(from_1904) < len(files):
        other = next(name for name in files if name not in from_1904)
        message = f"it counts its days from 1904, and {other} from 1900: a date copied between them moves by four years"
        remedy = "look at the dates that were copied; Excel's options, under Advanced, set the calendar of a workbook"
        yield Problem(from_1904[0], message, remedy, "warning")


def _settings(file: WorkbookFile) -> tuple[PricingSetting, ...]:
    sheet = file.find_sheet(PRICING.name)
    return read_rows(sheet, PricingSetting).rows if sheet is not None else ()


def _reading(file: WorkbookFile, kind: SheetKind, currency: str) -> Reading:  # type: ignore[type-arg]
    sheet = file.find_sheet(kind.name)
    where = f"{file.name} › {kind.name}"
    if sheet is None:
        near = _meant(file, kind)
        if kind.may_be_missing and not near:
            told = f'there is no sheet "{kind.name}", so {kind.without}'
            remedy = "put it back from an earlier copy; without rows, if that is meant"
            return Reading((), (Problem(where, told, remedy, "warning"),))
        remedy = f'rename the sheet "{near}" to "{kind.name}"' if near else "add it, with its headers in the first row"
        return Reading((), (Problem(where, f'there is no sheet "{kind.name}"', remedy),), None)
    reading = read_rows(sheet, kind.row_type, currency=currency)
    if kind.must_have_rows and not reading.rows and reading.unread == frozenset():
        empty = Problem(where, "the sheet has no rows below its headers", "fill at least one row")
        return Reading((), (*reading.problems, empty), None, reading.own)
    if reading.unread is None or not reading.rows:
        return reading
    absent = absent_columns(sheet, headers_of(sheet, columns_of(kind.row_type), currency), kind.row_type, currency)
    return Reading(reading.rows, (*reading.problems, *absent), reading.unread, reading.own)


def _meant(file: WorkbookFile, kind: SheetKind) -> str | None:
    """Return the sheet that a missing one has become: one with almost its name, or with its headers."""
    strangers = _strangers(file)
    near = nearest(kind.name, (other.name for other in strangers))
    columns = columns_of(kind.row_type)
    return near or next((other.name for other in strangers if headers_of(other, columns).usable), None)


def _own_sheets(file: WorkbookFile, kinds: tuple[SheetKind, ...]) -> Iterator[Own]:
    meant = {_meant(file, kind) for kind in kinds if file.find_sheet(kind.name) is None}
    for sheet in _strangers(file):
        if sheet.rows and sheet.name not in meant:
            yield Own(f"{file.name} › {sheet.name}", f'the sheet "{sheet.name}"')


_MOST_NAMED = 6


def _not_read(own: Sequence[Own]) -> Iterator[Problem]:
    """Columns and sheets of one's own are welcome; told once, so that nobody takes them for prices that count."""
    if own:
        named = ", ".join(one.name for one in own[:_MOST_NAMED])
        more = f" and {len(own) - _MOST_NAMED} more" if len(own) > _MOST_NAMED else ""
        message = f"what is your own stays as it is and is not read: {named}{more}"
        yield Problem(own[0].cell, message, "nothing to do, unless it was meant to count", "warning")


def _strangers(file: WorkbookFile) -> tuple[Sheet, ...]:
    known = {sheet.name.casefold() for sheet in SHEETS} | {OVERVIEW.casefold(), NOTES.casefold(), LIST_NAME.casefold()}
    return tuple(sheet for sheet in file.sheets if sheet.name.strip().casefold() not in known)


CHECKS: tuple[Callable[[Tables], Iterator[Problem]], ...] = (
    *names.CHECKS,
    *carriers.CHECKS,
    *lanes.CHECKS,
    *charges.CHECKS,
    *places.CHECKS,
    *ocean.CHECKS,
    *quotations.CHECKS,
    *loading.CHECKS,
    *stages.CHECKS,
    *ferries.CHECKS,
    *yards.CHECKS,
    *ferries_abroad.CHECKS,
    *ways.CHECKS,
    *elsewhere.CHECKS,
    *paperwork.CHECKS,
    *imports.CHECKS,
    *dates.CHECKS,
    *following.CHECKS,
    *identity.CHECKS,
    *neighbours.CHECKS,
    *misspelt.CHECKS,
    *diesel.CHECKS,
    *fuel_steps.CHECKS,
    *loaded.CHECKS,
    *service_classes.CHECKS,
    *occasions.CHECKS,
    *sorted_alone.CHECKS,
    *twice.CHECKS,
    *years.CHECKS,
)

# What may be missing on some days alone; and all that is asked of the rows of every day, and not of all rows together.
GAPS = (carriers.carriers_have_bands, carriers.schemes_hold)
ON_EVERY_DAY = (
    *GAPS,
    names.names_stand_once,
    carriers.services_stand_once,
    carriers.raised_cover_has_a_price,
    carriers.bands_join,
    carriers.longer_trips_cost_no_less,
    charges.fuel_prices_stand_once,
    ocean.ports_stand_once,
    ocean.containers_have_sizes,
    ocean.services_stand_once,
    stages.last_legs_are_whole,
    stages.cover_stands_once,
    ferries.ferries_stand_once,
    yards.terminals_stand_once,
    ferries_abroad.ferries_abroad_stand_once,
    ways.passages_stand_once,
    identity.area_pieces_stand_once,
    imports.countries_stand_once,
    imports.import_charges_stand_once,
    *sorted_alone.CHECKS,
)
