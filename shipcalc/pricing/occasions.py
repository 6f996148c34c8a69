"""What a service asks for what may happen (sheet When it happens): chosen here, in no price."""

from collections.abc import Iterable

from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.occasions import Occasion
from shipcalc.trade import DRIVEN


def occasions_of(rows: Iterable[Occasion], row: Carrier) -> tuple[Occasion, ...]:
    """Return a service's rows in their order: of each name the carrier's own, then the one that names the trailer."""
    fits = [
        one
        for one in rows
        if (not one.carrier or _is_own(one, row))
        and one.trailer in (None, row.trailer)
        and (one.trailer or row.trailer != DRIVEN)
    ]
    closest: dict[str, Occasion] = {}
    for one in sorted(fits, key=_closeness):
        closest[one.name.casefold()] = one
    return tuple(one for one in fits if closest[one.name.casefold()] is one)


def _closeness(one: Occasion) -> tuple[bool, bool]:
    return bool(one.carrier), one.trailer is not None


def _is_own(one: Occasion, row: Carrier) -> bool:
    return (one.carrier or "").casefold() == row.carrier.casefold()
