"""The manager's command for rates that come by mail: rates take."""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from shipcalc.cli.look import Column, Look, bullets, heading, look_of_stdout, note, paragraph, show, show_json, table
from shipcalc.cli.options import AsJson, RatesFolder, day_of_quote
from shipcalc.cli.prompt import ask, ask_number, offer, somebody_is_there

if TYPE_CHECKING:
    from shipcalc.actions.taking import Taking, Written
    from shipcalc.ratebook.taking.answers import Answers
    from shipcalc.ratebook.taking.placing import Placed
    from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate

NOT_WRITTEN = 1
MOST_CELLS = 4
LANES = (
    Column("Cell"),
    Column("Trailer"),
    Column("From", wraps=True),
    Column("To", wraps=True),
    Column("Price", "right"),
    Column("In the book", wraps=True),
)
OCEAN = (
    Column("Cell"),
    Column("Mode"),
    Column("From"),
    Column("To"),
    Column("For"),
    Column("Price", "right"),
    Column("In the book", wraps=True),
)


def take(
    file: Annotated[
        Path, typer.Argument(metavar="FILE", help="The carrier's or forwarder's Excel or CSV file, as it came.")
    ],
    carrier: Annotated[
        str,
        typer.Option(
            "--carrier", metavar="NAME", help="Who sent it. Default: as its letter head says.", show_default=False
        ),
    ] = "",
    sheet: Annotated[
        str,
        typer.Option("--as", metavar="SHEET", help="Only rows for this sheet of the rate book.", show_default=False),
    ] = "",
    into: Annotated[
        Path | None,
        typer.Option(
            "--into",
            metavar="BOOK",
            help="The copy that is written into; it is made where it is not there yet.",
            show_default=False,
        ),
    ] = None,
    answers: Annotated[
        Path | None,
        typer.Option("--map", metavar="FILE", help="Answers to questions, as a small TOML file.", show_default=False),
    ] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Write without asking what was shown.")] = False,
    rates: RatesFolder = None,
    as_json: AsJson = False,
) -> None:
    """Show the prices in a carrier's mail with their cells, ask what it leaves open, write them into a copy of the rate book."""
    from shipcalc.actions.taking import write_taken

    taking = _settled(file, carrier, sheet, _book(into, rates), answers, may_ask=not as_json and not yes)
    open_now = bool(taking.questions)
    may_write = into is not None and not open_now and bool(taking.placed)
    if not as_json:
        show(_lines(taking, look_of_stdout()))
    if may_write and not yes and not as_json and somebody_is_there():
        yes = ask(f"Write this into {into}? (yes or no)").casefold() in ("y", "yes")
    done = write_taken(taking, into, today=day_of_quote("")) if may_write and yes and into is not None else None
    if as_json:
        from shipcalc.cli.taken_data import taken_json

        show_json(taken_json(taking, done))
    elif done is not None:
        show(_written_lines(done, taking, look_of_stdout()))
    if done is None:
        note(_why_not(taking, into))
        raise typer.Exit(NOT_WRITTEN)


def _book(into: Path | None, rates: Path | None) -> Path:
    """Return the rate book that the mail is compared with: the copy, or where it is not there yet the one it is made from."""
    from shipcalc.actions.sources import find_sources
    from shipcalc.errors import WrongInput

    in_force = find_sources(folder=Path.cwd(), rates=rates).rates.path
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


def _lines(taking: "Taking", look: Look) -> list[str]:
    lines = [look.strong(line) for line in paragraph(look, _headline(taking))]
    lines += [line for text in _told_of_all(taking) for line in paragraph(look, text)]
    lanes = [one for one in taking.placed if one.prepared.target.sheet == "Lanes"]
    ocean = [one for one in taking.placed if one.prepared.target.sheet != "Lanes"]
    if lanes:
        lines += [*heading(look, "Lanes"), *table(look, LANES, [_lane_row(one) for one in lanes])]
    if ocean:
        lines += [*heading(look, "Ocean quotations"), *table(look, OCEAN, [_ocean_row(one) for one in ocean])]
    looks = _grouped([item for item in taking.left_out if item.is_taken])
    left = _grouped([item for item in taking.left_out if not item.is_taken])
    if looks:
        lines += [*heading(look, "Taken, and to be looked at"), *bullets(look, looks)]
    if left:
        lines += [*heading(look, "Not taken"), *bullets(look, left, "!")]
    if taking.questions:
        lines += [
            *heading(look, "To be answered"),
            *bullets(look, [_question_told(question) for question in taking.questions], "?"),
        ]
    return lines


def _headline(taking: "Taking") -> str:
    who = taking.understood.sender or "a sender that is not known"
    found = len(taking.placed)
    return f"{taking.mail.name}, from {who}: {found} {'price' if found == 1 else 'prices'} understood"


