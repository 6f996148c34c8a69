"""The ship is known by its day: what hangs on it is dated by that one ship."""

from collections.abc import Collection, Mapping
from datetime import date, timedelta

from shipcalc.quote.model import Window
from shipcalc.trade import MOMENTS, SHIP, Called

BY_SHIP = frozenset(MOMENTS[MOMENTS.index("cut-off") :])


def narrowed(
    moments: Mapping[str, Window], day: date, stage: str = "sailing", moving: Collection[str] = BY_SHIP
) -> dict[str, Window]:
    """Return the moments of a shipment whose ship leaves on a day: both ends of a window that two ships made move to the one.

    So too where another moment is known by its day, and those that are `moving` go along with it. Of two cut-offs the sooner
    counts, since nobody has said another.
    """
    first, last = (day - known for known in moments[stage])
    found = {name: _by(window, first, last) if name in moving else window for name, window in moments.items()}
    if stage != "sailing":
        return found
    return {**found, "cut-off": (found["cut-off"][0],) * 2} if "cut-off" in found else found


def missed(moments: Mapping[str, Window], called: Called = SHIP) -> str:
    """Return that the vehicle no longer reaches the ship, as a sentence without its full stop; "" where it may."""
    if "port" not in moments or "cut-off" not in moments or moments["port"][0] <= moments["cut-off"][1]:
        return ""
    return out_of_reach(moments["sailing"][1], moments["port"][0], moments["cut-off"][1], called)


def out_of_reach(sails: date, at_port: date, cutoff: date, called: Called = SHIP) -> str:
    """Return the sentence that says it."""
    return (
        f"the {called.carrier} of {sails.isoformat()} can no longer be reached: the vehicle is at the {called.place} on "
        f"{at_port.isoformat()} at the earliest, and the last day there is {cutoff.isoformat()}"
    )


def _by(window: Window, first: timedelta, last: timedelta) -> Window:
    earliest, latest = window[0] + first, window[1] + last
    return min(earliest, latest), max(earliest, latest)
