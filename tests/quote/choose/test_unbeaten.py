"""The rule of the choices, held to comparing every way with every other one by one."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from shipcalc.quote.choose.unbeaten import MOST_CHOICES, Compared, shown, unbeaten

KINDS = ("open", "enclosed", "driven")


def _ways(highest: int):
    numbers = (highest, highest, highest, len(KINDS) - 1)
    return st.integers(1, 40).flatmap(
        lambda n: st.tuples(*(st.lists(st.integers(0, high), min_size=n, max_size=n) for high in numbers))
    )


few_alike, many_alike = _ways(60), _ways(4)


def columns(drawn) -> tuple[np.ndarray, ...]:
    return tuple(np.array(column, dtype=np.int64) for column in drawn)


def compared(drawn) -> Compared:
    return Compared(*columns(drawn), kinds=KINDS, best="most cover", better="more cover")


def beats(one: tuple[int, ...], other: tuple[int, ...]) -> bool:
    """Price and days no more, protection no less, same kind, and not the same in all."""
    return one != other and one[0] <= other[0] and one[1] <= other[1] and one[2] >= other[2] and one[3] == other[3]


def brute_front(drawn) -> set[tuple[int, ...]]:
    ways = set(zip(*drawn, strict=True))
    return {way for way in ways if not any(beats(other, way) for other in ways)}


@given(few_alike | many_alike)
def test_unbeaten_is_what_comparing_all_with_all_says(drawn) -> None:
    ways = list(zip(*drawn, strict=True))
    kept = unbeaten(*columns(drawn)).tolist()
    assert {ways[at] for at in kept} == brute_front(drawn)
    assert len(kept) == len(brute_front(drawn)), "of equals one stays"
    assert all(ways.index(ways[at]) == at for at in kept), "the first one"


@given(few_alike | many_alike)
def test_up_to_six_are_all_shown_and_of_more_those_that_buyers_ask_for(drawn) -> None:
    front = brute_front(drawn)
    found = [(tuple(column[one.way] for column in drawn), one.good_for) for one in shown(compared(drawn))]
    ways = [way for way, _ in found]
    assert set(ways) <= front
    assert len(ways) == min(len(front), MOST_CHOICES)
    assert [way[0] for way in ways] == sorted(way[0] for way in ways)
    assert all(good_for for _, good_for in found)
    for kind in {way[3] for way in front}:
        assert min(way[0] for way in front if way[3] == kind) in {way[0] for way in ways if way[3] == kind}
    prices = sorted({min(way[0] for way in front if way[3] == kind) for kind in {way[3] for way in front}})
    assert found[0][0][0] == prices[0]
    assert "lowest price" in found[0][1]
    kinds = {way[3] for way in front}
    if len(kinds) < len(KINDS):  # five merits at most: two lowest, two soonest, the best protected
        for kind in kinds:
            assert min(way[1] for way in front if way[3] == kind) in {way[1] for way in ways if way[3] == kind}
        assert max(way[2] for way in front) in {way[2] for way in ways}


@given(few_alike, st.lists(st.booleans(), min_size=40, max_size=40))
def test_what_is_recommended_is_shown_whatever_else_is_unbeaten(drawn, chosen) -> None:
    mask = np.array(chosen[: len(drawn[0])])
    front = unbeaten(*columns(drawn)).tolist()
    cheapest = next((at for at in front if mask[at]), None)
    found = shown(compared(drawn), first=((mask, "lowest price of these"),))
    assert cheapest is None or cheapest in [one.way for one in found]


def test_a_sooner_enclosed_trailer_hides_no_open_one() -> None:
    """An open truck at 1,155 by the 4th was hidden behind an enclosed one at 3,240 by the 3rd."""
    price, days, cover = (1_100, 1_155, 1_900, 3_240), (9, 4, 8, 3), (1, 1, 2, 2)
    found = shown(compared((price, days, cover, (0, 0, 1, 1))))
    assert [(one.way, one.good_for) for one in found] == [
        (0, ("lowest price",)),
        (1, ("soonest, open",)),
        (2, ("lowest price, enclosed", "most cover")),
        (3, ("soonest",)),
    ]


def test_what_is_neither_lowest_nor_soonest_says_what_it_has() -> None:
    found = shown(compared(((10, 20, 30, 40), (9, 5, 2, 9), (1, 1, 1, 2), (0,) * 4)))
    assert [one.good_for[0] for one in found] == [
        "lowest price",
        "sooner than at the lowest price",
        "soonest",
        "most cover",
    ]
