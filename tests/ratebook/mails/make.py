"""Writes the mails anew: `python tests/ratebook/mails/make.py [FOLDER]`."""

import sys
from importlib import import_module
from pathlib import Path

from writing import HERE


def write_all(folder: Path = HERE) -> None:
    for script in sorted(HERE.glob("m[0-9]*.py")):
        import_module(script.stem).write(folder)


if __name__ == "__main__":
    write_all(Path(sys.argv[1]) if sys.argv[1:] else HERE)
