"""Rates that came by mail: what was understood is shown, what is open is asked, and only what was shown goes into the draft."""

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Any

from fastapi import APIRouter, Form, UploadFile
from fastapi.responses import HTMLResponse

from shipcalc.actions.drafts import begun_draft, find_draft
from shipcalc.actions.taking import Taking, read_mail_of, take_rates, write_taken
from shipcalc.desk.clerk import Clerk
from shipcalc.desk.rendering import part
from shipcalc.desk.uploads import TABLES, received
from shipcalc.documents.office.taken import FIGURES, grouped, taken_tables
from shipcalc.errors import WrongInput
from shipcalc.ratebook.taking.answers import Answers

_LONGEST = 4_000
_MOST_ROWS = 400
Answered = Annotated[str, Form(max_length=_LONGEST)]
Who = Annotated[str, Form(max_length=200)]


def mail_paths(router: APIRouter, clerk: Clerk) -> None:
    """Add the paths of mails to those of the page."""

    @router.post("/mail", response_class=HTMLResponse)
    async def look(mail: UploadFile, carrier: Who = "", answers: Answered = "{}") -> str:
        """Return what a mail says beside the draft, or beside the book in force; nothing is written."""
        told = answers_in(answers)
        async with received(mail, TABLES) as file:
            taking = await clerk.do(lambda: _taken(clerk, file, carrier, told))
        return part("rates-mail.html", **mail_data(taking))

    @router.post("/mail/take", response_class=HTMLResponse)
    async def take(mail: UploadFile, seen: Who, carrier: Who = "", answers: Answered = "{}") -> str:
        """Write into the draft what was shown. `seen` is the digest of that: something else is not written unseen."""
        told = answers_in(answers)
        async with received(mail, TABLES) as file:
            done = await clerk.do(lambda: _written(clerk, file, carrier, told, seen))
        return part("rates-taken.html", **done)


def answers_in(text: str) -> Answers:
    """Return answers to questions, by their keys. Raises WrongInput for what is no such thing."""
    try:
        told = json.loads(text)
    except ValueError:
        told = None
    if not isinstance(told, dict) or not all(isinstance(one, str) for one in told.values()):
        raise WrongInput("the answers are not a list of words", where="answers", remedy="load the page again")
    answers = Answers()
    for key, value in told.items():
        answers = answers.with_answer(key, value)
    return answers


def _taken(clerk: Clerk, file: Path, carrier: str, told: Answers) -> Taking:
    rates = clerk.sources().rates.path
    return take_rates(read_mail_of(file), find_draft(rates) or rates, answers=told, carrier=carrier.strip())


def _written(clerk: Clerk, file: Path, carrier: str, told: Answers, seen: str) -> Mapping[str, Any]:
    rates, today = clerk.sources().rates, clerk.desk().today
    taking = _taken(clerk, file, carrier, told)
    if digest(taking) != seen or taking.questions:
        raise WrongInput("what is in force or in the draft has changed meanwhile", remedy="look at the mail once more")
    done = write_taken(taking, begun_draft(rates, today=today), today=today)
    return {"new": done.new, "changed": done.changed, "same": done.same, "ended": done.ended}


def digest(taking: Taking) -> str:
    """Return what tells one reading of a mail from another: all that was shown of it."""
    shown = [(table.title, table.rows) for table in taken_tables(taking.placed)]
    return hashlib.sha256(repr((shown, grouped(taking.left_out))).encode()).hexdigest()


def mail_data(taking: Taking) -> Mapping[str, Any]:
    """Return what the page shows of a mail."""
    tables = taken_tables(taking.placed)
    return {
        "name": taking.mail.name,
        "sender": taking.understood.sender,
        "count": len(taking.placed),
        "tables": [
            {
                "title": one.title,
                "headers": [(name, name in FIGURES) for name in one.headers],
                "rows": [
                    list(zip(row, (name in FIGURES for name in one.headers), strict=True))
                    for row in one.rows[:_MOST_ROWS]
                ],
                "more": max(0, len(one.rows) - _MOST_ROWS),
            }
            for one in tables
        ],
        "looks": grouped(item for item in taking.left_out if item.is_taken),
        "left": grouped(item for item in taking.left_out if not item.is_taken),
        "questions": [(one.key, one.text, one.choices) for one in taking.questions],
        "unknown_carriers": taking.unknown_carriers,
        "may_write": bool(taking.placed) and not taking.questions,
        "seen": digest(taking),
    }
