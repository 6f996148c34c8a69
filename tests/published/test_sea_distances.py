"""Sea distances against Distances Between Ports, NGA Pub. 151, 11th edition, 2001 (public domain), entry by port.

The pairs stand in `shipcalc/places/data/sea/published.tsv` with their entry and how they were read. "Composed" is the sum over
the junction points of the book (Bishop Rock, Fastnet, Strait of Gibraltar, Port Said, Panama, Cape of Good Hope).
"""

import pytest

from shipcalc.places.making.sea_accuracy import accuracy, accuracy_table, computed_nmi, published_lanes
from shipcalc.places.sea.miles import load_network, sea_distances
from shipcalc.places.sea.ports import find_port


@pytest.fixture(scope="module")
def lanes_and_miles():
    lanes = published_lanes()
    return lanes, computed_nmi(lanes)


def test_long_lanes_that_guided_no_choice_come_within_a_per_cent_of_the_book():
    table = {row.label: row for row in accuracy_table()}
    held_out = table["held out, 2,000 nmi and more"]
    assert held_out.count >= 25
    assert held_out.median <= 0.5
    assert held_out.p95 <= 1.5


def test_no_published_lane_is_far_from_the_book(lanes_and_miles):
    lanes, nmi = lanes_and_miles
    far = {
        (lane.from_code, lane.to_code): round(float(miles) / lane.nmi - 1, 3)
        for lane, miles in zip(lanes, nmi, strict=True)
        if abs(miles / lane.nmi - 1) > 0.03
    }
    assert far == {}


def test_the_whole_set_has_no_bias_to_speak_of(lanes_and_miles):
    lanes, nmi = lanes_and_miles
    assert abs(accuracy("all", lanes, nmi).bias) <= 0.3


@pytest.mark.parametrize(
    ("from_code", "to_code", "passages"),
    [
        ("USNYC", "DEBRV", ("dover",)),
        ("USLAX", "DEBRV", ("panama", "dover")),
        ("USJAX", "ITLIV", ("gibraltar",)),
        ("USNYC", "SAJED", ("gibraltar", "suez")),
        ("USNYC", "AEAUH", ("gibraltar", "suez", "bab-el-mandeb", "hormuz")),
        ("USNYC", "NZAKL", ("panama",)),
        ("USORF", "JPYOK", ("panama",)),
        ("USJAX", "ZADUR", ("good hope",)),
        ("USNYC", "BRSSZ", ()),
        ("USSFO", "CNSHA", ("tsugaru",)),
    ],
)
def test_the_passages_are_those_the_book_goes_through(from_code, to_code, passages):
    """The via of the composed and printed entries; Dover and Tsugaru (San Francisco – Shanghai, printed) by geography."""
    here, there = find_port(from_code), find_port(to_code)
    assert sea_distances(load_network(), here, [there]).passages == (passages,)
