"""Options that more than one command has: the same name means the same everywhere."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from shipcalc.cli.look import note
from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from collections.abc import Sequence

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def option(name: str, metavar: str, what: str) -> Any:
    """Return an option with a value; what holds without it is told in its own words, if at all."""
    return typer.Option(name, metavar=metavar, help=what, show_default=False)


def flag(name: str, what: str) -> Any:
    """Return an option that is there or not."""
    return typer.Option(name, help=what)


def argument(metavar: str, what: str) -> Any:
    """Return what is given without an option's name."""
    return typer.Argument(metavar=metavar, help=what, show_default=False)


AsJson = Annotated[bool, flag("--json", "Print the answer as JSON.")]
StockFile = Annotated[Path | None, option("--stock", "FILE", "The stock list, Excel or CSV.")]
RatesFolder = Annotated[Path | None, option("--rates", "DIR", "The rate book: a folder of workbooks.")]
OutFolder = Annotated[Path | None, option("--out", "DIR", "Write the files into this folder.")]
Language = Annotated[
    str,
    option(
        "--language",
        "CODE",
        "Offer and message in de, es, fr or ja, with --out. Default: en, or as the settings' languages say.",
    ),
]
AsOf = Annotated[str, option("--as-of", "DATE", "The day of the quote, as 2026-12-01. Default: today.")]
Online = Annotated[bool, flag("--online", "The place is a street address: look it up on the network.")]
Choice = Annotated[int | None, option("--choice", "N", "Show choice N instead of the recommended one.")]


# As in schedule/said_days.py, which is imported only where a day is said in words, or is none.
_FIRST_YEAR, _LAST_YEAR = 2000, 2099


def day_of(text: str, option: str, *, today: date | None = None) -> date:
    """Return the day of an option: `2026-12-01`, or as people say it on `today`, "dec 15", which is then read back.

    What can be two days is asked in a terminal. Raises WrongInput for it in a pipe, and for what is not a day.
    """
    try:
        day = date.fromisoformat(text.strip())
    except ValueError:
        return _day_as_people_say_it(text, option, today or this_day())
    if not _FIRST_YEAR <= day.year <= _LAST_YEAR:
        from shipcalc.schedule.said_days import check_planned

        return check_planned(day, option)
    return day


def _day_as_people_say_it(text: str, option: str, today: date) -> date:
    from shipcalc.schedule.said_days import HOW_TO_SAY_A_DAY, days_meant

    days = days_meant(text, today=today)
    if not days:
        raise WrongInput(
            f'"{text}" is not a date',
            where=option,
            remedy=HOW_TO_SAY_A_DAY,
        )
    day = days[0] if len(days) == 1 else _one_of(days, text, option)
    note(f'{option}: "{text.strip()}" is taken as {day_in_words(day)}')
    return day


def _one_of(days: "Sequence[date]", text: str, option: str) -> date:
    from shipcalc.cli.prompt import ask_number, offer, somebody_is_there

    if not somebody_is_there():
        readings = " or ".join(day.isoformat() for day in days)
        raise WrongInput(
            f'"{text}" can be read as {" or as ".join(map(str, days))}', where=option, remedy=f"write {readings}"
        )
    offer(f'"{text}" can be more than one day:', [day_in_words(day) for day in days])
    return days[ask_number("Number of the one you mean", len(days)) - 1]


def day_in_words(day: date) -> str:
    """Return a day with its weekday, so that whoever reads it again sees what was understood."""
    return f"{WEEKDAYS[day.weekday()]}, {day.isoformat()}"


def day_of_quote(text: str) -> date:
    """Return the day that `--as-of` says, else today."""
    return day_of(text, "--as-of") if text else this_day()


def this_day() -> date:
    """Return today: here and in `now` alone the program looks at the clock."""
    return date.today()  # noqa: DTZ011 - the day where the user sits


def now() -> str:
    """Return this moment in UTC, `2026-12-01T16:20:05Z`."""
    from datetime import UTC, datetime

    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
