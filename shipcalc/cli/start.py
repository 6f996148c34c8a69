"""What a process of `shipcalc` does first, before anything heavy is imported: in which order it is imported matters."""

import gc
import os
import sys

# Commands that cannot do without numbers, whatever they are asked.
_OF_NUMBERS = frozenset({"quote", "stock", "place", "miles", "lanes", "demo", "rates", "quotes", "shipments", "costs"})
_ASKS_FOR_HELP = frozenset({"--help", "-h"})


def main() -> None:
    """Run the command line and leave with its exit status."""
    _start_quickly()
    if _needs_numbers(sys.argv[1:]):
        _import_numbers()
    from shipcalc.cli.main import main as carry_out

    carry_out()


def _start_quickly() -> None:
    """Spare a process that lives for a fraction of a second what only a long one has use for; all before numpy is imported.

    Measured here, of some 250 ms: numpy's pool of threads for linear algebra, of which there is none, 35 ms; collecting
    cycles while modules load, 15 ms; pydantic's search for plugins in every installed package, 10 ms and more.
    """
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    gc.set_threshold(100_000)


def _needs_numbers(arguments: list[str]) -> bool:
    return bool(arguments) and arguments[0] in _OF_NUMBERS and _ASKS_FOR_HELP.isdisjoint(arguments)


def _import_numbers() -> None:
    """Import numpy from here, near the top of the stack and before typer, which spares 30 ms.

    numpy names its thousands of type codes in `typing.Literal`; once typer has brought `typing_extensions`, each takes two more
    calls. From deep within a quote they reached across the end of a piece of CPython's stack of frames (16 KB), which was
    mapped and unmapped each time: 3,654 times.
    """
    import numpy as np  # noqa: F401
