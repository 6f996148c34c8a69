"""What is odd about the road factors: python -m shipcalc.places.making.lanes_report [--write]

Prints the text of `data/lanes/REPORT.md`, in a minute or so; `--write` writes it there, for the table that it was made of.

Lanes between ZIPs of the contiguous states that roads reach. A factor below 1 cannot be; above 2.5 it wants a reason, a row of
`data/lanes/barriers.csv` on the line between the two. A lane must be as long back as forth, and hardly longer than the way
over a third place. The places are chosen by their order, not by chance, so that the report is the same every time.
"""

import hashlib
import sys

import numpy as np
from numpy.typing import NDArray

from shipcalc.places.gazetteer.pages import all_postal_codes
from shipcalc.places.gazetteer.regions import US_STATES
from shipcalc.places.place import Place
from shipcalc.places.road.lanes import LONGEST_WITHOUT_BARRIER, LaneTable, lane_table
from shipcalc.places.road.lanes_barriers import barrier_between, barriers
from shipcalc.places.road.lanes_table import CODES_FILE, FOLDER, HUBS_FILE
from shipcalc.places.road.reach import NORTH_AMERICA, land_of
from shipcalc.places.straight import great_circle_mi_columns
from shipcalc.records import dataclass

# Every so many-th ZIP is asked for all its neighbours as far as this, and every so many-th for all of the country.
NEAR_EVERY, NEAR_MI, FAR_EVERY, TRIANGLES_EVERY = 12, 300.0, 20, 150

# So much longer than over a third place is a fault of the table, not of rounding and of hubs that are not quite the place.
TRIANGLE_TOLERANCE, TRIANGLE_AT_LEAST_MI = 0.05, 50.0

FILE = FOLDER / "REPORT.md"
ABOUT = """\
# What is odd about the road factors

Made by `python -m shipcalc.places.making.lanes_report --write`. Between ZIPs of the contiguous states that roads or home ferries
reach no factor may be below 1, and one above 2.5 needs a barrier of `barriers.csv` on its line. Each barrier with its worst lane.

"""

PER_BLOCK = 2_000_000
PRINTED = 10

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Zips:
    """ZIPs and where they are, degrees [n, 2]."""

    codes: NDArray[np.str_]
    places: Floats

    def every(self, step: int) -> "Zips":
        """Return every so many-th."""
        return Zips(self.codes[::step], self.places[::step])


@dataclass(frozen=True, slots=True)
class OddLane:
    """A lane between two ZIPs that is odd: its factor, and the barrier on its line, "" where none is listed."""

    start: str
    to: str
    great_circle_mi: float
    factor: float
    barrier: str


@dataclass(frozen=True, slots=True)
class Detour:
    """A lane that is longer than the way over a third ZIP, by this share."""

    start: str
    over: str
    to: str
    lane_mi: float
    detour_mi: float

    @property
    def share(self) -> float:
        """How much shorter the detour is than the lane."""
        return 1 - self.detour_mi / self.lane_mi


def reached_zips() -> Zips:
    """Return the ZIPs of the contiguous states that are on the home road network."""
    zips = all_postal_codes()
    reached = [
        code
        for code, state, north, east in zip(
            zips.codes.tolist(), zips.state.tolist(), zips.latitude.tolist(), zips.longitude.tolist(), strict=True
        )
        if state in US_STATES and state not in ("AK", "HI") and _is_reached(code, state, north, east)
    ]
    kept = np.isin(zips.codes, reached)
    return Zips(zips.codes[kept], np.stack([zips.latitude[kept], zips.longitude[kept]], axis=1).astype(np.float64))


def _is_reached(code: str, state: str, latitude: float, longitude: float) -> bool:
    place = Place(
        name=code,
        kind="postal code",
        country="US",
        subdivision=state,
        postal_code=code,
        latitude=latitude,
        longitude=longitude,
    )
    return land_of(place).name == NORTH_AMERICA


