"""When every way gets there, as columns of days; and the same of one way."""

from datetime import date

import numpy as np

from shipcalc.money import Int64
from shipcalc.quote.model import Milestone, Window
from shipcalc.records import dataclass
from shipcalc.schedule.road import NEVER, RoadDates


@dataclass(frozen=True, slots=True, eq=False)
class Span:
    """The earliest and the latest day of a step, over all ways (w,)."""

    earliest: Int64
    latest: Int64

    def at(self, where: tuple[np.ndarray, ...]) -> "Span":
        """Return the days at some positions."""
        return Span(self.earliest[where], self.latest[where])


@dataclass(frozen=True, slots=True, eq=False)
class Days:
    """Every step over all ways, as ordinals; where there is no ship, terminal to arrival are the days of the truck.

    `trucks` are the days on which each truck service (down) is at each end (across, the buyer last).
    """

    trucks: Span
    terminal: Span
    cutoff: Span
    sailing: Span
    arrival: Span
    release: Span
    delivery: Span

    @property
    def possible(self) -> np.ndarray:
        """Return which ways get there at all: a list of sailings may have ended."""
        return self.sailing.latest < NEVER // 2


@dataclass(frozen=True, slots=True)
class Dated:
    """The days of one way, and what is told of how it goes aboard (`aboard`).

    `truck` is in time for the one ship that is meant; `is_tight`: it could come too late for it. `held` is how many days it waits
    in the yard, so that it stands in the terminal free of storage: pickup and terminal are so many days later.
    """

    truck: RoadDates
    pickup: Window
    terminal: Window
    cutoff: Window
    sailing: Window
    arrival: Window
    release: Window
    delivery: Window
    held: int = 0
    is_tight: bool = False
    aboard: str = ""


def window_of(span: Span, way: int) -> Window:
    """Return the first and the last day of a step of one way."""
    return date.fromordinal(int(span.earliest[way])), date.fromordinal(int(span.latest[way]))


def step(
    what: str, window: Window, stage: str, note: str = "", office_note: str = "", free_days: int | None = None
) -> Milestone:
    """Return one step of a timeline."""
    return Milestone(
        what=what,
        earliest=window[0],
        latest=window[1],
        stage=stage,
        note=note,
        office_note=office_note,
        free_days=free_days,
    )
