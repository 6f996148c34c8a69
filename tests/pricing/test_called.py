"""What is on the road from a port, and what insures the way, is called after what carries the vehicle there."""

import numpy as np

from shipcalc.pricing.cover import cover_lines
from shipcalc.pricing.loads import Freight
from shipcalc.pricing.on_carriage import on_carriage_lines
from shipcalc.ratebook.rows.marine_cover import MarineCover
from shipcalc.ratebook.rows.on_carriage import OnCarriage
from shipcalc.trade import CROSSINGS, SHIP, Called, called_by

RAIL = Called(place="ramp", carrier="train", cover="cover", cargo_cover="cargo cover")
DEAD = Freight(
    revenue_tons=np.zeros((1, 1), dtype=np.int64),
    cubic_metres=np.zeros((1, 1), dtype=np.int64),
    drives=np.array([[False]]),
    rolls=np.array([[True]]),
)
HAULIER = OnCarriage(
    country="CA",
    trailer="open",
    base_minor=10_000,
    rate_e4=20_000,
    minimum_minor=90_000,
    currency="USD",
    miles_a_day=400,
    spare_days=1,
    winch_minor=5_000,
)


def test_the_road_on_begins_at_a_ramp_where_a_train_came() -> None:
    lines = on_carriage_lines([HAULIER], np.array([100]), [None], DEAD, markup_ppm=0, currency="USD", place=RAIL.place)
    assert [line.label for line in lines if "door" not in line.label] == [
        "Carriage from the ramp, base",
        "Carriage from the ramp, open truck",
        "Top-up to the minimum for carriage from the ramp",
        "Winch, onto the truck at the ramp",
    ]


def test_cover_is_a_marine_one_beside_a_ship_alone() -> None:
    row = MarineCover(conditions="A", insured_ppm=1_100_000, rate_ppm=10_000, minimum_minor=0, excess_ppm=0)
    told = [next(iter(cover_lines(row, np.array([5_000_000]), *called))).label for called in ((), (RAIL,))]
    assert told == [
        "Marine cargo cover, conditions A, on 110 % of price and carriage",
        "Cargo cover, conditions A, on 110 % of price and carriage",
    ]


def test_ways_without_a_ship_are_spoken_of_as_with_one() -> None:
    assert called_by(["truck", "driven", "ferry"]) == (SHIP,)
    assert called_by(crossing.mode for crossing in CROSSINGS) == (SHIP,), "each once"
