"""The desk's draft of the rate book: a copy beside the one in force, which workbooks and mails go into before anything counts.

There is one draft, for everybody to see; it is made from the book in force when something is first put into it, and gone once
it is put in force or dropped.
"""

import shutil
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from shipcalc.actions.editions import Adopted, adopt_rates, copy_rates
from shipcalc.actions.sources import Found
from shipcalc.errors import WrongInput, why
from shipcalc.files import read_file
from shipcalc.ratebook.editions import has_workbooks
from shipcalc.ratebook.rows.tables import WORKBOOKS
from shipcalc.sheets.saving import save

ENDING = "-draft"


def draft_folder(rates: Path) -> Path:
    """Return where the draft of a rate book is, or would be."""
    return rates.resolve().with_name(f"{rates.resolve().name}{ENDING}")


def find_draft(rates: Path) -> Path | None:
    """Return the draft of a rate book, None where there is none."""
    folder = draft_folder(rates)
    return folder if has_workbooks(folder) else None


def begun_draft(rates: Found, *, today: date) -> Path:
    """Return the draft, made from the book in force where there was none.

    Raises WrongInput where that is the invented one inside the program: nobody's own prices belong there.
    """
    if rates.invented:
        remedy = 'shipcalc rates new rates makes one of your own; rates = "rates" in shipcalc.toml names it'
        raise WrongInput("the rate book is the invented one that comes with the program", remedy=remedy)
    folder = draft_folder(rates.path)
    if not has_workbooks(folder):
        copy_rates(rates.path, folder, today=today)
    return folder


def put_into_draft(files: Sequence[Path], rates: Found, *, today: date) -> Path:
    """Put workbooks in the place of the draft's of the same names. Raises WrongInput for one that a rate book does not have."""
    for file in files:
        if file.name not in WORKBOOKS:
            raise WrongInput(
                "is no workbook of a rate book", where=file.name, remedy=f"name it {' or '.join(WORKBOOKS)}"
            )
    folder = begun_draft(rates, today=today)
    for file in files:
        save(folder / file.name, read_file(file))
    return folder


def adopt_draft(rates: Found, *, today: date, since: date | None) -> Adopted:
    """Put the draft in force, on a day; then there is none any more. Raises as `adopt_rates` does."""
    draft = get_draft(rates)
    adopted = adopt_rates(str(draft), rates.path, today=today, since=since)
    drop_draft(rates)
    return adopted


def drop_draft(rates: Found) -> None:
    """Take the draft away. Raises WrongInput where there is none, or it cannot be removed."""
    try:
        shutil.rmtree(get_draft(rates))
    except OSError as error:
        remedy = "close its workbooks where they are open"
        raise WrongInput(
            f"cannot be removed ({why(error)})", where=str(draft_folder(rates.path)), remedy=remedy
        ) from None


def get_draft(rates: Found) -> Path:
    """Return the draft. Raises WrongInput where there is none."""
    draft = find_draft(rates.path)
    if draft is None:
        raise WrongInput("there is no draft", remedy="send a workbook or a mail first")
    return draft