def odd_lanes(table: LaneTable, a: Zips, b: Zips, *, up_to_mi: float) -> tuple[int, int, list[OddLane]]:
    """Return how many of all lanes from a to b have no factor, how many there are, and those with an odd one."""
    found, unknown, asked = [], 0, 0
    rows = max(1, PER_BLOCK // len(b.codes))
    for first in range(0, len(a.codes), rows):
        here, there = (index.ravel() for index in np.indices((len(a.codes[first : first + rows]), len(b.codes))))
        here += first
        straight_mi = _miles_apart(a.places[here], b.places[there])
        kept = (straight_mi > 0) & (straight_mi <= up_to_mi) & (a.codes[here] < b.codes[there])
        here, there, straight_mi = here[kept], there[kept], straight_mi[kept]
        factor = _factors(table, a.places[here], b.places[there])
        asked += len(factor)
        unknown += int(np.isnan(factor).sum())
        odd = np.flatnonzero((factor < 1) | (factor > LONGEST_WITHOUT_BARRIER))
        barrier = barrier_between(a.places[here[odd]], b.places[there[odd]])
        found += [
            OddLane(str(a.codes[here[at]]), str(b.codes[there[at]]), float(straight_mi[at]), float(factor[at]), name)
            for at, name in zip(odd, (barriers()[0][row] if row >= 0 else "" for row in barrier), strict=True)
        ]
    return unknown, asked, found


def asymmetry(table: LaneTable, zips: Zips) -> float:
    """Return the largest difference between a lane's factor forth and back."""
    here, there = (index.ravel() for index in np.triu_indices(len(zips.codes), 1))
    forth = _factors(table, zips.places[here], zips.places[there])
    back = _factors(table, zips.places[there], zips.places[here])
    return float(np.nanmax(np.abs(forth - back)))


def detours(table: LaneTable, zips: Zips) -> tuple[int, list[Detour]]:
    """Return how many lanes there are between ZIPs, and those that a way over a third one undercuts, the worst first."""
    count = len(zips.codes)
    here, there = (index.ravel() for index in np.indices((count, count)))
    straight_mi = _miles_apart(zips.places[here], zips.places[there])
    miles = (_factors(table, zips.places[here], zips.places[there]) * straight_mi).reshape(count, count)
    miles[np.isnan(miles)] = np.inf
    np.fill_diagonal(miles, np.inf)
    found, lanes = [], 0
    for start in range(count):
        over = miles[start][:, None] + miles
        third = over.argmin(axis=0)
        shortest = over[third, np.arange(count)]
        asked = (np.arange(count) > start) & np.isfinite(miles[start]) & (miles[start] >= TRIANGLE_AT_LEAST_MI)
        lanes += int(asked.sum())
        for to in np.flatnonzero(asked & (shortest < (1 - TRIANGLE_TOLERANCE) * miles[start])):
            first, over_which, last = (str(zips.codes[at]) for at in (start, third[to], to))
            found.append(Detour(first, over_which, last, float(miles[start, to]), float(shortest[to])))
    return lanes, sorted(found, key=lambda detour: -detour.share)


def _miles_apart(a: Floats, b: Floats) -> Floats:
    return great_circle_mi_columns(latitude_a=a[:, 0], longitude_a=a[:, 1], latitude_b=b[:, 0], longitude_b=b[:, 1])


def _factors(table: LaneTable, a: Floats, b: Floats) -> Floats:
    return table.factors(latitude_a=a[:, 0], longitude_a=a[:, 1], latitude_b=b[:, 0], longitude_b=b[:, 1])


def report(table: LaneTable, zips: Zips) -> list[str]:
    """Return the lines of the report."""
    near = odd_lanes(table, zips.every(NEAR_EVERY), zips, up_to_mi=NEAR_MI)
    far = odd_lanes(table, zips.every(FAR_EVERY), zips.every(FAR_EVERY), up_to_mi=np.inf)
    lanes, found = detours(table, zips.every(TRIANGLES_EVERY))
    return [
        *_told(f"{NEAR_MI:.0f} miles apart or less", *near),
        *_told("any distance apart", *far),
        f"Largest difference between forth and back: {asymmetry(table, zips.every(TRIANGLES_EVERY)):g}",
        f"{len(found):,} of {lanes:,} lanes are longer by more than {TRIANGLE_TOLERANCE:.0%} than over a third ZIP; the worst:",
        *(
            f"  {detour.start} – {detour.to}: {detour.lane_mi:,.0f} miles, over {detour.over} {detour.detour_mi:,.0f}"
            for detour in found[:PRINTED]
        ),
    ]


def _told(what: str, unknown: int, asked: int, found: list[OddLane]) -> list[str]:
    """Return what is said of the lanes of one kind: each barrier with its worst lane, and each lane without a reason."""
    below = sum(odd.factor < 1 for odd in found)
    counted = (
        f"{asked:,} lanes between ZIPs {what}: {unknown:,} without a factor, {below:,} below 1, {len(found):,} odd"
    )
    lines = [counted]
    worst = sorted(found, key=lambda odd: -odd.factor)
    for name in sorted({odd.barrier for odd in found}):
        here = [odd for odd in worst if odd.barrier == name]
        first = here[0]
        lines.append(
            f"  {name or 'NO REASON LISTED'}: {len(here):,}, the worst {first.start} – {first.to}, "
            f"{first.great_circle_mi:,.0f} miles × {first.factor:.2f}"
        )
    return lines


def made_of() -> list[str]:
    """Return the lines that name the files of the table by their content."""
    return [
        f"{name}: sha256 {hashlib.sha256((FOLDER / name).read_bytes()).hexdigest()}" for name in (HUBS_FILE, CODES_FILE)
    ]


def main(*, write: bool) -> None:
    """Print the report, and write it where it is kept."""
    lines = ["```", *made_of(), "", *report(lane_table(), reached_zips()), "```", ""]
    text = ABOUT + "\n".join(lines)
    if write:
        FILE.write_text(text, encoding="utf-8")
    sys.stdout.write(text)


if __name__ == "__main__":
    main(write="--write" in sys.argv[1:])
