"""Text and tables on a terminal and in a pipe."""

import pytest

from shipcalc.cli.look import Column, Look, bullets, look_of_stdout, pairs, paragraph, table

PIPE = Look()
COLUMNS = (Column("Line", wraps=True), Column("USD", "right"))
ROWS = (("Truck, open trailer", "1,014.34"), ("Fuel", "182.58"), ("Total", "1,196.92"))


def test_a_pipe_gets_tabs_and_one_line_a_row() -> None:
    assert table(PIPE, COLUMNS, ROWS, total=True) == [
        "Line\tUSD",
        "Truck, open trailer\t1,014.34",
        "Fuel\t182.58",
        "Total\t1,196.92",
    ]


def test_figures_stand_below_each_other_with_a_rule_above_the_sum() -> None:
    lines = table(Look(width=80), COLUMNS, ROWS, total=True)
    assert lines == [
        "  Line                      USD",
        "  Truck, open trailer  1,014.34",
        "  Fuel                   182.58",
        "                       ────────",
        "  Total                1,196.92",
    ]


@pytest.mark.parametrize("width", [40, 60, 80, 100])
def test_no_line_is_wider_than_the_terminal(width: int) -> None:
    look = Look(width=width)
    long = "Delivery to the far end of the Olympic Peninsula, beyond the last road that a long truck may use"
    lines = table(look, COLUMNS, ((long, "85.00"),)) + paragraph(look, long) + bullets(look, [long], "!")
    lines += pairs(look, [("Not included", long)])
    assert max(map(len, lines)) <= width
    assert " ".join(paragraph(look, long)) == long


def test_a_word_that_is_wider_than_the_terminal_is_broken_and_not_lost() -> None:
    lines = paragraph(Look(width=40), "x" * 95 + " end")
    assert "".join(lines).replace(" ", "") == "x" * 95 + "end"
    assert max(map(len, lines)) <= 40


def test_a_pipe_never_breaks_a_sentence() -> None:
    assert bullets(PIPE, ["a " * 200]) == ["· " + "a " * 200]


def test_colour_only_where_it_can_be_shown() -> None:
    assert Look(width=80).strong("1,196.92") == "1,196.92"
    assert Look(width=80, colour=True).strong("1,196.92") == "\x1b[1m1,196.92\x1b[0m"
    assert bullets(Look(width=80, colour=True), ["worth more than the cover"], "!")[0].startswith("\x1b[33m  ! ")


class Terminal:
    """Standard output as a terminal has it."""

    def isatty(self) -> bool:
        return True


def test_no_color_and_a_dumb_terminal_are_heeded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdout", Terminal())
    monkeypatch.setenv("COLUMNS", "72")
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert look_of_stdout() == Look(width=72, colour=True)
    monkeypatch.setenv("NO_COLOR", "1")
    assert look_of_stdout() == Look(width=72, colour=False)
    monkeypatch.delenv("NO_COLOR")
    monkeypatch.setenv("TERM", "dumb")
    assert look_of_stdout() == Look(width=72, colour=False)


def test_a_row_that_is_a_text_is_a_heading_and_widens_no_column() -> None:
    rows = ("The truck to the port, which is a long heading", *ROWS)
    assert table(Look(width=80), COLUMNS, rows)[1:3] == [
        "  The truck to the port, which is a long heading",
        "  Truck, open trailer  1,014.34",
    ]
    assert table(PIPE, COLUMNS, rows)[1] == "The truck to the port, which is a long heading"


def test_two_currencies_of_one_sum_stand_below_each_other() -> None:
    columns = (Column("Choice", wraps=True), Column("Total\nUSD\nJPY", "right"))
    assert table(Look(width=80), columns, [("RoRo", "3,560.00\n538,272")]) == [
        "  Choice     Total",
        "               USD",
        "               JPY",
        "  RoRo    3,560.00",
        "           538,272",
    ]
