"""The line that says how far a long piece of work is."""

import pytest

from shipcalc.cli.progress import Progress, line


def test_the_line_says_how_far_how_quickly_and_how_long_still() -> None:
    said = line("priced", 5_000_000, 20_000_000, 4_000_000, 2.0)
    assert said == "priced ██████··················  25%  5,000,000 of 20,000,000 rows  2.0 million a second  8 s left"


def test_hours_and_slow_work_are_said_as_one_would() -> None:
    assert line("priced", 10, 5_000, 10, 20.0).endswith("30 a minute  2 h 46 min left")


def test_nothing_is_drawn_where_there_is_no_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    progress = Progress()
    progress("priced", 1, 2)
    progress.end()
    assert capsys.readouterr().err == ""
