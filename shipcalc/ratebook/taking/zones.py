"""Zones that a mail explains in a table of its own: zone A is WA and OR."""

from collections.abc import Iterable, Iterator

from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.blocks import Block
from shipcalc.ratebook.taking.body import body_of
from shipcalc.ratebook.taking.rate import LeftOut
from shipcalc.ratebook.taking.sides import Side, ends_at
from shipcalc.ratebook.taking.spots import End, Unclear

PARTS = ("state", "zip", "city", "place", "country")


def zones_in(blocks: Iterable[Block], around: Around, left: list[LeftOut]) -> dict[str, tuple[End, ...]]:
    """Return the places of each zone by its name in small letters; one that is not understood has none and is put to `left`."""
    found: dict[str, list[End]] = {}
    unclear: set[str] = set()
    for name, where, text, ends in _rows(blocks, around):
        if isinstance(ends, str):
            unclear.add(name)
            left.append(LeftOut(where, text, f"{ends}, so that the prices of zone {name.upper()} are not taken"))
        else:
            found.setdefault(name, []).extend(ends)
    return {name: tuple(dict.fromkeys(ends)) for name, ends in found.items()} | dict.fromkeys(unclear, ())


def _rows(blocks: Iterable[Block], around: Around) -> Iterator[tuple[str, str, str, tuple[End, ...] | str]]:
    for block in blocks:
        zone = block.of("zone")[0].at
        side = Side({part: columns for part in PARTS if (columns := block.of(part))})
        body = body_of(block, (zone, *side.ats), ())
        for one in body.rows:
            name = block.page.text(one.row, zone)
            at = next((at for at in side.ats if (one.row, at) in block.page.values), side.ats[0])
            where, text = block.page.short(one.row, at), block.page.text(one.row, at)
            if not name:
                continue
            try:
                yield name.casefold(), where, text, ends_at(side, block.page, one.row, body, around)
            except Unclear as why:
                yield name.casefold(), where, text, why.why
