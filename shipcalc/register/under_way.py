"""What is open in all shipments, by its day: two questions of the register, however many shipments there are."""

import json
from datetime import date
from functools import lru_cache

from sqlalchemy import Connection, and_, exists, select

from shipcalc.checklist.office_day import OpenLine, UnderWay
from shipcalc.register.states import ACCEPTED
from shipcalc.register.tables import files, quotes, shipments, tasks

_OPEN = "open"
_FIELDS = (
    "number",
    "id",
    "title",
    "owner",
    "assigned",
    "due",
    "after",
    "critical",
    "wanted",
    "source",
    "vehicle",
    "paper",
    "version",
)


def open_lines(connection: Connection, *, until: date) -> tuple[OpenLine, ...]:
    """Return the open lines of shipments under way that are due by a day, the first due first; a paper that lies in the
    shipment's folder is there, whether or not its line is ticked."""
    there = and_(tasks.c.paper != "", exists().where(files.c.number == tasks.c.number, files.c.task == tasks.c.id))
    asked = (
        select(*(tasks.c[name] for name in _FIELDS), there)
        .join(quotes, quotes.c.number == tasks.c.number)
        .where(tasks.c.state == _OPEN, tasks.c.due <= until, quotes.c.state == ACCEPTED)
        .order_by(tasks.c.due, tasks.c.number, tasks.c.place)
    )
    return tuple(
        OpenLine(
            shipment=shipment,
            id=name,
            title=title,
            owner=owner,
            assigned=assigned,
            due=due,
            after=_after(after),
            critical=bool(critical),
            wanted=wanted,
            source=source,
            vehicle=vehicle,
            paper="" if has_file else paper,
            version=version,
        )
        for (
            shipment,
            name,
            title,
            owner,
            assigned,
            due,
            after,
            critical,
            wanted,
            source,
            vehicle,
            paper,
            version,
            has_file,
        ) in connection.execute(asked)
    )


@lru_cache(maxsize=4096)
def _after(text: str) -> tuple[str, ...]:
    """Return the ids that a line waits for; the same few stand in every checklist."""
    return tuple(json.loads(text))


def shipments_under_way(connection: Connection) -> tuple[UnderWay, ...]:
    """Return the shipments in which anything is still to be done."""
    # Told apart first: asked shipment by shipment, PostgreSQL looks through the lines of all that ever were (145 ms of 5,000).
    still = select(tasks.c.number).where(tasks.c.state == _OPEN).distinct().subquery()
    asked = (
        select(shipments, quotes.c.buyer, quotes.c.vehicles, quotes.c.place)
        .join(quotes, quotes.c.number == shipments.c.number)
        .join(still, still.c.number == shipments.c.number)
        .where(quotes.c.state == ACCEPTED)
    )
    return tuple(
        UnderWay(
            shipment=row.number,
            buyer=row.buyer,
            vehicles=row.vehicles,
            to=row.place,
            moments={
                stage: (date.fromisoformat(first), date.fromisoformat(last))
                for stage, (first, last) in json.loads(row.moments).items()
            },
            recorded=frozenset(json.loads(row.recorded)),
        )
        for row in connection.execute(asked)
    )
