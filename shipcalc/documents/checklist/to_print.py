"""`checklist-to-print.pdf`: the checklist to be ticked with a pen, read at arm's length; no price, nothing of the program's."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from itertools import groupby
from pathlib import Path
from typing import Any

from shipcalc.checklist.items import Item
from shipcalc.documents import stationery, wording
from shipcalc.documents.logo import Logo
from shipcalc.quote.model import Quote
from shipcalc.sheets.writing import Paper
from shipcalc.typeset.typesetting import typeset

TEMPLATE = "documents/checklist/to_print.typ"
WITHOUT_STAGE = "at any time"


def to_print_beside(workbook: Path) -> Path:
    """Return the file beside a checklist: `checklist-2.xlsx` → `checklist-2-to-print.pdf`."""
    return workbook.with_name(f"{workbook.stem}-to-print.pdf")


def checklist_pdf(
    quote: Quote,
    items: Sequence[Item],
    *,
    title: str,
    written_on: date,
    version: int,
    paper: Paper,
    logo: Logo | None = None,
) -> bytes:
    """Return the checklist as PDF: box, task, who, by when, stage after stage as they come.

    What is to be done with several vehicles by one person and day is one task, with a box for each of them.
    """
    said = f"As of {wording.day(written_on)}" + (f", version {version}" if version > 1 else "")
    said += ". In bold: without this nothing moves."
    data = {
        **stationery.head(quote, logo),
        "title": f"What is to be done: {title}",
        "said": said,
        "columns": ("", "Task", "Who", "By"),
        "stages": [
            {"name": name.capitalize(), "items": [_told(same) for same in _alike(group)]}
            for name, group in _by_stage(items)
        ],
    }
    return typeset(TEMPLATE, data, paper=paper, language="en", day=written_on)


def _by_stage(items: Sequence[Item]) -> list[tuple[str, list[Item]]]:
    """Return the items by stage: the stage whose first item is due first comes first, and so within it."""
    ordered = sorted(items, key=lambda one: (one.due, one.title))
    first: dict[str, int] = {}
    for place, one in enumerate(ordered):
        first.setdefault(one.stage, place)
    stages = groupby(sorted(ordered, key=lambda one: first[one.stage]), key=lambda one: one.stage)
    return [(name or WITHOUT_STAGE, list(group)) for name, group in stages]


def _alike(items: Sequence[Item]) -> Iterable[Sequence[Item]]:
    """Return items that differ in their vehicle only together, each where the first of them stood."""
    found: dict[tuple[object, ...], list[Item]] = {}
    for one in items:
        found.setdefault((_task(one), one.owner, one.due, one.critical, one.remark), []).append(one)
    return found.values()


def _task(item: Item) -> str:
    """Return what is to be done, without the vehicle before it."""
    return item.title.removeprefix(f"{item.vehicle}: ")


def _told(same: Sequence[Item]) -> Mapping[str, Any]:
    """Return one line; a box is ticked for what is done, and what is not needed is struck out."""
    first = same[0]
    return {
        "task": first.title if len(same) == 1 else _task(first),
        "who": first.owner,
        "by": f"{first.due:%a} {wording.day(first.due)}",
        "critical": first.critical,
        "remark": first.remark,
        "boxes": [{"vehicle": one.vehicle if len(same) > 1 else "", "state": one.state} for one in same],
    }
