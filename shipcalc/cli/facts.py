"""`shipcalc rates facts`: what of the rate book to look up again, the five that matter first."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.at_register import desk_of
from shipcalc.cli.look import Look, bullets, heading, paragraph, show_found
from shipcalc.cli.options import AsJson, AsOf, RatesFolder, flag, option
from shipcalc.errors import how_many

if TYPE_CHECKING:
    from shipcalc.actions.facts import Looked, ToLook

FIRST = 5
_WHY = {
    "ended": "its last day is over",
    "changes soon": "it changes soon",
    "old": "it was read long ago",
    "untold": "nobody said how it was learnt",
    "memory": "it is from memory",
    "second hand": "it is second hand",
}


def facts(
    rates: RatesFolder = None,
    as_of: AsOf = "",
    every: Annotated[bool, flag("--all", "List all of them, not the five that matter most.")] = False,
    within: Annotated[int, option("--within", "DAYS", "What changes in so many days counts as changing soon.")] = 90,
    country: Annotated[str, option("--country", "XX", "Only facts of one country, by its two letters.")] = "",
    as_json: AsJson = False,
) -> None:
    """Say which facts to look up again: what is old, from memory, second hand or changes soon, by how many quotes lean on it."""
    from functools import partial

    from shipcalc.actions.facts import find_facts
    from shipcalc.actions.sources import find_sources

    desk = desk_of(as_of)
    sources = find_sources(folder=Path.cwd(), rates=rates, as_of=desk.today)
    found = find_facts(desk, sources, soon_days=within, country=country.strip().upper())
    show_found(found, _json, partial(_lines, every=every), as_json=as_json)


def _lines(found: "Looked", look: Look, *, every: bool) -> list[str]:
    whose = "kept in the register" if found.kept else "worked out for the demo and the twenty countries that buy most"
    counts = (
        f"{found.of} facts in {found.rates}, {found.read} read at their source, {len(found.to_look)} to look up. "
        f"{how_many(found.quotes, 'quote')} {'was' if found.quotes == 1 else 'were'} asked what they lean on, {whose}."
    )
    lines = paragraph(look, counts)
    if not found.to_look:
        return lines
    shown = found.to_look if every else found.to_look[:FIRST]
    title = "To look up" if every or len(shown) == len(found.to_look) else f"The {len(shown)} that matter most"
    lines += heading(look, title)
    for number, one in enumerate(shown, start=1):
        lines += [*_told(number, one, look, found), ""]
    if len(shown) < len(found.to_look):
        lines += paragraph(look, f"{len(found.to_look) - len(shown)} more: shipcalc rates facts --all")
    lines += paragraph(
        look,
        "Checked: write read under Trust, the day of the page under Checked on, and the new figure, if it is another. "
        "What changes on a day gets two rows, one with a last day under Valid to, one with the first under Valid from.",
    )
    return lines


def _told(number: int, one: "ToLook", look: Look, found: "Looked") -> list[str]:
    fact = one.fact
    why = ", ".join(_why(one, reason, found.as_of) for reason in one.reasons)
    lean = f"{one.quotes} of {found.quotes} quotes lean on it" if one.quotes else "no quote leans on it"
    source = fact.source or "no source is named"
    where = f"{source} ({fact.address})" if fact.address else source
    cells = fact.cells("trust")
    others = len(cells) - 1
    rows = "" if not others else " and one row more" if others == 1 else f" and {others} rows more"
    told = [
        f"Why: {why}; {lean}.",
        f"Look at: {where}",
        f"Write at: {cells[0]}{rows} (Trust), {_column(fact.cells('checked_on')[0])} (Checked on)",
    ]
    return [*paragraph(look, look.strong(fact.name), first=f"{number}. ", rest="   "), *bullets(look, told)]


def _column(cell: str) -> str:
    return cell.rpartition("!")[2]


def _why(one: "ToLook", reason: str, day: date) -> str:
    fact = one.fact
    match reason:
        case "ended":
            return f"its last day was {fact.valid_to}"
        case "changes soon":
            begins = fact.valid_from is not None and fact.valid_from > day
            return f"it begins on {fact.valid_from}" if begins else f"its last day is {fact.valid_to}"
        case "old":
            return f"it was read on {fact.checked_on}"
    return _WHY[reason]


def _json(found: "Looked") -> str:
    from shipcalc.cli.listing import to_json

    return to_json(
        {
            "rates": found.rates,
            "as_of": found.as_of.isoformat(),
            "facts": found.of,
            "read": found.read,
            "quotes": found.quotes,
            "quotes_are": "kept" if found.kept else "invented",
            "to_look": [
                {
                    "said": one.fact.name,
                    "sheet": one.fact.sheet,
                    "countries": list(one.fact.countries),
                    "reasons": list(one.reasons),
                    "quotes": one.quotes,
                    "source": one.fact.source or None,
                    "address": one.fact.address or None,
                    "trust": one.fact.trust or None,
                    "checked_on": one.fact.checked_on and one.fact.checked_on.isoformat(),
                    "valid_from": one.fact.valid_from and one.fact.valid_from.isoformat(),
                    "valid_to": one.fact.valid_to and one.fact.valid_to.isoformat(),
                    "trust_cells": list(one.fact.cells("trust")),
                    "checked_on_cells": list(one.fact.cells("checked_on")),
                }
                for one in found.to_look
            ],
        }
    )
