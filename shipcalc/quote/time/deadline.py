"""A day by which the vehicle must be there: what is in time, and by when it must be ready."""

from collections.abc import Callable
from datetime import date

from shipcalc.errors import NoAnswer, asked
from shipcalc.quote.model import Option
from shipcalc.quote.request import Request
from shipcalc.schedule.back_planning import latest_start


def check_in_time(request: Request, soonest: date) -> None:
    """Raise NoAnswer where even the soonest way may be there only after the day that is asked for."""
    if request.by is not None and soonest > request.by:
        raise NoAnswer(
            f"cannot be promised there by {request.by.isoformat()}: ready on {request.ready.isoformat()}, the soonest "
            f"delivery is by {soonest.isoformat()} at the latest",
            where=request.to.name,
            remedy="give a later day or have it ready sooner"
            if request.wishes.express
            else f"give a later day, have it ready sooner, or ask for {asked('express')}",
        )


def latest_ready(request: Request, delivered: Callable[[date], date | None]) -> date | None:
    """Return the last day to be ready that is still in time; None where no day is asked for, or none is in time.

    `delivered` gives the latest delivery for a day of being ready, never earlier for a later one, None for never.
    """
    return latest_start(request.by, delivered, soonest=request.ready) if request.by is not None else None


def late_reason(request: Request, delivered: date) -> str:
    """Return why a way is left out that may come too late."""
    assert request.by is not None, "nothing is late without a day"
    return f"there by {delivered.isoformat()} at the latest, not by {request.by.isoformat()}"


def deadline_notes(request: Request, options: tuple[Option, ...]) -> tuple[str, ...]:
    """Return by when the vehicle must be ready, for each choice where they differ."""
    if request.by is None:
        return ()
    days = [option.latest_ready for option in options if option.latest_ready is not None]
    told = f"To be there by {request.by.isoformat()} the vehicle must be ready by "
    if len(set(days)) == 1 and len(days) == len(options):
        return (f"{told}{days[0].isoformat()} at the latest.",)
    each = (
        f"{option.latest_ready.isoformat()} (choice {number})"
        for number, option in enumerate(options, 1)
        if option.latest_ready is not None
    )
    return (f"{told}{', '.join(each)} at the latest.",)
