"""The office's commands, over weeks: checklist."""

from pathlib import Path
from typing import Annotated

import typer

from shipcalc.cli.look import look_of_stdout, note, show, show_json
from shipcalc.cli.options import AsJson, Choice, OutFolder


def checklist(
    quote_file: Annotated[Path, typer.Argument(metavar="QUOTE.json", help="A saved quote: quote.json of quote --out.")],
    choice: Choice = None,
    out: OutFolder = None,
    as_json: AsJson = False,
) -> None:
    """Turn an accepted quote into tasks and papers with due dates, and write checklist.xlsx beside it."""
    from shipcalc.actions.checklist import make_checklist
    from shipcalc.cli.todo import checklist_json, checklist_lines
    from shipcalc.settings import find_settings

    made = make_checklist(quote_file, choice=choice, out=out, paper=find_settings(Path.cwd()).paper)
    if as_json:
        show_json(checklist_json(made))
    else:
        show(checklist_lines(made, look_of_stdout()))
    note(f"written: {made.file}")


COMMANDS = (
    ("checklist", checklist, "What is to be done for an accepted quote.", "shipcalc checklist lindqvist/quote.json"),
)
