"""The office's day over all shipments: seen, written as a workbook, as one calendar."""

from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput, asked
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.actions.kept_quotes import Desk
    from shipcalc.checklist.office_day import OfficeDay
    from shipcalc.register.finding import Listed
    from shipcalc.register.opening import Register

# What others can do now is looked for among what is due within so many days.
WAITED_FOR_DAYS = 14


@dataclass(frozen=True, slots=True)
class Today:
    """The day, and the open quotes that end within a week."""

    day: "OfficeDay"
    ending: "tuple[Listed, ...]"


def today_of(desk: "Desk", *, person: str = "", out: Path | None = None) -> Today:
    """Return the day of an office or of one person; `out` is a workbook (.xlsx) or a calendar (.ics) of it."""
    if out is not None and out.suffix.lower() not in (".xlsx", ".ics"):
        raise WrongInput(f'"{out.suffix}" is neither', where=asked("out"), remedy="end it in .xlsx or .ics")
    with desk.register() as register:
        found = day_in(register, desk.today, person=person)
        if out is not None and out.suffix.lower() == ".ics":
            _write_calendar(register, desk.today, person, out)
    if out is not None and out.suffix.lower() == ".xlsx":
        from shipcalc.documents.office.today_workbook import write_day

        ends = tuple((one.number, one.buyer, one.vehicles, one.valid_until) for one in found.ending)
        write_day(found.day, ends, out, creator=desk.settings.dealer.name, paper=desk.settings.paper)
    return found


def day_in(register: "Register", today: date, *, person: str = "") -> Today:
    """Return the day of an office as an open register has it."""
    from shipcalc.checklist.office_day import AHEAD_DAYS, office_day
    from shipcalc.register.finding import Asked, find_quotes
    from shipcalc.register.under_way import open_lines, shipments_under_way

    with register.reading() as connection:
        lines = open_lines(connection, until=today + timedelta(days=WAITED_FOR_DAYS))
        under_way = shipments_under_way(connection)
        ending = find_quotes(connection, Asked(ending_by=today + timedelta(days=AHEAD_DAYS)), today=today)
    return Today(office_day(lines, under_way, today=today, person=person), ending)


def _write_calendar(register: "Register", today: date, person: str, out: Path) -> None:
    from shipcalc.documents.office.today_calendar import calendar_of_all
    from shipcalc.register.under_way import open_lines, shipments_under_way
    from shipcalc.sheets.saving import save

    with register.reading() as connection:
        everything = open_lines(connection, until=date.max)
        under_way = shipments_under_way(connection)
    save(out, calendar_of_all(everything, under_way, written_on=today, person=person))
