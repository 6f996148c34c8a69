"""How near the sea miles come to published ones: python -m shipcalc.places.making.sea_accuracy [--lanes]

The published distances are those of `data/sea/published.tsv` (NGA Pub. 151). No factor is fitted to them: a way is as long as
its geodesics. One choice was made with the book in hand, that ships between the United States and Europe round the tail of the
Grand Banks. The lanes that led to it (United States Atlantic to Bishop Rock or Fastnet Rock) are *guided*; all others are held
out, and they tell how near a new lane will be.
"""

import sys
from functools import cache
from pathlib import Path

import numpy as np

from shipcalc.places.sea.geometry import Floats
from shipcalc.places.sea.miles import load_network, sea_distances
from shipcalc.places.sea.ports import find_port
from shipcalc.records import dataclass

FILE = Path(__file__).parents[1] / "data" / "sea" / "published.tsv"
LED_TO_THE_BANKS = ("via Bishop Rock", "via Fastnet Rock")
LONG_NMI = 2000.0


@dataclass(frozen=True, slots=True)
class PublishedLane:
    """One distance of the book: two UN/LOCODEs, nautical miles, its entry, and whether printed or composed."""

    from_code: str
    to_code: str
    nmi: int
    entry: str
    how: str
    guided: bool


@dataclass(frozen=True, slots=True)
class Accuracy:
    """Relative errors of one set in per cent; `bias` is the median of the signed errors."""

    label: str
    count: int
    mean: float
    median: float
    p95: float
    worst: float
    bias: float


@cache
def published_lanes() -> tuple[PublishedLane, ...]:
    """Return the published distances in the order of their codes."""
    rows = sorted(line.split("\t") for line in FILE.read_text(encoding="utf-8").splitlines()[1:])
    return tuple(
        PublishedLane(from_code, to_code, int(nmi), entry, how, guided=how.endswith(LED_TO_THE_BANKS))
        for from_code, to_code, nmi, entry, how in rows
    )


def computed_nmi(lanes: tuple[PublishedLane, ...]) -> Floats:
    """Return the program's miles for each lane, one search per port of departure."""
    network = load_network()
    nmi = np.zeros(len(lanes))
    for code in sorted({lane.from_code for lane in lanes}):
        mine = [number for number, lane in enumerate(lanes) if lane.from_code == code]
        here, there = find_port(code), [find_port(lanes[number].to_code) for number in mine]
        known = [place for place in (here, *there) if place is not None]
        assert len(known) == len(mine) + 1, f"a port of the lanes from {code} is not in the table"
        nmi[mine] = sea_distances(network, known[0], known[1:]).nmi
    return nmi


def accuracy(label: str, lanes: tuple[PublishedLane, ...], nmi: Floats) -> Accuracy:
    """Return the relative errors of computed miles against the book."""
    error = 100 * (nmi / np.array([lane.nmi for lane in lanes]) - 1)
    size = np.abs(error)
    figures = (size.mean(), np.median(size), np.percentile(size, 95), size.max(), np.median(error))
    return Accuracy(label, len(lanes), *(float(figure) for figure in figures))


def accuracy_table() -> tuple[Accuracy, ...]:
    """Return the errors on the lanes that guided a choice, on those held out, and on the long and short ones among these."""
    lanes = published_lanes()
    nmi = computed_nmi(lanes)
    sets = {
        "guided": [lane.guided for lane in lanes],
        "held out": [not lane.guided for lane in lanes],
        "held out, 2,000 nmi and more": [not lane.guided and lane.nmi >= LONG_NMI for lane in lanes],
        "held out, under 2,000 nmi": [not lane.guided and lane.nmi < LONG_NMI for lane in lanes],
        "all": [True] * len(lanes),
    }
    return tuple(
        accuracy(label, tuple(lane for lane, chosen in zip(lanes, mask, strict=True) if chosen), nmi[np.array(mask)])
        for label, mask in sets.items()
    )


def report(*, lane_by_lane: bool) -> str:
    """Return the table as text, with a line for each lane where asked."""
    lines = [f"{'Pub. 151, sea network':30} {'n':>4} {'mean %':>7} {'median':>7} {'p95':>7} {'worst':>7} {'bias':>7}"]
    lines += [
        f"{row.label:30} {row.count:4} {row.mean:7.2f} {row.median:7.2f} {row.p95:7.2f} {row.worst:7.2f} {row.bias:+7.2f}"
        for row in accuracy_table()
    ]
    if lane_by_lane:
        lanes = published_lanes()
        lines += [
            f"{lane.from_code} {lane.to_code} {lane.nmi:6} {nmi:8.0f} {100 * (nmi / lane.nmi - 1):+6.2f} % "
            f"{'guided' if lane.guided else '      '} {lane.entry}, {lane.how}"
            for lane, nmi in zip(lanes, computed_nmi(lanes).tolist(), strict=True)
        ]
    return "\n".join(lines)


if __name__ == "__main__":
    sys.stdout.write(report(lane_by_lane="--lanes" in sys.argv[1:]) + "\n")
