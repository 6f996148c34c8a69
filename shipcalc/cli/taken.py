"""What was taken from a mail, as text: each price beside the rate book's, what was not taken, what is to be answered."""

from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.cli.look import Column, Look, bullets, heading, paragraph, table
from shipcalc.documents.office.taken import FIGURES, days, grouped, taken_tables

if TYPE_CHECKING:
    from shipcalc.actions.taking import Taking, Written
    from shipcalc.ratebook.taking.rate import Question, Rate

MOST_TOLD = 20
WRAPPED = ("From", "To", "In the book", "Carrier", "Charge", "Area", "Piece", "Valid")


def lines(taking: "Taking", look: Look, today: date) -> list[str]:
    """Return all that was understood of a mail, and what was not."""
    lines = [look.strong(line) for line in paragraph(look, _headline(taking))]
    if past := [one for one in taking.placed if (one.prepared.rate.valid_to or today) < today]:
        lines += bullets(look, [f"{len(past)} of the prices have ended by {today}"], "!")
    lines += [line for text in _told_of_all(taking) for line in paragraph(look, text)]
    for one in taken_tables(taking.placed):
        columns = [Column(name, "right" if name in FIGURES else "left", wraps=name in WRAPPED) for name in one.headers]
        lines += [*heading(look, one.title), *table(look, columns, one.rows)]
    looks = _clipped(grouped(item for item in taking.left_out if item.is_taken))
    left = _clipped(grouped(item for item in taking.left_out if not item.is_taken))
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
    rates = [one.prepared.rate for one in taking.placed if one.prepared.target.sheet != "Areas"]
    if not rates:
        return []
    told = [
        f"Sender: {taking.understood.sender} ({taking.understood.sender_at})" if taking.understood.sender_at else "",
        f"Currency: {_all(rate.currency for rate in rates if rate.currency)}{_assumed(taking)}"
        if any(rate.currency for rate in rates)
        else "",
        f"Fuel: {_all(_fuel(rate) for rate in rates if rate.target == 'Lanes')}"
        if any(rate.target == "Lanes" for rate in rates)
        else "",
        f"Valid: {_all(days(rate) for rate in rates)}",
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


def _assumed(taking: "Taking") -> str:
    return " (some prices name none)" if taking.understood.assumed_currency else ""


def _all(values: Iterable[str]) -> str:
    distinct = list(dict.fromkeys(values))
    return " / ".join(distinct[:4]) + (" …" if len(distinct) > 4 else "")


def _fuel(rate: "Rate") -> str:
    return {True: "included", False: "not included", None: "not said"}[rate.fuel_included]


def _clipped(told: list[str]) -> list[str]:
    return told if len(told) <= MOST_TOLD else [*told[:MOST_TOLD], f"{len(told) - MOST_TOLD} more; --json lists all"]


def _question_told(question: "Question") -> str:
    return question.text + (f" {' / '.join(question.choices)}" if question.choices else "")


def written_lines(done: "Written", taking: "Taking", in_force: Path, look: Look) -> list[str]:
    """Return what was written, and what comes next."""
    counts = f"{done.new} new, {done.changed} changed, {done.same} the same"
    lines = ["", *(look.strong(line) for line in paragraph(look, f"Written into {done.folder}: {counts}."))]
    if done.ended:
        lines += paragraph(look, f"{done.ended} earlier rows end on the day before.")
    if taking.unknown_carriers:
        who = ", ".join(taking.unknown_carriers)
        lines += bullets(
            look,
            [f"{who}: not on the sheet Carriers yet; add a row for each, or the check names it as a fault"],
            "!",
        )
    if done.answers is not None:
        lines += paragraph(look, f"The answers are kept for the next mail of this sender: {done.answers}")
    compare = f"shipcalc rates compare {in_force} {done.folder}"
    return [
        *lines,
        *paragraph(look, f"Next: shipcalc rates check {done.folder}; {compare}; shipcalc rates adopt {done.folder}"),
    ]
