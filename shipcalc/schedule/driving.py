"""How long a truck takes over the road under the federal hours of service (49 CFR 395.3, property-carrying vehicles).

One rested driver who drives whenever the rule lets him. Two drivers in turn, adverse conditions, short-haul exceptions and the
sleeper-berth split (49 CFR 395.1) are left out: they only make a trip shorter or are the carrier's own affair.
"""

from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class HoursOfService:
    """The limits, all in hours. The defaults are 49 CFR 395.3 with the paragraph beside each.

    `before_driving_h` is the on-duty work before each shift (walk-round inspection, loading): half an hour is common practice,
    no source. The cycle of 60 hours in 7 days, (b)(1), is for a carrier that does not drive every day: pass `cycle_h=60`.
    """

    off_duty_h: float = 10.0  # (a)(1) ten hours off before a shift
    window_h: float = 14.0  # (a)(2) no driving after the fourteenth hour since coming on duty
    driving_h: float = 11.0  # (a)(3)(i)
    before_break_h: float = 8.0  # (a)(3)(ii) eight hours of driving, then …
    break_h: float = 0.5  # … thirty minutes without driving
    cycle_h: float = 70.0  # (b)(2) on duty in eight days
    restart_h: float = 34.0  # (c) off duty, and the cycle begins anew
    before_driving_h: float = 0.5


PROPERTY_CARRYING = HoursOfService()


@dataclass(frozen=True, slots=True, kw_only=True)
class RoadTime:
    """What a trip takes: hours at the wheel, shifts, half-hour breaks, 34-hour restarts, hours from start to arrival."""

    driving_h: float
    shifts: int
    breaks: int
    restarts: int
    elapsed_h: float


def road_time(*, miles: float, speed_mph: float, rules: HoursOfService = PROPERTY_CARRYING) -> RoadTime:
    """Return how long `miles` take at an average of `speed_mph`, from coming on duty to arriving.

    A cycle that no longer holds a full shift and would not finish the trip is given up for the restart at once: driving its
    last hour first would only put another ten hours off before the thirty-four.
    """
    assert speed_mph > 0, "a truck that stands still never arrives"
    full_shift_h = _longest_drive(rules)
    assert full_shift_h > 0, "the work before driving leaves no time to drive"
    assert rules.cycle_h >= rules.before_driving_h + full_shift_h, "the cycle does not hold one shift"

    driving_h = round(miles / speed_mph, 9)  # 5,808 mi at 52.8 mph are 110 h, not a hair more and one shift too many
    left_h, on_duty_h, elapsed_h = driving_h, 0.0, 0.0
    shifts = breaks = restarts = 0
    while left_h > 0:
        drive_h = min(left_h, full_shift_h)
        if shifts:
            fits = on_duty_h + rules.before_driving_h + drive_h <= rules.cycle_h
            elapsed_h += rules.off_duty_h if fits else rules.restart_h
            if not fits:
                restarts += 1
                on_duty_h = 0.0
        pauses = _pauses(drive_h, rules)
        shifts += 1
        breaks += pauses
        on_duty_h += rules.before_driving_h + drive_h
        elapsed_h += rules.before_driving_h + drive_h + pauses * rules.break_h
        left_h -= drive_h
    return RoadTime(driving_h=driving_h, shifts=shifts, breaks=breaks, restarts=restarts, elapsed_h=elapsed_h)


def _pauses(drive_h: float, rules: HoursOfService) -> int:
    """Return how many breaks a shift of that much driving needs: one before each hour beyond a full stretch."""
    stretches = -(-drive_h // rules.before_break_h)
    return max(int(stretches) - 1, 0)


def _longest_drive(rules: HoursOfService) -> float:
    """Return the most driving one shift holds: the driving limit, or what the window leaves beside work and breaks."""
    left_h = rules.window_h - rules.before_driving_h
    drive_h = 0.0
    while left_h > 0 and drive_h < rules.driving_h:
        stretch_h = min(rules.before_break_h, left_h, rules.driving_h - drive_h)
        drive_h += stretch_h
        left_h -= stretch_h + rules.break_h
    return drive_h
