"""The manager's command rates weekly: what publishers' newest figures move in the book."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.look import Column, Look, bullets, note, paragraph, show_found, table
from shipcalc.cli.options import AsJson, AsOf, day_of_quote, flag, option

if TYPE_CHECKING:
    from shipcalc.actions.weekly import Weekly
    from shipcalc.ratebook.weekly.moves import Move

COLUMNS = (
    Column("Figure"),
    Column("Old", "right"),
    Column("of"),
    Column("New", "right"),
    Column("of"),
    Column("Change", "right"),
    Column("Cell", wraps=True),
)


def weekly(
    files: Annotated[
        list[Path] | None, option("--file", "FILE", "A publisher's file as it came; may be repeated.")
    ] = None,
    into: Annotated[Path | None, option("--into", "DIR", "The rate book. Default: the one that quotes use.")] = None,
    online: Annotated[bool, flag("--online", "Fetch the newest files that are not named.")] = False,
    older: Annotated[bool, flag("--older", "Write figures older than those of the book.")] = False,
    jump: Annotated[bool, flag("--jump", "Write figures far from those of the book.")] = False,
    as_of: AsOf = "",
    as_json: AsJson = False,
) -> None:
    """Write the week's price of diesel and rates of exchange into the book, with day and source, and say what moved."""
    from shipcalc.actions.sources import get_own_rates
    from shipcalc.actions.weekly import write_weekly

    day = day_of_quote(as_of)
    folder = get_own_rates(folder=Path.cwd(), rates=into)
    done = write_weekly(folder, files or (), online=online, today=day, older=older, jump=jump)
    show_found(done, _as_json, _lines, as_json=as_json)
    for path in done.written:
        note(f"written: {path}")


def _lines(done: "Weekly", look: Look) -> list[str]:
    lines = [look.strong(line) for line in paragraph(look, _verdict(done))]
    if done.plan.moves:
        rows = [_row(move, cell) for move, cell in zip(done.plan.moves, done.cells, strict=True)]
        lines += ["", *table(look, COLUMNS, rows)]
    sources = [f"{one.file}: {one.source}, {one.day}." for one in done.publications]
    return [*lines, "", *bullets(look, [*sources, *done.plan.left])]


def _verdict(done: "Weekly") -> str:
    moved, same = len(done.plan.moves), len(done.plan.same)
    if not moved:
        return f"{done.folder}: nothing moved; {_figures(same)} of the book {'is' if same == 1 else 'are'} the published ones."
    also = f", {same} as published already" if same else ""
    return f"{done.folder}: {_figures(moved)} moved{also}."


def _figures(count: int) -> str:
    return "1 figure" if count == 1 else f"{count} figures"


def _row(move: "Move", cell: str) -> tuple[str, ...]:
    from shipcalc.sheets.numbers import plain

    series = move.series
    change = f"{move.percent:+} %"
    where = f"{cell} (a new row)" if move.adds else cell
    return series.name, plain(series.value), str(series.day), plain(move.value), str(move.day), change, where


def _as_json(done: "Weekly") -> str:
    from shipcalc.cli.listing import to_json

    return to_json(_as_data(done))


def _as_data(done: "Weekly") -> dict[str, object]:
    from shipcalc.sheets.numbers import plain

    return {
        "book": str(done.folder),
        "publications": [
            {"file": one.file, "source": one.source, "day": one.day.isoformat()} for one in done.publications
        ],
        "moved": [
            {
                "figure": move.series.name,
                "old": plain(move.series.value),
                "old_day": move.series.day.isoformat(),
                "new": plain(move.value),
                "day": move.day.isoformat(),
                "percent": str(move.percent),
                "old_cell": move.cell,
                "cell": cell,
                "source": move.source,
            }
            for move, cell in zip(done.plan.moves, done.cells, strict=True)
        ],
        "same": [series.name for series in done.plan.same],
        "left": list(done.plan.left),
        "written": [str(path) for path in done.written],
    }
