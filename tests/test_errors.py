"""What can go wrong is told without regard to the face that tells it."""

import ast
import re
from pathlib import Path

import shipcalc
from shipcalc.cli.option_names import option_of
from shipcalc.errors import WrongInput, asked


def test_only_the_terminal_speaks_of_options() -> None:
    """A page has boxes and no options: what the rooms below `cli` raise names fields (`errors.asked`)."""
    spoken = re.compile(r"""["' (]--[a-z]""")
    told = [
        f"{path}:{node.lineno}"
        for path in sorted(Path(shipcalc.__file__).parent.rglob("*.py"))
        if "cli" not in path.parts and "making" not in path.parts
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") in ("WrongInput", "NoAnswer", "FaultyWorkbook")
        if spoken.search(ast.unparse(node)) and "shipcalc quote --out" not in ast.unparse(node)
    ]
    assert told == []
    assert WrongInput("no", where=asked("released_by")).told(option_of) == "--released-by: no"
    assert str(WrongInput("no", where=asked("released_by"))) == "released by: no"
