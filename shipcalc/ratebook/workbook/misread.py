"""What reading one cell can end in besides a value, and the nearest name for a wrong one."""

from collections.abc import Iterable

from shipcalc.records import dataclass


class Misread(Exception):
    """The cell cannot be used: what is wrong, and how to correct it. It never leaves the reader: it becomes a Problem."""

    def __init__(self, message: str, remedy: str) -> None:
        super().__init__(message)
        self.message, self.remedy = message, remedy


@dataclass(frozen=True, slots=True)
class Doubt:
    """A value that is used, and the warning that goes with it."""

    value: object
    message: str
    remedy: str


def nearest(name: str, known: Iterable[str]) -> str | None:
    """Return the known name most like `name`, without regard to case, or None where none is much like it."""
    import difflib

    by_fold = {candidate.casefold(): candidate for candidate in known}
    found = difflib.get_close_matches(name.casefold(), by_fold, n=1, cutoff=0.6)
    return by_fold[found[0]] if found else None
