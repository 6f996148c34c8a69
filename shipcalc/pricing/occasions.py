"""What a service asks for what may happen (sheet When it happens): chosen here, in no price."""

from collections.abc import Iterable

from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.occasions import Occasion
from shipcalc.trade import DRIVEN


def occasions_of(rows: Iterable[Occasion], row: Carrier) -> tuple[Occasion, ...]:
    """Return a service's rows in their order: its carrier's own, and those for all that have none of the same name."""
    fits = [one for one in rows if one.trailer in (None, row.trailer) and (one.trailer or row.trailer != DRIVEN)]
    own = {one.name.casefold() for one in fits if _is_own(one, row)}
    return tuple(one for one in fits if _is_own(one, row) or (not one.carrier and one.name.casefold() not in own))


def _is_own(one: Occasion, row: Carrier) -> bool:
    return (one.carrier or "").casefold() == row.carrier.casefold()
