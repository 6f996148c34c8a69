"""Options that more than one command has: the same name means the same everywhere."""

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from shipcalc.errors import WrongInput

AsJson = Annotated[bool, typer.Option("--json", help="Print the answer as JSON.")]
StockFile = Annotated[
    Path | None,
    typer.Option("--stock", metavar="FILE", help="The stock list, Excel or CSV.", show_default=False),
]
RatesFolder = Annotated[
    Path | None,
    typer.Option("--rates", metavar="DIR", help="The rate book: a folder of workbooks.", show_default=False),
]
OutFolder = Annotated[
    Path | None,
    typer.Option("--out", metavar="DIR", help="Write the files into this folder.", show_default=False),
]
AsOf = Annotated[
    str,
    typer.Option(
        "--as-of", metavar="DATE", help="The day of the quote, as 2026-12-01. Default: today.", show_default=False
    ),
]
Online = Annotated[
    bool,
    typer.Option("--online", help="The place is a street address: look it up on the network."),
]
Choice = Annotated[
    int | None,
    typer.Option("--choice", metavar="N", help="Show choice N in place of the recommended one.", show_default=False),
]


def day_of(text: str, option: str) -> date:
    """Return the date of an option: `2026-12-01`, or as people write it, `12/15/2026`, where it can be only one day.

    Raises WrongInput for anything else.
    """
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        return _day_as_people_write_it(text, option)


def _day_as_people_write_it(text: str, option: str) -> date:
    from shipcalc.ratebook.dates import day_in_text
    from shipcalc.ratebook.misread import Misread

    try:
        day = day_in_text(text)
    except Misread as error:
        raise WrongInput(error.message, where=option, remedy=error.remedy) from None
    if day is None:
        raise WrongInput(f'"{text}" is not a date', where=option, remedy="write year, month and day as 2026-12-01")
    return day


def day_of_quote(text: str) -> date:
    """Return the day that `--as-of` says, else today: the one place where the program looks at the clock."""
    return day_of(text, "--as-of") if text else date.today()  # noqa: DTZ011 - the day where the user sits
