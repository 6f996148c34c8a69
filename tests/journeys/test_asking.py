"""In a terminal, `quote` asks for what it needs and shows what it knows."""

import os
import select
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

pty = pytest.importorskip("pty", reason="terminals of this kind are not everywhere")

Talk = Callable[..., tuple[int, str]]


@pytest.fixture
def talk(here: Path) -> Talk:
    """Carry out a command on a terminal of 80 columns, answering each question in turn; return (status, all that was shown)."""

    def told(words: tuple[str, ...], *answers: str, **environment: str) -> tuple[int, str]:
        ours, theirs = pty.openpty()
        process = subprocess.Popen(
            [Path(sys.executable).with_name("shipcalc"), *words],
            stdin=theirs,
            stdout=theirs,
            stderr=theirs,
            env=os.environ | {"COLUMNS": "80", "TERM": "xterm"} | environment,
        )
        os.close(theirs)
        shown, waiting, deadline = "", list(answers), time.monotonic() + 60
        while time.monotonic() < deadline and select.select([ours], [], [], 20)[0]:
            try:
                part = os.read(ours, 4096).decode(errors="replace")
            except OSError:  # the other end is closed: the command is done
                break
            shown += part
            if part.endswith(": ") and waiting:
                os.write(ours, f"{waiting.pop(0)}\n".encode())
        os.close(ours)  # a question that nobody answers ends here
        return process.wait(timeout=10), shown

    return told


AS_OF = ("quote", "--as-of", "2026-12-01")


def test_it_asks_for_the_vehicle_the_place_and_the_day(talk: Talk, say) -> None:
    status, shown = talk(AS_OF, "HV-1153", "53703", "2026-12-05", NO_COLOR="1")
    assert status == 0, shown
    assert "Vehicle (stock number, part of its name, or a description): " in shown
    assert "Where to (ZIP, or City, ST): " in shown
    assert "Ready to be picked up on (Enter: 2026-12-01): " in shown
    assert "1961 Larkspur Minnow roadster (HV-1153)" in shown
    assert "Madison, WI 53703" in shown
    asked_at_once = say(*AS_OF, "--vehicle", "HV-1153", "--to", "53703", "--ready", "2026-12-05").out
    delivered = next(line for line in asked_at_once.splitlines() if line.startswith("There by\t"))
    assert delivered.removeprefix("There by\t") in shown


def test_only_what_is_missing_is_asked(talk: Talk) -> None:
    status, shown = talk((*AS_OF, "--to", "53703", "--ready", "2026-12-05"), "HV-1153")
    assert status == 0, shown
    assert "Where to" not in shown
    assert "Ready to be" not in shown


def test_a_wrong_stock_number_is_answered_with_the_nearest_and_asked_again(talk: Talk) -> None:
    status, shown = talk(AS_OF, "HV-9153", "hv1153", "53703", "")
    assert status == 0, shown
    assert "the nearest: HV-" in shown
    assert shown.count("Vehicle (stock number") == 2


def test_a_part_of_a_name_shows_the_vehicles_that_have_it_and_takes_the_number(talk: Talk) -> None:
    status, shown = talk(AS_OF, "minnow", "2", "53703", "", NO_COLOR="1")
    assert status == 0, shown
    assert "Which one" in shown
    assert "(HV-1182)" in shown
    second = next(line for line in shown.splitlines() if line.strip().startswith("2. ")).split("2. ")[1].strip()
    assert f"To Madison, WI 53703: {second}" in shown


def test_a_slip_of_spelling_is_listed_and_said(talk: Talk) -> None:
    status, shown = talk(AS_OF, "minow", "1", "53703", "")
    assert status == 0, shown
    assert "these are spelled almost like it" in " ".join(shown.split())


def test_several_numbers_are_taken_in_one_answer_without_their_letters(talk: Talk) -> None:
    status, shown = talk(AS_OF, "1042 1027", "53703", "")
    assert status == 0, shown
    assert "(HV-1042)" in shown
    assert "(HV-1027)" in shown


def test_a_day_is_read_as_people_say_it_and_what_can_be_two_is_asked_by_number(talk: Talk) -> None:
    status, shown = talk(AS_OF, "HV-1153", "53703", "3/4", "2")
    assert status == 0, shown
    assert "1. Thursday, 2027-03-04" in shown
    assert 'ready: "3/4" is taken as Saturday, 2027-04-03' in " ".join(shown.split())


def test_a_place_given_with_the_command_is_asked_for_where_it_is_not_known(talk: Talk) -> None:
    status, shown = talk((*AS_OF, "--vehicle", "HV-1153", "--to", "Bellinghm, WA"), "1")
    assert status == 0, shown
    assert "1. Bellingham, WA" in shown
    assert "To Bellingham, WA" in shown


def test_namesakes_are_offered_by_number(talk: Talk) -> None:
    status, shown = talk(AS_OF, "HV-1153", "Portland", "99", "2", "")
    assert status == 0, shown
    assert "There are several places called “Portland”. Which one is meant?" in " ".join(shown.split())
    assert "give a number from 1 to" in shown
    assert "To Portland, ME" in shown


def test_a_slip_that_can_be_one_place_alone_is_read_back_and_taken_by_enter(talk: Talk) -> None:
    status, shown = talk(AS_OF, "HV-1153", "denvr", "", "")
    assert status == 0, shown
    assert "“denvr” is spelt almost like Denver, CO. Is that meant?" in " ".join(shown.split())
    assert "To Denver, CO" in shown


def test_a_word_that_many_of_the_stock_have_lists_them(talk: Talk) -> None:
    status, shown = talk(AS_OF, "roadster", "1", "53703", "")
    assert status == 0, shown
    assert "Which one (the first 8 of" in shown
    assert "as described" not in shown


def test_a_nonsense_place_and_a_day_that_has_passed_are_asked_again(talk: Talk) -> None:
    status, shown = talk(AS_OF, "HV-1153", "Xyzzyqq", "53703", "soon", "2026-11-01", "")
    assert status == 0, shown
    assert "“Xyzzyqq”" in shown
    assert '"soon" is not a date' in " ".join(shown.split())
    assert "2026-11-01 has passed" in shown


def test_the_end_of_the_input_stops_it_without_a_word_too_many(talk: Talk) -> None:
    status, shown = talk(AS_OF, "\x04")
    assert (status, shown.splitlines()[-1]) == (130, "shipcalc: stopped")


def test_a_terminal_gets_colour_unless_it_is_not_wanted(talk: Talk) -> None:
    words = (*AS_OF, "--vehicle", "HV-1153", "--to", "53703")
    _, with_colour = talk(words)
    _, without = talk(words, NO_COLOR="1")
    assert "\x1b[1m" in with_colour
    assert "\x1b[" not in without
    assert max(len(line.rstrip()) for line in without.splitlines()) <= 80
