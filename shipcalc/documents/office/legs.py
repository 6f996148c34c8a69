"""The legs of the choices as the office sees them: who carries, how far, how the distance was found, by which passages."""

from collections.abc import Iterator

from shipcalc.documents import wording
from shipcalc.quote.model import Leg, Quote
from shipcalc.sheets import look
from shipcalc.sheets.writing import Page
from shipcalc.trade import Called

_WAY = look.Style("Leg, way", wrap=True, upright="top")
_FIGURE = look.Style("Leg, miles", align="right", upright="top")
_UNIT = look.Style("Leg, unit", ink=look.GREY, upright="top", indent=1)


def put_legs(page: Page, quote: Quote, row: int) -> int:
    """Write every leg once with the choices that use it, from `row` on, in the columns A to H; return the first free row."""
    for leg, trailer, called, where in _legs(quote):
        choices = f"{wording.choices_named(where)}: " if len(where) < len(quote.options) else ""
        way = f"{wording.stop(leg.from_, called)} to {wording.stop(leg.to, called)} ({wording.carried(leg, trailer)})"
        page.paragraph(row, "A:C", f"{choices}{way}", _WAY)
        page.put(f"D{row}", leg.distance, _FIGURE, look.WHOLE)
        page.put(f"E{row}", leg.unit, _UNIT)
        page.paragraph(row, "F:H", leg.carrier, _WAY)
        found = wording.sentence_case(": ".join(part for part in (leg.method, leg.method_note) if part))
        page.paragraph(row + 1, "A:H", found, look.SMALL)
        row += 2
    return row


def _legs(quote: Quote) -> Iterator[tuple[Leg, str | None, Called, list[int]]]:
    """Yield (leg, trailer, how its places are called, the choices that use it, from 0)."""
    found: dict[tuple[Leg, str | None, Called], list[int]] = {}
    for index, option in enumerate(quote.options):
        called = wording.called_on(option)
        for leg in option.legs:
            found.setdefault((leg, option.trailer if leg.unit == "mi" else None, called), []).append(index)
    for (leg, trailer, called), where in found.items():
        yield leg, trailer, called, where
