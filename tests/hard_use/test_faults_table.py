"""FAULTS.md is written from the tests that are marked `fault`: it names nothing that is not tried, and all that is.

`REWRITE=1 pytest tests/hard_use/test_faults_table.py` writes it anew.
"""

import ast
import os
from collections.abc import Iterator
from pathlib import Path

TESTS = Path(__file__).parents[1]
TABLE = Path(__file__).with_name("FAULTS.md")
HEAD = """# What goes wrong, what was tried, what comes of it

Written by `tests/hard_use/test_faults_table.py` from the tests that try it, which fail where the outcome is another one; not to be
changed by hand. "A sentence" is one line on standard error that says where, what and how to mend it, with exit status 2 (1 where the
answer is no), and never a trace of the program's inside.

| what goes wrong | tried | outcome | by |
| --- | --- | --- | --- |
"""


def marked(file: Path) -> Iterator[tuple[str, str, str, str]]:
    """Yield (fault, tried, outcome, test) of each test of a file that is marked."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        for mark in getattr(node, "decorator_list", ()):
            if isinstance(mark, ast.Call) and ast.unparse(mark.func) == "pytest.mark.fault":
                told = {word.arg: ast.literal_eval(word.value) for word in mark.keywords}
                test = f"`{file.relative_to(TESTS).as_posix()}` {node.name.removeprefix('test_').replace('_', ' ')}"
                yield ast.literal_eval(mark.args[0]), told["tried"], told["outcome"], test


def table() -> str:
    rows = sorted(row for file in TESTS.rglob("test_*.py") for row in marked(file))
    return HEAD + "".join("| " + " | ".join(row) + " |\n" for row in rows)


def test_the_table_of_faults_is_what_the_tests_try() -> None:
    if os.environ.get("REWRITE"):
        TABLE.write_text(table(), encoding="utf-8")
    assert TABLE.read_text(encoding="utf-8") == table()


def test_every_fault_that_was_promised_to_be_tried_is_in_it() -> None:
    told = table()
    for fault in (
        "disk full", "folder read-only", "the register's drive gone", "power cut between write and rename", "a clock that is wrong",
        "two desks saving at once", "a bit flipped in a kept file", "a cache that others can write into", "a rate book changed during a run",
        "a network drive gone", "a stock list half written", "a workbook that is open elsewhere", "the register locked by another desk",
    ):  # fmt: skip
        assert f"| {fault} |" in told, fault
