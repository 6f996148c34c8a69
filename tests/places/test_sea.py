"""The network itself: closing passages, symmetry, points that are no port, and what a search costs."""

import time

import numpy as np
import pytest

from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.places.place import Place
from shipcalc.places.sea.geometry import geodesic_nmi_columns
from shipcalc.places.sea.miles import load_network, sea_distance, sea_distances, sea_track
from shipcalc.places.sea.ports import find_port

SAMPLE = ("USNYC", "USSAV", "USSEA", "USHOU", "DEBRV", "SAJED", "ZADUR", "JPYOK", "AUBNE", "CLVAP", "SGSIN", "ISREY")


@pytest.fixture(scope="module")
def network():
    return load_network()


def route(network, from_code, to_code, closed=()):
    found = sea_distances(network, find_port(from_code), [find_port(to_code)], closed=closed)
    return float(found.nmi[0]), found.passages[0]


def test_without_suez_a_ship_for_jeddah_rounds_the_cape_of_good_hope(network):
    by_suez, _ = route(network, "USNYC", "SAJED")
    by_cape, passages = route(network, "USNYC", "SAJED", closed={"suez"})
    assert passages == ("good hope", "bab-el-mandeb")
    assert by_cape > 1.7 * by_suez


def test_without_panama_a_ship_for_los_angeles_takes_magellan_or_the_horn(network):
    by_canal, _ = route(network, "USNYC", "USLAX")
    around, passages = route(network, "USNYC", "USLAX", closed={"panama"})
    assert passages in {("magellan",), ("horn",)}
    assert around > 2.4 * by_canal
    further, passages = route(network, "USNYC", "USLAX", closed={"panama", "magellan"})
    assert passages == ("horn",)
    assert further >= around


def test_without_the_kiel_canal_a_ship_rounds_the_skaw(network):
    short, passages = route(network, "DEHAM", "PLGDN")
    assert passages == ("kiel",)
    around, passages = route(network, "DEHAM", "PLGDN", closed={"kiel"})
    assert passages in {("oresund",), ("great belt",)}
    assert around > short + 200


def test_closing_a_passage_never_shortens_a_way(network):
    places = [find_port(code) for code in SAMPLE]
    open_all = sea_distances(network, places[0], places).nmi
    for name in ("suez", "panama", "gibraltar", "malacca", "dover", "bab-el-mandeb"):
        assert (sea_distances(network, places[0], places, closed={name}).nmi >= open_all).all()


def test_a_port_shut_in_by_a_closed_strait_has_no_way_out(network):
    black_sea = find_port("UAODS")
    found = sea_distances(network, find_port("USNYC"), [black_sea], closed={"bosporus"})
    assert np.isinf(found.nmi[0])
    assert found.passages == ((),)
    with pytest.raises(NoAnswer, match="bosporus closed"):
        sea_distance(
            network,
            latitude_a=40.7,
            longitude_a=-74.02,
            latitude_b=black_sea.latitude,
            longitude_b=black_sea.longitude,
            closed={"bosporus"},
        )


def test_an_unknown_passage_is_refused_with_the_names_that_are_known(network):
    with pytest.raises(WrongInput, match="suez"):
        route(network, "USNYC", "SAJED", closed={"suess"})


def test_the_arctic_passages_are_never_used(network):
    _, passages = route(network, "NOOSL", "JPYOK")
    assert "northeast" not in passages
    assert "suez" in passages


def test_a_way_is_as_long_there_as_back_and_never_shorter_than_the_straight_line(network):
    places = [find_port(code) for code in SAMPLE]
    table = np.array([sea_distances(network, place, places).nmi for place in places])
    np.testing.assert_allclose(table, table.T, atol=0.02)
    latitude, longitude = np.array([(place.latitude, place.longitude) for place in places]).T
    straight = geodesic_nmi_columns(
        latitude_a=latitude[:, None], longitude_a=longitude[:, None], latitude_b=latitude, longitude_b=longitude
    )
    assert (table >= straight - 0.5).all()
    assert np.diag(table).max() == 0
    # A detour over a third port is never shorter by more than that port's harbour, left and entered again.
    assert (table[:, None, :] <= table[:, :, None] + table[None, :, :] + 1e-6).all()


def test_a_point_that_is_no_port_is_joined_to_the_lanes_and_says_so(network):
    cove = Place(name="An invented cove", kind="point", country="US", latitude=40.62, longitude=-72.4)
    found = sea_distances(network, cove, [find_port("GBSOU"), find_port("USNYC")])
    assert "straight line" in found.notes[0]
    assert 3000 < found.nmi[0] < 3200
    assert 60 < found.nmi[1] < 100


def test_a_point_far_inland_has_no_way_by_sea(network):
    with pytest.raises(NoAnswer, match="no way by sea"):
        sea_distance(network, latitude_a=39.74, longitude_a=-104.98, latitude_b=51.9, longitude_b=4.48)


def test_the_network_is_read_and_searched_in_milliseconds():
    """Aims: 20 ms to read, 50 ms a search; four times as much is allowed to a busy machine."""
    load_network.cache_clear()
    started = time.perf_counter()
    network = load_network()
    read = time.perf_counter() - started
    places = [find_port(code) for code in SAMPLE]
    best = min(_seconds(network, place, places) for place in places)
    assert read < 0.4
    assert best < 0.2


def _seconds(network, place, places):
    started = time.perf_counter()
    sea_distances(network, place, places)
    return time.perf_counter() - started


def test_the_points_of_a_way_are_as_far_apart_as_the_way_is_long(network):
    """What is drawn is what was measured: from lane to lane, without how the two ports are joined to them."""
    for from_code in SAMPLE[:4]:
        for to_code in SAMPLE[4:]:
            nmi, _ = route(network, from_code, to_code)
            track = sea_track(network, find_port(from_code), find_port(to_code))
            lengths = geodesic_nmi_columns(
                latitude_a=track[:-1, 0], longitude_a=track[:-1, 1], latitude_b=track[1:, 0], longitude_b=track[1:, 1]
            )
            assert nmi * 0.97 - 90 < lengths.sum() <= nmi * 1.001, (from_code, to_code)


def test_there_are_no_points_where_no_way_is_open(network):
    closed = {"suez", "good hope", "bab-el-mandeb"}
    assert len(sea_track(network, find_port("USNYC"), find_port("SAJED"), closed=closed)) == 0
