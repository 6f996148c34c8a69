"""Containers against ISO 6346 (numbers), ISO 668 / 1496-1 (least sizes, read at second hand) and the worked fits that follow."""

import pytest

from shipcalc.errors import WrongInput
from shipcalc.pricing.fit import does_not_fit, packings
from shipcalc.ratebook.rows.containers import ContainerType
from shipcalc.records import replace
from shipcalc.vehicles.container_number import container_check_digit, container_number
from shipcalc.vehicles.vehicle import Vehicle

# ISO 1496-1 least inside sizes and door openings, in millimetres (feet and inches read in a forwarder's reproduction of the
# standard's table: 20′ 19′3″ × 7′7¾″ × 7′8½″; 40′ 39′4⅜″; high cube 8′8½″; door 7′6″ × 7′5″, high cube 8′5″).
ROOMS = {"20′": (5867, 2350, 2261), "40′": (11998, 2350, 2261), "40′HC": (11998, 2655, 2566)}


def container(name: str) -> ContainerType:
    length, height, door_height = ROOMS[name]
    return ContainerType(
        container=name,
        inside_length_mm=length,
        inside_width_mm=2330,
        inside_height_mm=height,
        door_width_mm=2286,
        door_height_mm=door_height,
        payload_kg=20_000,
    )


def vehicle(length_mm: int, *, width_mm: int = 1_700, height_mm: int = 1_300) -> Vehicle:
    return Vehicle(
        stock_number="HV-1", length_mm=length_mm, width_mm=width_mm, height_mm=height_mm, mass_grams=1_200_000
    )


@pytest.mark.parametrize(
    ("ten", "digit"),
    [
        ("CSQU305438", 3),  # the standard's own example: the sum is 6,185
        ("MWCU605978", 4),
        ("CSQU300014", 0),  # the sum leaves 10, which is written 0
    ],
)
def test_the_check_digit_of_a_container_number(ten: str, digit: int) -> None:
    assert container_check_digit(ten) == digit
    assert container_number(f"{ten}-{digit}") == f"{ten[:4]} {ten[4:]} {digit}"


def test_a_wrong_check_digit_is_named() -> None:
    with pytest.raises(WrongInput, match="its check digit would be 3"):
        container_number("CSQU3054384")


@pytest.mark.parametrize("text", ["", "CSQ305438 3", "CSQX3054383", "CSQU30543", "container"])
def test_what_is_no_container_number_is_answered_with_an_example(text: str) -> None:
    with pytest.raises(WrongInput, match="CSQU 305438 3"):
        container_number(text)


def test_a_car_of_5715_mm_leaves_too_little_room_in_a_twenty_foot_container() -> None:
    assert "too long for a 20′" in does_not_fit(vehicle(5_715), container("20′"))
    assert not does_not_fit(vehicle(5_667), container("20′"))
    assert "too long" in does_not_fit(vehicle(5_668), container("20′"))


def test_the_door_decides_the_width_and_the_height() -> None:
    assert not does_not_fit(vehicle(4_000, width_mm=2_186), container("20′"))
    assert "too wide" in does_not_fit(vehicle(4_000, width_mm=2_187), container("20′"))
    assert not does_not_fit(vehicle(4_000, height_mm=2_211), container("40′"))
    assert "too high" in does_not_fit(vehicle(4_000, height_mm=2_212), container("40′"))
    assert not does_not_fit(vehicle(4_000, height_mm=2_516), container("40′HC"))


def test_two_cars_stand_nose_to_tail_with_three_clearances() -> None:
    room = 11_998 - 3 * 100
    first = vehicle(5_900)
    kinds = (container("40′"),)
    assert [len(p.containers) for p in packings((first, vehicle(room - 5_900)), kinds)].count(1) == 1
    assert all(len(p.containers) == 2 for p in packings((first, vehicle(room - 5_900 + 1)), kinds))


def test_a_vehicle_that_fits_nothing_leaves_no_packing() -> None:
    assert packings((vehicle(4_000), vehicle(12_500)), tuple(map(container, ROOMS))) == ()


def test_eight_small_cars_have_every_mix_and_none_twice() -> None:
    cars = tuple(replace(vehicle(3_500), stock_number=f"HV-{n}") for n in range(8))
    found = packings(cars, tuple(map(container, ROOMS)))
    names = [tuple(sorted((kind.container, len(members)) for kind, members in p.containers)) for p in found]
    assert len(names) == len(set(names))
    assert all(sorted(n for _, members in p.containers for n in members) == list(range(8)) for p in found)
    # Three cars of 3.5 m and four clearances of 0.1 m take 10.9 m of 11.998: three containers of 40′ are the fewest.
    assert min(len(p.containers) for p in found) == 3
