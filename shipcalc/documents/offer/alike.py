"""Lines that are for the same thing, one for each of several vehicles, told as one: five times the same says less."""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from shipcalc.documents.offer.itemised import figures, plain, reckoned
from shipcalc.quote.model import Charge


def alike(charges: Iterable[Charge]) -> list[tuple[Charge, ...]]:
    """Return lines that differ in their vehicle only together, each where the first of them stood."""
    found: dict[tuple[str, str, bool], list[Charge]] = {}
    for one in charges:
        found.setdefault((one.code, one.label, one.estimate), []).append(one)
    return [tuple(same) for same in found.values()]


def told_together(same: tuple[Charge, ...]) -> Mapping[str, Any]:
    """Return `how` the sum of such lines comes about, `each` vehicle's part of it where they differ, and its `amount`."""
    amounts = {one.amount for one in same}
    differ = len(amounts) > 1
    return {
        "how": _how(same, differ=differ),
        "each": [{"vehicle": one.vehicle, "amount": figures(one.amount)} for one in same] if differ else [],
        "amount": figures(sum((one.amount for one in same), Decimal(0))),
    }


def _how(same: tuple[Charge, ...], *, differ: bool) -> str:
    first = same[0]
    if len(same) == 1:
        return reckoned(first)
    if not differ:
        return f"{len(same)} vehicles × {figures(first.amount)}"
    is_share = {(one.unit, one.rate) for one in same} == {("%", first.rate)}
    return f"{plain(first.rate)} % each" if is_share else ""
