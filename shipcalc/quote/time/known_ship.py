"""A ship that is known by its day of departure: who still reaches it, and why nobody does."""

from collections.abc import Iterator
from datetime import date, timedelta

import numpy as np

from shipcalc.distinct import distinct
from shipcalc.errors import NoAnswer, asked
from shipcalc.quote.model import LeftOut
from shipcalc.quote.network.columns import Ways
from shipcalc.quote.network.network import Network
from shipcalc.quote.request import Request
from shipcalc.quote.time.dated import Days
from shipcalc.quote.time.days_in_words import day_in_words
from shipcalc.quote.time.port_days import sailings_of, terminal_of
from shipcalc.schedule.voyage import cutoff_day, days_near, sails_on
from shipcalc.trade import CROSSING_BY_MODE, Called, called_by

NAMED_DAYS = 4
LATER_OR_SOONER = timedelta(days=21)


def missed_by(network: Network, found: Ways, when: Days) -> tuple[LeftOut, ...]:
    """Return how many ways are left out, since no ship of theirs leaves on that day, or it cannot be reached any more."""
    missed = int(np.count_nonzero(~when.possible))
    reason = f"no {' or '.join(_carriers(network, found))} of theirs leaves on that day, or it can no longer be reached"
    return (LeftOut(carrier=f"{missed} other ways", reason=reason),) if missed else ()


def nobody_reaches_it(request: Request, network: Network, found: Ways, when: Days) -> NoAnswer:
    """Return the refusal where no way is left: nothing sails on that day, or the ship can no longer be reached."""
    day = request.wishes.sailing
    assert day is not None, "asked only where a ship is known"
    sailing = [way for way in range(len(found)) if _sails(way, network, found, day)]
    if (found.crossing < 0).all():
        return NoAnswer(
            "no ship goes there, only a truck", where=request.to.name, remedy=f"leave {asked('sailing')} out"
        )
    carriers = _carriers(network, found)
    if not sailing:
        near = ", ".join(dict.fromkeys(other.isoformat() for other in _days_about(network, found, day)))
        told = f"; about that day {' or '.join(f'{one}s' for one in carriers)} leave on {near}" if near else ""
        return NoAnswer(
            f"no {' or '.join(carriers)} of the rate book that goes there leaves on {day.isoformat()}{told}",
            where=request.to.name,
            remedy="give one of its days, or write the day into Listed sailings of the service (overseas.xlsx, sheet Ocean)",
        )
    soonest = min(
        sailing, key=lambda way: int(when.terminal.earliest[way]) - _cutoff(way, network, found, day).toordinal()
    )
    carrier = _called(network, found, soonest).carrier
    port = network.exports[int(found.export[soonest])].row
    at_port = date.fromordinal(int(when.terminal.earliest[soonest]))
    there = day_in_words(at_port)
    return NoAnswer(
        f"the {carrier} of {day_in_words(day)} can no longer be reached: the vehicle is in {port.name} on {there} at "
        f"the earliest, and the last day there is {day_in_words(_cutoff(soonest, network, found, day))}",
        where=request.to.name,
        remedy=f"leave {asked('sailing')} out for the next {carrier}, or have it ready sooner",
    )


def _called(network: Network, found: Ways, way: int) -> Called:
    return CROSSING_BY_MODE[network.crossings[int(found.crossing[way])].load.mode].called


def _carriers(network: Network, found: Ways) -> tuple[str, ...]:
    """Return what carriers of these ways are called: ships alone, or other modes' too."""
    crossings = (network.crossings[int(number)] for number in distinct(found.crossing) if number >= 0)
    return tuple(dict.fromkeys(called.carrier for called in called_by(one.load.mode for one in crossings)))


def _sails(way: int, network: Network, found: Ways, day: date) -> bool:
    crossing = int(found.crossing[way])
    return crossing >= 0 and sails_on(sailings_of(network.crossings[crossing].service.row), day)


def _cutoff(way: int, network: Network, found: Ways, day: date) -> date:
    quoted_days = int(network.sea.cutoff_days[found.sea_lane[way]])
    return cutoff_day(day, terminal_of(network.exports[int(found.export[way])].row, quoted_days))


def _days_about(network: Network, found: Ways, day: date) -> Iterator[date]:
    """Yield the days nearest to one on which ships of these ways leave, in order."""
    services = {
        int(number): network.crossings[int(number)].service.row for number in distinct(found.crossing) if number >= 0
    }
    days = {near for row in services.values() for near in days_near(sailings_of(row), day, within=LATER_OR_SOONER)}
    yield from sorted(sorted(days, key=lambda near: abs(near - day))[:NAMED_DAYS])
