"""What has changed on a checklist since it was last written, in sentences."""

from collections.abc import Iterator, Mapping, Sequence

from shipcalc.checklist.columns import MOMENTS_IN_WORDS
from shipcalc.checklist.items import Item
from shipcalc.quote.model import Window


def changes(items: Sequence[Item], was: Mapping[str, Item]) -> tuple[str, ...]:
    """Return one sentence for each line that says something else than it did."""
    told = ((item, "; ".join(_changed(item, was[item.id]))) for item in items if item.id in was)
    return tuple(f"{item.title} ({item.id}): {what}" for item, what in told if what)


def moves(
    items: Sequence[Item], was: Mapping[str, Item], now: Mapping[str, Window], then: Mapping[str, Window]
) -> Iterator[str]:
    """Yield one sentence for each moment that has other days than it had, and how many lines went along, if any."""
    for stage, days in now.items():
        if days != then[stage]:
            yield f"{MOMENTS_IN_WORDS[stage]}: {_span(days)}, was {_span(then[stage])}"
    dated = sum(item.id in was and item.due != was[item.id].due for item in items)
    closed = sum(not item.is_open for item in items)
    stay = f"; {closed} closed {'line stays as it was' if closed == 1 else 'lines stay as they were'}" if closed else ""
    if dated:
        yield f"{dated} open {'line has a new due date' if dated == 1 else 'lines have new due dates'}{stay}"


def _span(days: Window) -> str:
    first, last = days
    return first.isoformat() if first == last else f"{first.isoformat()} to {last.isoformat()}"


def _changed(now: Item, was: Item) -> Iterator[str]:
    if now.state != was.state:
        day = f" on {now.done_on.isoformat()}" if now.done_on else ""
        by = f" by {now.done_by}" if now.done_by else ""
        yield f"{now.state}{by}{day}, was {was.state}"
    elif (now.done_on, now.done_by) != (was.done_on, was.done_by):
        day = now.done_on.isoformat() if now.done_on else "no day"
        yield f"now {day}{f', {now.done_by}' if now.done_by else ''}"
    if now.remark != was.remark:
        yield f'note: "{now.remark}"' if now.remark else f'note taken away: "{was.remark}"'
    if now.due != was.due:
        yield f"due {now.due.isoformat()}, was {was.due.isoformat()}"
    if now.owner != was.owner:
        yield f"for {now.owner or 'nobody'}, was for {was.owner or 'nobody'}"
    if now.title != was.title:
        yield f'was "{was.title}"'