def _told_of_all(taking: "Taking") -> list[str]:
    rates = [one.prepared.rate for one in taking.placed]
    if not rates:
        return []
    told = [
        f"Sender: {taking.understood.sender} ({taking.understood.sender_at})" if taking.understood.sender_at else "",
        f"Currency: {_all(rate.currency for rate in rates)}",
        f"Fuel: {_all(_fuel(rate) for rate in rates if rate.target == 'Lanes')}"
        if any(rate.target == "Lanes" for rate in rates)
        else "",
        f"Valid: {_all(_days(rate) for rate in rates)}",
        f"Reference: {_all(rate.reference for rate in rates if rate.reference)}"
        if any(rate.reference for rate in rates)
        else "",
    ]
    if taking.remembered.given or taking.remembered.columns:
        words = [
            *(f"{key}: {text}" for key, text in taking.remembered.given.items()),
            *(f"“{key}”: {text}" for key, text in taking.remembered.columns.items()),
        ]
        told.append(f"As answered last time: {'; '.join(words)}")
    return [text for text in told if text]


def _all(values: Iterable[str]) -> str:
    distinct = list(dict.fromkeys(values))
    return " / ".join(distinct[:4]) + (" …" if len(distinct) > 4 else "")


def _fuel(rate: "Rate") -> str:
    return {True: "included", False: "not included", None: "not said"}[rate.fuel_included]


def _days(rate: "Rate") -> str:
    first = f"from {rate.valid_from}" if rate.valid_from else ""
    last = f"to {rate.valid_to}" if rate.valid_to else ""
    return " ".join(part for part in (first, last) if part) or "no days are said"


def _lane_row(one: "Placed") -> tuple[str, ...]:
    rate = one.prepared.rate
    return (rate.where, rate.trailer or "every", _end(rate.start), _end(rate.end), _price(rate), _beside(one))


def _ocean_row(one: "Placed") -> tuple[str, ...]:
    rate = one.prepared.rate
    return (
        rate.where,
        rate.mode,
        _end(rate.start),
        _end(rate.end),
        rate.basis.removeprefix("per "),
        _price(rate),
        _beside(one),
    )


def _end(end: object) -> str:
    return getattr(end, "text", "") if end is not None else "anywhere"


def _price(rate: "Rate") -> str:
    if rate.percent is not None:
        return f"{rate.percent.normalize():f} %"
    if rate.per_mile is not None:
        least = f", min {rate.minimum:,}" if rate.minimum is not None else ""
        return f"{rate.per_mile:.4f}".rstrip("0").rstrip(".") + f" {rate.currency} a mile{least}"
    return f"{rate.flat:,.2f} {rate.currency}"


def _beside(one: "Placed") -> str:
    if one.status == "changed":
        return f"{one.before} → {_price(one.prepared.rate)}"
    return one.status if not one.before or one.status == "same" else f"new (was {one.before})"


def _grouped(items: "Sequence[LeftOut]") -> list[str]:
    """Return what was left out, the same reason told once for all its cells."""
    by_why: dict[str, list[LeftOut]] = {}
    for item in items:
        by_why.setdefault(item.why, []).append(item)
    told = []
    for why, same in by_why.items():
        cells = ", ".join(
            f"{item.where} ({item.what})" if item.what and item.where else item.where or item.what
            for item in same[:MOST_CELLS]
        )
        more = f" and {len(same) - MOST_CELLS} more" if len(same) > MOST_CELLS else ""
        told.append(f"{cells}{more}: {why}")
    return told


def _question_told(question: "Question") -> str:
    return question.text + (f" {' / '.join(question.choices)}" if question.choices else "")


def _written_lines(done: "Written", taking: "Taking", look: Look) -> list[str]:
    counts = f"{done.new} new, {done.changed} changed, {done.same} the same"
    lines = ["", *(look.strong(line) for line in paragraph(look, f"Written into {done.folder}: {counts}."))]
    if done.ended:
        lines += paragraph(look, f"{done.ended} earlier rows end on the day before.")
    if taking.unknown_carriers:
        who = ", ".join(taking.unknown_carriers)
        lines += bullets(
            look,
            [
                f"{who}: not on the sheet Carriers yet; add a row for each of its trailers, or the check names it as a fault"
            ],
            "!",
        )
    if done.answers is not None:
        lines += paragraph(look, f"The answers are kept for the next mail of this sender: {done.answers}")
    book = done.folder
    return [
        *lines,
        *paragraph(
            look,
            f"Next: shipcalc rates check {book}; shipcalc rates compare {taking.book} {book}; shipcalc rates adopt {book}",
        ),
    ]
