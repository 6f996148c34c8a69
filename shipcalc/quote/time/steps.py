"""The dates of one way: what the buyer is told step by step, and what the papers are dated by."""

from collections.abc import Mapping
from datetime import date

from shipcalc.quote.model import Dates, Milestone, Window
from shipcalc.quote.time.road_days import Span
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class Timeline:
    """The dates, the windows of every stage for the papers, and warnings."""

    dates: Dates
    stages: Mapping[str, Window]
    warnings: tuple[str, ...]


def step(what: str, window: Window, stage: str, note: str = "", office_note: str = "") -> Milestone:
    """Return one step of a timeline."""
    return Milestone(what=what, earliest=window[0], latest=window[1], stage=stage, note=note, office_note=office_note)


def window_of(span: Span, way: int) -> Window:
    """Return the first and the last day of a step of one way."""
    return date.fromordinal(int(span.earliest[way])), date.fromordinal(int(span.latest[way]))


def ended(stages: Mapping[str, Window], delivery: Window) -> Mapping[str, Window]:
    """Return the moments with the last ones of all."""
    return {**stages, "delivery": delivery, "after delivery": delivery}
