"""The manager's commands for editions of the rate book: rates copy, adopt, history."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.look import (
    Column,
    Look,
    look_of_stdout,
    note,
    paragraph,
    section,
    show,
    show_found,
    show_json,
    table,
)
from shipcalc.cli.options import AsJson, RatesFolder, argument, day_of, day_of_quote, option

if TYPE_CHECKING:
    from shipcalc.actions.editions import Adopted, Shown

COLUMNS = (
    Column("In force from"),
    Column("to"),
    Column("Fingerprint"),
    Column("Where it came from", wraps=True),
    Column("Saved on", wraps=True),
)


def copy(
    book: Annotated[Path, argument("MY", "The rate book: a folder of workbooks.")],
    new: Annotated[Path, argument("NEW", "The folder to be made. It must not be there yet.")],
) -> None:
    """Copy a rate book to work on: change the copy, check it, compare it, put it in force."""
    from shipcalc.actions.editions import copy_rates

    for path in copy_rates(book, new, today=day_of_quote("")):
        print(path)
    note(f"change it in Excel; then: shipcalc rates check {new}, compare {book} {new}, adopt {new}")


def adopt(
    new: Annotated[str, argument("NEW", "A folder of workbooks, or the fingerprint of a kept rate book.")],
    since: Annotated[str, option("--from", "DATE", "From this day on. Default: from today.")] = "",
    rates: RatesFolder = None,
    as_json: AsJson = False,
) -> None:
    """Put a rate book in force if it has no fault; the one before it is kept, and its fingerprint leads back to it."""
    from shipcalc.actions.editions import adopt_rates
    from shipcalc.actions.sources import own_rates

    today = day_of_quote("")
    day = day_of(since, "--from", today=today) if since else None
    done = adopt_rates(new, own_rates(folder=Path.cwd(), rates=rates), today=today, since=day)
    show_found(done, _adopted_json, _adopted_lines, as_json=as_json)


def history(rates: RatesFolder = None, as_json: AsJson = False) -> None:
    """Say which rate book was in force when, the latest first."""
    from shipcalc.actions.editions import history_of
    from shipcalc.actions.sources import own_rates

    folder = own_rates(folder=Path.cwd(), rates=rates)
    shown = history_of(folder, today=day_of_quote(""))
    if as_json:
        from shipcalc.cli.listing import to_json

        show_json(to_json({"folder": str(folder), "editions": [_edition_json(one) for one in shown]}))
    else:
        show(_history_lines(folder, shown, look_of_stdout()))


def _adopted_json(done: "Adopted") -> str:
    from shipcalc.cli.listing import to_json

    told = {"folder": str(done.folder), "fingerprint": done.fingerprint, "from": done.since.isoformat()}
    return to_json({**told, "former": done.former or None, "notes": [str(problem) for problem in done.notes]})


def _adopted_lines(done: "Adopted", look: Look) -> list[str]:
    lines = [look.strong(line) for line in paragraph(look, _what_was_done(done))]
    if done.former and done.is_new:
        back = "To leave it at the one in force" if done.waits else f"Kept: {done.former}. To go back"
        lines += paragraph(look, f"{back}: shipcalc rates adopt {done.former}")
    for one in done.waiting:
        lines += paragraph(look, f"{one.fingerprint} still waits for {one.since}.")
    lines += section(look, "To know", [str(problem) for problem in done.notes])
    return lines


def _what_was_done(done: "Adopted") -> str:
    if not done.is_new:
        return f"{done.fingerprint} is in force in {done.folder} already, and stays so."
    if done.waits:
        return f"{done.fingerprint} is in force in {done.folder} from {done.since} on; until then nothing changes."
    return f"{done.fingerprint} is in force in {done.folder}."


def _history_lines(folder: Path, shown: "tuple[Shown, ...]", look: Look) -> list[str]:
    if not shown:
        return paragraph(look, f"{folder}: no rate book was put in force here yet; shipcalc rates adopt does it.")
    rows = [(*_span(one), one.edition.fingerprint, one.edition.came, _saved(one.files)) for one in shown]
    return [*paragraph(look, f"{folder}"), "", *table(look, COLUMNS, rows)]


def _span(one: "Shown") -> tuple[str, str]:
    first = _day(one.edition.since) or "before"
    if one.edition.waits:
        return first, "waits"
    return first, _day(one.until) or ("now" if one.counts else "")


def _day(day: date | None) -> str:
    return day.isoformat() if day is not None else ""


def _saved(files: tuple[tuple[str, date], ...]) -> str:
    days = {day for _, day in files}
    if len(days) == 1:
        return days.pop().isoformat()
    return ", ".join(f"{Path(name).stem} {day}" for name, day in files)


def _edition_json(one: "Shown") -> dict[str, object]:
    return {
        "fingerprint": one.edition.fingerprint,
        "from": _day(one.edition.since) or None,
        "to": _day(one.until) or None,
        "state": "waits" if one.edition.waits else "in force" if one.counts else "former",
        "came": one.edition.came,
        "files": {name: day.isoformat() for name, day in one.files},
    }
