"""The buffer holds its share on bills that it was not made from."""

from datetime import date, timedelta

import numpy as np
import pytest

from shipcalc.learning.buffer import Buffer, TooFew, buffer_for
from shipcalc.learning.compared import Compared

DAY = date(2026, 1, 5)


def quotes_with(ratios: np.ndarray) -> list[Compared]:
    """Quotes of 10,000.00 each, day after day, with what was paid for each unit of that."""
    return [
        Compared(
            number=f"Q-2026-{number:04d}",
            kind="",
            carrier="Tern Haulage",
            lane="WA to MT",
            way="open trailer",
            miles=600,
            day=DAY + timedelta(days=number),
            reckoned_minor=1_000_000,
            sold_minor=1_140_000,
            paid_minor=round(ratio * 1_000_000),
        )
        for number, ratio in enumerate(ratios)
    ]


def drawn(seed: int, count: int) -> np.ndarray:
    rng = np.random.default_rng(seed)
    ratios = 1 + rng.normal(0.03, 0.06, count)
    return np.where(rng.random(count) < 0.05, ratios * rng.choice([10, 0.1, 2, 0.5], count), ratios)


@pytest.mark.parametrize("share", [0.8, 0.9])
def test_the_buffer_holds_its_share_on_later_bills(share: float) -> None:
    """Over 200 draws of 150 quotes: at least the share, and at most 1/(n + 1) more (the theorem), within chance: 0.01."""
    found = [buffer_for(quotes_with(drawn(seed, 150)), share) for seed in range(200)]
    held = np.mean([one.held / one.held_out for one in found if isinstance(one, Buffer)])
    assert share - 0.01 <= held <= share + 1 / 101 + 0.01


def test_the_buffer_of_all_holds_bills_that_come_after() -> None:
    held = []
    for seed in range(200):
        made = buffer_for(quotes_with(drawn(seed, 90)), 0.9)
        assert isinstance(made, Buffer)
        held.append(np.mean(drawn(10_000 + seed, 400) <= 1 + made.buffer))
    assert 0.89 <= np.mean(held) <= 0.9 + 1 / 91 + 0.01


def test_a_buffer_is_what_so_many_quotes_would_have_needed() -> None:
    """Of 99 quotes paid at 1 % to 99 % more, the one in place ⌈100 × 0.9⌉ = 90 was paid at 90 % more."""
    order = np.random.default_rng(3).permutation(np.arange(1, 100))
    made = buffer_for(quotes_with(1 + order / 100), 0.9)
    assert isinstance(made, Buffer)
    assert round(made.buffer, 9) == 0.90


def test_prices_that_rise_are_doubted() -> None:
    made = buffer_for(quotes_with(np.concatenate([np.linspace(0.95, 1.05, 60), np.linspace(1.1, 1.2, 30)])), 0.9)
    assert isinstance(made, Buffer)
    assert made.held == 0
    assert "only 0 of 30" in made.doubt


def test_too_few_quotes_give_no_buffer_and_say_how_many_it_takes() -> None:
    few = buffer_for(quotes_with(drawn(1, 59)), 0.9)
    assert isinstance(few, TooFew)
    assert "59 quotes" in few.told
    assert "it takes 60" in few.told
    assert isinstance(buffer_for(quotes_with(drawn(1, 60)), 0.9), Buffer)
    most = buffer_for(quotes_with(drawn(1, 120)), 0.99)
    assert isinstance(most, TooFew)
    assert "it takes 149" in most.told
    assert isinstance(buffer_for(quotes_with(drawn(1, 149)), 0.99), Buffer)
