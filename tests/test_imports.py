"""Which module imports which: no module stands in the wheel for the tests alone, and none imports itself over others.

`lint-imports` holds the rooms and sub-rooms to their order; here every single module is looked at, imports within functions too.
"""

import ast
import subprocess
import sys
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

import shipcalc

PACKAGE = Path(shipcalc.__file__).parent
MODULES = {
    ".".join(("shipcalc", *file.relative_to(PACKAGE).with_suffix("").parts)).removesuffix(".__init__"): file
    for file in sorted(PACKAGE.rglob("*.py"))
}


def imported(file: Path) -> set[str]:
    """Return the modules of the package that a file imports when it runs."""
    named = {name for name in _names(ast.parse(file.read_text(encoding="utf-8"))) if name.startswith("shipcalc")}
    return {name if name in MODULES else name.rpartition(".")[0] for name in named} & MODULES.keys()


def _names(part: ast.AST) -> Iterator[str]:
    for child in ast.iter_child_nodes(part):
        if isinstance(child, ast.If) and isinstance(child.test, ast.Name) and child.test.id == "TYPE_CHECKING":
            continue
        if isinstance(child, ast.ImportFrom):
            yield from (f"{child.module}.{name.name}" for name in child.names)
        elif isinstance(child, ast.Import):
            yield from (name.name for name in child.names)
        elif (
            isinstance(child, ast.Constant) and child.value in MODULES
        ):  # what is imported by its name, when it is asked for
            yield child.value
        yield from _names(child)


@pytest.fixture(scope="module")
def imports() -> dict[str, set[str]]:
    """Return which modules each module imports."""
    return {name: imported(file) - {name} for name, file in MODULES.items()}


def test_no_module_imports_itself_over_others(imports: dict[str, set[str]]) -> None:
    """`TopologicalSorter` raises `CycleError` and names the circle."""
    assert len(list(TopologicalSorter(imports).static_order())) == len(MODULES) > 300


def test_no_module_is_there_for_the_tests_alone(imports: dict[str, set[str]]) -> None:
    """Each is imported by another, or is run: as the program itself, as what makes data, or, by Alembic, as a step."""
    used = set().union(*imports.values())
    left = [
        name
        for name, file in MODULES.items()
        if name not in used
        and ".migrations." not in name
        and file.name != "__init__.py"
        and "__main__" not in file.read_text(encoding="utf-8")
    ]
    assert not left


def test_no_command_imports_before_it_runs_what_only_some_need() -> None:
    """The faces of all commands are imported at every start: numpy before its time costs a third of a quote."""
    told = "import sys, shipcalc.cli.main; print([name for name in ('numpy', 'sqlalchemy', 'openpyxl') if name in sys.modules])"
    done = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True, timeout=120)
    assert done.stdout == "[]\n"


@pytest.mark.parametrize("to", ["59715", "Bremen, Germany"])
def test_a_quote_imports_no_masked_arrays(to: str) -> None:
    """A bare `np.unique` imports them: a twentieth of a cold quote. `distinct` says the same."""
    words = ["shipcalc", "quote", "--vehicle", "HV-1042", "--to", to]
    told = f"import sys; sys.argv = {words}; from shipcalc.cli.main import main\ntry: main()\nfinally: print('numpy.ma' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, timeout=120)
    assert done.stdout.splitlines()[-1] == "False", done.stderr
