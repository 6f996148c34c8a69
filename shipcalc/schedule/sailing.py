"""From the port's gate to the other side: the next sailing that can still be reached, and the days at sea."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta

from shipcalc.schedule.road import Window


@dataclass(frozen=True, slots=True, kw_only=True)
class Service:
    """When a service sails: on the `listed` days, or else every `every_days` days counted from `first` in both directions.

    The terminal takes no vehicle in later than `cutoff_days` before a sailing.
    """

    listed: tuple[date, ...] = ()
    first: date | None = None
    every_days: int = 7
    cutoff_days: int = 2

    def __post_init__(self) -> None:
        assert self.listed or self.first, "a service sails on some day"
        assert self.every_days > 0, "a service that sails every 0 days never leaves"


def find_sailing(at_port: date, service: Service) -> date | None:
    """Return the first sailing whose cut-off is not before the day of arrival at the port; None where the list has ended."""
    soonest = at_port + timedelta(days=service.cutoff_days)
    if service.listed:
        return min((day for day in service.listed if day >= soonest), default=None)
    assert service.first is not None
    voyages = -((service.first - soonest).days // service.every_days)
    return service.first + timedelta(days=voyages * service.every_days)


def sea_days(*, distance_nmi: float, speed_kn: float, canal_days: int = 0) -> int:
    """Return whole days at sea: nautical miles ÷ knots ÷ 24, started days counted whole, and a day for each canal."""
    assert speed_kn > 0, "a ship that lies still never arrives"
    return math.ceil(round(distance_nmi / speed_kn / 24, 9)) + canal_days


def sailing_window(at_port: Window, service: Service) -> Window | None:
    """Return the earliest and the latest sailing for a window of arrival at the port, or None where the list has ended."""
    first, last = (find_sailing(day, service) for day in at_port)
    return (first, last) if first and last else None


def latest_start(
    wanted: date, arrival: Callable[[date], date | None], *, soonest: date, within_days: int = 366
) -> date | None:
    """Return the last day to start, from `soonest` on, that still arrives by `wanted`; None where no day does.

    `arrival` gives the latest arrival for a start, never earlier for a later start, None for never: so halving finds the day.
    """

    def is_in_time(days: int) -> bool:
        day = arrival(soonest + timedelta(days=days))
        return day is not None and day <= wanted

    if not is_in_time(0):
        return None
    good, bad = 0, within_days + 1
    while bad - good > 1:
        middle = (good + bad) // 2
        good, bad = (middle, bad) if is_in_time(middle) else (good, middle)
    return soonest + timedelta(days=good)


def days_waiting(at_port: date, sailing: date, service: Service) -> int:
    """Return the days a vehicle stands at the terminal beyond the cut-off it was in time for: what storage is charged on."""
    return max((sailing - timedelta(days=service.cutoff_days) - at_port).days, 0)
