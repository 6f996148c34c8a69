"""The README keeps its word: what it says first, and every command it shows."""

import io
import re
import shlex
from collections.abc import Iterator
from pathlib import Path

from tests.journeys.conftest import with_yes
from tests.journeys.test_help import VERBS

README = Path(__file__).parents[2] / "README.md"
PROGRAM = "shipcalc"
DAY = "2026-12-01"  # the day on which the dates that are shown lie ahead


def fenced_lines() -> Iterator[str]:
    """Yield the lines of all fenced blocks."""
    for block in re.findall(r"^```[a-z]*\n(.*?)^```", README.read_text(), re.DOTALL | re.MULTILINE):
        yield from block.splitlines()


def shown_commands() -> list[list[str]]:
    """Return the program's own command lines of the fenced blocks; a line with `&&` has several. `pip` is not ours."""
    parts = (part.strip() for line in fenced_lines() for part in line.split("&&"))
    return [shlex.split(part)[1:] for part in parts if part.startswith(f"{PROGRAM} ")]


def inline_code() -> list[str]:
    return re.findall(
        r"`([^`\n]+(?:\n[^`\n]+)?)`", re.sub(r"^```.*?^```", "", README.read_text(), flags=re.DOTALL | re.MULTILINE)
    )


def inline_commands() -> list[list[str]]:
    return [shlex.split(code)[1:] for code in inline_code() if code.startswith(f"{PROGRAM} ")]


def begin_lines() -> list[str]:
    """Return the list with which a salesperson begins; `test_newcomer.py` goes by it, in a home where nothing is kept."""
    (listed,) = re.findall(r"^\*\*Begin\*\*.*?\n\n(.*?)\n\n", README.read_text(), re.DOTALL | re.MULTILINE)
    return str(listed).splitlines()


def begin_commands() -> list[list[str]]:
    codes = re.findall(r"`([^`]+)`", "\n".join(begin_lines()))
    return [shlex.split(code)[1:] for code in codes if code.startswith(f"{PROGRAM} ")]


def test_the_first_paragraph_states_the_job_and_what_it_is_not() -> None:
    title, blank, *rest = README.read_text().splitlines()
    paragraph = " ".join("\n".join(rest).split("\n\n")[0].split())
    assert (title, blank) == ("# shipcalc", "")
    assert paragraph.startswith("shipcalc answers")
    for word in (
        "costs",
        "arrives",
        "papers",
        "checklist",
        "contiguous United States",
        "without a network",
        "invented",
    ):
        assert word in paragraph, word


def test_the_two_commands_to_begin_with_are_one_line_each() -> None:
    lines = list(fenced_lines())
    assert "pip install . && shipcalc demo" in lines
    assert "pip install -e '.[test]' && pytest" in lines


def test_every_command_that_is_shown_works(command, say, here: Path, downloads, monkeypatch) -> None:
    """The first by the installed program, the others in this process; in the order of the page, but a checklist needs the folder that the example with --out writes.

    `shipcalc demo`, as the installed program, is what `test_demo.py` goes by.
    """
    assert {words[0] for words in shown_commands()} >= {"demo", "quote", "checklist"}
    quote = next(words for words in shown_commands() if words[0] == "quote")
    options = next(code for code in inline_code() if code.startswith("--out "))
    written = command(*quote, *shlex.split(options))
    assert written.returncode == 0, written.stderr
    (folder,) = [path for path in here.iterdir() if path.is_dir()]
    assert folder.name == "lindqvist"
    named = ("quote.pdf", "quote.xlsx", "quote-office.xlsx", "checklist.xlsx", "quote.json")
    assert {path.name for path in folder.rglob("*.*")} >= set(named)
    assert [name for name in named if f"`{name}`" not in README.read_text()] == []
    for _ in range(3):  # the page speaks of quotes 1 and 2 as kept, and of 3 as a shipment
        assert say(*quote, "--save").status == 0
    assert say("quotes", "accept", "3").status == 0
    others = [words for words in shown_commands() if words != ["demo"]]
    begun = begin_commands()
    for words in [*others, *(inline for inline in inline_commands() if len(inline) > 1 and inline not in begun)]:
        if words[0] == "desk":  # it answers until it is ended: tests/desk, tests/cli
            continue
        monkeypatch.setattr("sys.stdin", io.StringIO("mossy otter umbrella\n"))  # whoever is added has a password
        done = say(*with_yes(words))
        assert (done.status, done.out != "") == (0, True), f"{words}: {done.err}"


def test_every_wish_that_is_named_is_understood(say) -> None:
    quote = next(words for words in shown_commands() if words[0] == "quote")
    (wishes,) = re.findall(r"^- \*\*Wishes\*\*: (.*?)\n- ", README.read_text(), re.DOTALL | re.MULTILINE)
    options = re.findall(r"`([^`]+)`", wishes)
    assert len(options) == 5
    for option in options:
        done = say(*quote, *shlex.split(option), "--as-of", DAY)
        assert done.status == 0, f"{option}: {done.err}"


def test_every_command_and_option_that_is_named_is_in_the_help(say) -> None:
    named = {words[0] for words in (*shown_commands(), *inline_commands())}
    assert named >= {"demo", "quote", "stock", "place", "miles", "checklist"}
    listed = set(re.findall(r"^  ([a-z]+) ", say("--help").out, re.MULTILINE))
    assert named == listed, "the README names every command, and no other"
    helps = [say(name, "--help").out for name in sorted(named)]
    helps += [say(name, verb, "--help").out for name, verb, *_ in VERBS]
    options = set(re.findall(r"(?<![\w-])--[a-z][a-z-]+", README.read_text()))
    assert len(options) > 8
    assert [option for option in options if option not in "".join(helps)] == []


def test_every_file_that_is_linked_is_there() -> None:
    links = re.findall(r"\]\(([^)]+)\)", README.read_text())
    assert len(links) >= 3
    assert [link for link in links if not (README.parent / link).exists()] == []
    named = [code for code in inline_code() if code.startswith("shipcalc/")]
    assert named
    assert [name for name in named if not (README.parent / name).exists()] == []
