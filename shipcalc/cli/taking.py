"""The manager's command for rates that come by mail: rates take."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from shipcalc.cli.look import look_of_stdout, note, show, show_json
from shipcalc.cli.options import AsJson, RatesFolder, argument, day_of_quote, flag, option
from shipcalc.cli.prompt import ask, ask_number, offer, somebody_is_there

if TYPE_CHECKING:
    from shipcalc.actions.taking import Taking
    from shipcalc.ratebook.taking.answers import Answers
    from shipcalc.ratebook.taking.rate import Question

NOT_WRITTEN = 1


def take(
    file: Annotated[Path, argument("FILE", "The carrier's or forwarder's Excel or CSV file, as it came.")],
    carrier: Annotated[str, option("--carrier", "NAME", "Who sent it. Default: as its letter head says.")] = "",
    sheet: Annotated[str, option("--as", "SHEET", "Only rows for this sheet of the rate book.")] = "",
    into: Annotated[
        Path | None, option("--into", "BOOK", "The copy that is written into; it is made where it is not there yet.")
    ] = None,
    answers: Annotated[Path | None, option("--map", "FILE", "Answers to questions, as a small TOML file.")] = None,
    yes: Annotated[bool, flag("--yes", "Write what is shown without asking again.")] = False,
    rates: RatesFolder = None,
    as_json: AsJson = False,
) -> None:
    """Show the prices in a carrier's mail with their cells, ask what it leaves open, write them into a copy of the rate book."""
    from shipcalc.actions.taking import write_taken
    from shipcalc.cli.taken import lines, written_lines

    in_force = _in_force(rates)
    taking = _settled(file, carrier, sheet, _book(into, in_force), answers, may_ask=not as_json and not yes)
    open_now = bool(taking.questions)
    may_write = into is not None and not open_now and bool(taking.placed)
    if not as_json:
        show(lines(taking, look_of_stdout(), day_of_quote("")))
    if may_write and not yes and not as_json and somebody_is_there():
        yes = ask(f"Write this into {into}? (yes or no)").casefold() in ("y", "yes")
    done = write_taken(taking, into, today=day_of_quote("")) if may_write and yes and into is not None else None
    if as_json:
        from shipcalc.cli.taken_data import taken_json

        show_json(taken_json(taking, done))
    elif done is not None:
        show(written_lines(done, taking, in_force, look_of_stdout()))
    if done is None:
        note(_why_not(taking, into))
        raise typer.Exit(NOT_WRITTEN)


def _in_force(rates: Path | None) -> Path:
    from shipcalc.actions.sources import find_sources

    return find_sources(folder=Path.cwd(), rates=rates).rates.path


def _book(into: Path | None, in_force: Path) -> Path:
    """Return the rate book that the mail is compared with: the copy, or where it is not there yet the one it is made from."""
    from shipcalc.errors import WrongInput

    if into is None or not into.exists():
        return in_force
    if into.resolve() == in_force.resolve():
        remedy = "name a folder that is not there yet, and a copy is made: --into next-week"
        raise WrongInput("is the rate book that quotes are made from", where=str(into), remedy=remedy)
    return into


def _settled(file: Path, carrier: str, sheet: str, book: Path, told: Path | None, *, may_ask: bool) -> "Taking":
    """Return what a mail says, all its questions answered where somebody is there to answer them."""
    from shipcalc.actions.taking import read_mail_of, take_rates
    from shipcalc.ratebook.taking.answers import Answers, read_answers

    mail = read_mail_of(file)
    answers: Answers = read_answers(told) if told is not None else Answers()
    while True:
        taking = take_rates(mail, book, answers=answers, carrier=carrier, sheet=sheet)
        if not taking.questions or not may_ask or not somebody_is_there():
            return taking
        answers = _answered(taking.questions[0], answers)


def _answered(question: "Question", answers: "Answers") -> "Answers":
    if not question.choices:
        return answers.with_answer(question.key, ask(question.text.rstrip("?")))
    offer(question.text, question.choices)
    return answers.with_answer(question.key, question.choices[ask_number("Number", len(question.choices)) - 1])


def _why_not(taking: "Taking", into: Path | None) -> str:
    if taking.questions:
        keys = "; ".join(_map_line(question) for question in taking.questions)
        return f"nothing was written: answer first, in a terminal or with --map FILE that says {keys}"
    if not taking.placed:
        return "nothing was written: no price in it was understood"
    if into is None:
        return "nothing was written: --into NEW names the copy of the rate book, --yes writes what is shown"
    return "nothing was written: --yes writes what is shown"


def _map_line(question: "Question") -> str:
    head, _, column = question.key.partition(".")
    choices = " or ".join(f'"{choice}"' for choice in question.choices) or '"…"'
    return f'[columns] "{column}" = {choices}' if head == "columns" else f"{question.key} = {choices}"
