"""How a checklist stands: what is late, what comes next."""

from collections.abc import Sequence
from datetime import date

from shipcalc.checklist.items import Item


def overdue(items: Sequence[Item], today: date) -> tuple[Item, ...]:
    """Return the open items whose due date has passed."""
    return tuple(item for item in items if item.is_open and item.due < today)


def ready_to_do(items: Sequence[Item]) -> tuple[Item, ...]:
    """Return the open items that wait for nothing open any more."""
    still_open = {item.id for item in items if item.is_open}
    return tuple(item for item in items if item.is_open and still_open.isdisjoint(item.after))


def closed_too_soon(items: Sequence[Item]) -> tuple[tuple[Item, Item], ...]:
    """Return (done, still open) where something is done although something it waits for is not: to be asked about."""
    still_open = {item.id: item for item in items if item.is_open}
    return tuple(
        (item, still_open[key]) for item in items if item.state == "done" for key in item.after if key in still_open
    )
