"""What a draft of the rate book does: sentences, the changed cells, the largest changes as a picture, carriers."""

import tempfile
from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from shipcalc.actions.comparing import compare_rates, write_comparison
from shipcalc.actions.sources import Sources
from shipcalc.compare.comparison import by_weight
from shipcalc.documents.office.comparison import change, summary
from shipcalc.money import to_decimal

if TYPE_CHECKING:
    from shipcalc.compare.books import Effect
    from shipcalc.compare.comparison import Comparison

_MOST_CELLS, _MOST_BARS = 60, 16
# The picture: half of it is for what gets dearer, half for what gets cheaper; a bar in units of its own width.
BAR_WIDTH = 100.0


def compared(sources: Sources, draft: Path, today: date, on: date | None = None) -> "Comparison":
    """Return the comparison of the book in force with the draft; asked again of the same files, it is remembered."""
    marks = tuple(
        (file.stat().st_mtime_ns, file.stat().st_size)
        for folder in (sources.rates.path, draft)
        for file in sorted(folder.glob("*.xlsx"))
    )
    return _compared(sources, draft, today, on, marks)


@lru_cache(maxsize=2)
def _compared(sources: Sources, draft: Path, today: date, on: date | None, _marks: object) -> "Comparison":
    return compare_rates(sources.rates.path, draft, sources, as_of=today, on=on, basket=None, quotes=None)


def written_comparison(sources: Sources, draft: Path, today: date) -> bytes:
    """Return the workbook of the comparison."""
    with tempfile.TemporaryDirectory(prefix="shipcalc-effect-") as folder:
        file = Path(folder) / "comparison.xlsx"
        write_comparison(compared(sources, draft, today), file)
        return file.read_bytes()


def effect_data(sources: Sources, draft: Path, today: date, on: date | None) -> Mapping[str, Any]:
    """Return what the page shows of it."""
    found = compared(sources, draft, today, on)
    cells = [
        (cell.cell, row.name, f"{cell.header}: {cell.old} → {cell.new}") for row in found.rows for cell in row.cells
    ] + [(row.cell, row.name, row.what) for row in found.rows if row.what != "changed"]
    moved = [one for one in by_weight(found.basket) if one.change]
    return {
        "on": found.on.isoformat(),
        "sentences": list(summary(found)),
        "cells": cells[:_MOST_CELLS],
        "more_cells": max(0, len(cells) - _MOST_CELLS),
        "currency": found.currency,
        "bars": _bars(moved[:_MOST_BARS]),
        "more_bars": max(0, len(moved) - _MOST_BARS),
        "carriers": [
            (
                one.carrier,
                one.trailer,
                one.dearer,
                one.cheaper,
                _told(one.least_minor, found),
                _told(one.most_minor, found),
            )
            for one in found.carriers
            if one.is_any
        ],
    }


def _told(minor: int, found: "Comparison") -> str:
    return change(to_decimal(minor, found.currency))


def _bars(effects: "Sequence[Effect]") -> list[Mapping[str, Any]]:
    """Return a bar for each transport: how far it moves, against the one that moves farthest."""
    farthest = max((abs(one.change or Decimal(0)) for one in effects), default=Decimal(1))
    return [
        {
            "name": one.asked.name,
            "was": "" if one.old.total is None else f"{one.old.total:,}",
            "is": "" if one.new.total is None else f"{one.new.total:,}",
            "change": change(one.change or Decimal(0)),
            "dearer": (one.change or 0) > 0,
            "width": round(float(abs(one.change or Decimal(0)) / farthest) * BAR_WIDTH, 1),
        }
        for one in effects
    ]
