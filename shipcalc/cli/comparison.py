"""Two rate books compared, on the terminal and as data."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import groupby
from typing import Any

from shipcalc.cli.listing import to_json
from shipcalc.cli.look import Column, Look, bullets, heading, paragraph, table
from shipcalc.compare.basket import Only
from shipcalc.compare.books import Effect
from shipcalc.compare.comparison import Comparison, by_weight, carriers_exchanged, moves
from shipcalc.documents.office.comparison import change, summary
from shipcalc.money import to_decimal
from shipcalc.ratebook.changes.differences import RowChange
from shipcalc.records import asdict

MOST_ROWS, MOST_EFFECTS = 40, 12
# Rows that came or went, of one sheet, are told in one line from so many on, with so many of their names.
FEWEST_TOGETHER, MOST_NAMED = 9, 4
EFFECT_COLUMNS = (
    Column("Transport", wraps=True),
    Column("Was", "right"),
    Column("Is", "right"),
    Column("Change", "right"),
    Column("By", wraps=True),
)
CARRIER_COLUMNS = (
    Column("Carrier", wraps=True),
    Column("Trailer"),
    Column("Prices", "right"),
    Column("Dearer", "right"),
    Column("Cheaper", "right"),
    Column("From", "right"),
    Column("To", "right"),
)


def comparison_lines(compared: Comparison, look: Look) -> list[str]:
    """Return the comparison: what it does in sentences, then the changed cells, the largest changes, the carriers."""
    title = f"{compared.old_name} → {compared.new_name}, priced as of {compared.as_of.isoformat()}"
    if compared.on != compared.as_of:
        title += f" for pickups on {compared.on.isoformat()}"
    lines = [*[look.strong(line) for line in paragraph(look, title)], ""]
    for sentence in summary(compared):
        lines += paragraph(look, sentence)
    if compared.rows:
        told = [line for rows in _alike(compared.rows) for line in _told_lines(rows)]
        lines += [*heading(look, "What was changed"), *bullets(look, told[:MOST_ROWS])]
        lines += _and_more(len(told), MOST_ROWS, look)
    for name, effects in (("The largest changes", compared.basket), ("Open quotes", compared.open_quotes)):
        found = by_weight(effects)
        if found:
            rows = [_effect_row(effect) for effect in found[:MOST_EFFECTS]]
            lines += [*heading(look, name), *table(look, EFFECT_COLUMNS, rows)]
            lines += _and_more(len(found), MOST_EFFECTS, look)
    moved = [one for one in compared.carriers if one.is_any]
    if moved:
        figures = [
            (
                one.carrier,
                one.trailer,
                f"{one.prices:,}",
                f"{one.dearer:,}",
                f"{one.cheaper:,}",
                change(to_decimal(one.least_minor, compared.currency)),
                change(to_decimal(one.most_minor, compared.currency)),
            )
            for one in moved
        ]
        lines += [*heading(look, "Carriers' own prices"), *table(look, CARRIER_COLUMNS, figures)]
    return lines


def comparison_json(compared: Comparison) -> str:
    """Return the comparison as data; amounts as strings."""
    found = moves(compared.basket)
    return to_json(
        {
            "old": {"folder": compared.old_name, "fingerprint": compared.old_fingerprint},
            "new": {"folder": compared.new_name, "fingerprint": compared.new_fingerprint},
            "as_of": compared.as_of.isoformat(),
            "on": compared.on.isoformat(),
            "currency": compared.currency,
            "rows": [_row_data(row) for row in compared.rows],
            "basket": {
                "name": compared.basket_name,
                "priced": found.priced,
                "dearer": found.dearer,
                "cheaper": found.cheaper,
                "least": str(found.least),
                "most": str(found.most),
                "middle": str(found.middle),
                "effects": [_effect_data(effect) for effect in compared.basket],
            },
            "alone": [_effect_data(effect) for effect in compared.alone],
            "open_quotes": [_effect_data(effect) for effect in compared.open_quotes],
            "carriers": [
                {
                    "carrier": one.carrier,
                    "trailer": one.trailer,
                    "prices": one.prices,
                    "dearer": one.dearer,
                    "cheaper": one.cheaper,
                    "least": str(to_decimal(one.least_minor, compared.currency)),
                    "most": str(to_decimal(one.most_minor, compared.currency)),
                    "gained": one.gained,
                    "lost": one.lost,
                }
                for one in compared.carriers
            ],
            "notes": list(compared.notes),
        }
    )


def _alike(rows: Sequence[RowChange]) -> Iterator[list[RowChange]]:
    """Yield the rows one by one; those together that came to one sheet, or went from it, one below the other."""
    for _, group in groupby(rows, key=lambda row: (row.what, row.sheet)):
        found = list(group)
        if found[0].what != "changed" and len(found) >= FEWEST_TOGETHER:
            yield found
        else:
            yield from ([row] for row in found)


def _told_lines(rows: Sequence[RowChange]) -> list[str]:
    first = rows[0]
    if len(rows) == 1:
        return _row_lines(first)
    names = "; ".join(row.name for row in rows[:MOST_NAMED])
    return [f"{first.cell.rpartition('!')[0]}  {len(rows)} rows {first.what}: {names} …"]


def _row_lines(row: RowChange) -> list[str]:
    if row.what != "changed":
        return [f"{row.cell}  {row.what}: {row.name}"]
    return [f"{cell.cell}  {row.name}: {cell.header} {cell.old} → {cell.new}" for cell in row.cells]


def _effect_row(effect: Effect) -> tuple[str, ...]:
    moved = effect.change
    other = ", ".join(part for part in effect.differs_in if part not in ("price", "carrier", "lines", "words"))
    was, now = carriers_exchanged(effect)
    carrier = effect.new.refusal or (now if was in ("", now) else f"{now}, not {was}")
    told = "" if moved is None else change(moved) if moved else f"({other or 'beside the price'})"
    return effect.asked.name, _sum(effect.old.total), _sum(effect.new.total), told, carrier


def _sum(total: Decimal | None) -> str:
    return "—" if total is None else f"{total:,}"


def _row_data(row: RowChange) -> dict[str, Any]:
    cells = [{"column": c.header, "old": c.old, "new": c.new, "cell": c.cell} for c in row.cells]
    return {"what": row.what, "sheet": row.sheet, "row": row.name, "cell": row.cell, "cells": cells}


def _effect_data(effect: Effect) -> dict[str, Any]:
    def told(total: Decimal | None) -> str | None:
        return None if total is None else str(total)

    return {
        "transport": effect.asked.name,
        "only": _only(effect.asked.only),
        "promised": effect.asked.promised,
        "old": told(effect.old.total),
        "new": told(effect.new.total),
        "change": told(effect.change),
        "old_carrier": effect.old.carrier or None,
        "new_carrier": effect.new.carrier or None,
        "no_answer": effect.new.refusal or None,
        "differs_in": list(effect.differs_in),
    }


def _only(only: Only | None) -> dict[str, str] | None:
    return {what: name for what, name in asdict(only).items() if name} if only is not None else None


def _and_more(count: int, shown: int, look: Look) -> list[str]:
    if count <= shown:
        return []
    return paragraph(look, f"  and {count - shown} more; --out FILE.xlsx and --json have all of them")
