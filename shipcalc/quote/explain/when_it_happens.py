"""What may be asked for besides, told with a price that does not hold it: to the buyer as it is sold, to the office at cost."""

from collections.abc import Iterator

from shipcalc.money import to_decimal, with_code
from shipcalc.pricing.line import marked_up
from shipcalc.quote.model import WhenItHappens
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.price.marked_up import markup_on
from shipcalc.ratebook.rows.occasions import Occasion


def when_it_happens(one: OneWay) -> tuple[WhenItHappens, ...]:
    """Return what the truck of a way asks for when it happens."""
    currency = one.currency
    ppm = markup_on(one.request, one.book).of(one.service.row.carrier).extras_ppm
    return tuple(
        WhenItHappens(
            what=row.name,
            per=row.per,
            free=row.free,
            amount=to_decimal(marked_up(row.amount_minor, ppm), currency),
            cost=to_decimal(row.amount_minor, currency),
            source=row.at.cell("amount_minor"),
        )
        for row in one.service.occasions
    )


def told_when(one: OneWay) -> Iterator[str]:
    """Yield one sentence each, the gist before the colon: `Waiting: 75 USD an hour after the first 2 hours, where …`."""
    ppm = markup_on(one.request, one.book).of(one.service.row.carrier).extras_ppm
    for row in one.service.occasions:
        asked = with_code(marked_up(row.amount_minor, ppm), one.currency)
        when = f", {row.when.rstrip('.')}" if row.when else ", if it happens"
        name = row.name if one.at_home else f"{row.name} of the truck"
        yield f"{name}: {asked} {_per(row)}{when}."


def _per(row: Occasion) -> str:
    each = {"hour": "an hour", "day": "a day", "time": "each time"}[row.per]
    if not row.free:
        return each
    first = row.per if row.free == 1 else f"{row.free} {row.per}s"
    return f"{each} after the first {first}"
