"""A vehicle that is kept at the yard until the buyer wants it: the request on that day, and what shipping it now would cost."""

from datetime import date

from shipcalc.errors import WrongInput, asked
from shipcalc.quote.model import Also, Option
from shipcalc.quote.request import Request
from shipcalc.quote.time.days_in_words import day_in_words
from shipcalc.records import replace


def shipped_then(request: Request) -> Request:
    """Return the request as it is once the vehicle has been kept. Raises WrongInput for a day before it is ready."""
    until = request.wishes.keep_until
    if until is None:
        return request
    if until < request.ready:
        raise WrongInput(
            f"it cannot be kept until {until.isoformat()}, before it is ready ({request.ready.isoformat()})",
            where=asked("keep_until"),
            remedy="give a later day",
        )
    return replace(request, ready=until, kept_from=request.ready)


def now_instead(then: Option, now: Option, until: date) -> Also:
    """Return what it costs to ship at once instead of keeping it."""
    return Also(
        what="now",
        title=f"Shipped now instead of kept until {day_in_words(until)}",
        total=now.total,
        difference=now.total - then.total,
    )
