"""What can go wrong in a way the user can act on.

    ShipcalcError            a sentence: where it is, what is wrong, how to correct it
    ├── WrongInput           exit status 2: a name, a date, a setting, a file that cannot be used as it is
    │   └── FaultyWorkbook   the same, with every faulty cell listed
    └── NoAnswer             exit status 1: the question was fine, the answer is no (a hold, no carrier)

A programmer's mistake is an assertion and never one of these.
"""

import os
import re
from collections.abc import Callable
from typing import ClassVar, Literal

from shipcalc.records import dataclass

Severity = Literal["fault", "warning"]
_ASKED = re.compile("‹([a-z_]+)›")


def asked(field: str) -> str:
    """Return how a sentence names what somebody can ask for: by its field; each face puts its own name in its place.

    The terminal says `--released-by`, a page would say what stands beside its box.
    """
    return f"‹{field}›"


def named(text: str, name_of: Callable[[str], str] = lambda field: field.replace("_", " ")) -> str:
    """Return a sentence with the fields in it named as a face names them, or in plain words."""
    return _ASKED.sub(lambda found: name_of(found[1]), text)


class ShipcalcError(Exception):
    """A sentence for the user: `where: what — remedy`. What can be asked for is named by its field (`asked`)."""

    exit_status: ClassVar[int] = 2

    def __init__(self, what: str, *, where: str = "", remedy: str = "") -> None:
        super().__init__(named(sentence(what, where=where, remedy=remedy)))
        self.what, self.where, self.remedy = what, where, remedy

    def __reduce__(self) -> "tuple[object, ...]":
        """Travel to another process whole; else it would be made anew from its sentence alone."""
        return _as_it_was, (type(self), self.args, self.__dict__)

    def told(self, name_of: Callable[[str], str]) -> str:
        """Return the sentence as a face tells it."""
        return named(sentence(self.what, where=self.where, remedy=self.remedy), name_of)


def _as_it_was(kind: type[ShipcalcError], args: tuple[object, ...], state: dict[str, object]) -> ShipcalcError:
    error = kind.__new__(kind, *args)
    error.__dict__.update(state)
    return error


class WrongInput(ShipcalcError):
    """Something typed or stored cannot be used as it is."""


class NoAnswer(ShipcalcError):
    """The question was understood, and the answer is no."""

    exit_status = 1


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong in one cell of a workbook, as data: problems are collected and shown all at once.

    `cell` is the full address (`trucking.xlsx › Per mile!C14`), `message` says what is wrong, `remedy` how to correct it.
    A *fault* makes its row unusable; a *warning* leaves it in use.
    """

    cell: str
    message: str
    remedy: str = ""
    severity: Severity = "fault"

    def __str__(self) -> str:
        return sentence(self.message, where=self.cell, remedy=self.remedy)


class FaultyWorkbook(WrongInput):
    """A workbook with faults; `problems` lists them all in the order of the sheets."""

    def __init__(self, what: str, problems: tuple[Problem, ...], *, where: str = "", remedy: str = "") -> None:
        super().__init__(what, where=where, remedy=remedy)
        self.problems = problems


def why(error: OSError) -> str:
    """Return why the system could not do it, for the middle of a sentence: `permission denied`."""
    told = error.strerror or str(error)
    if error.errno and "Detail:" in told:  # pyarrow's own words around the system's
        told = os.strerror(error.errno)
    return told.lower()


def how_many(count: int, one: str, many: str = "") -> str:
    """Return a count with what is counted: "1 quote", "2,400 quotes"."""
    return f"{count:,} {one if count == 1 else many or f'{one}s'}"


def sentence(what: str, *, where: str = "", remedy: str = "") -> str:
    """Return `where: what — remedy`, leaving out what is empty."""
    told = f"{where}: {what}" if where else what
    told = f"{told} — {remedy}" if remedy else told
    return " ".join(told.splitlines())  # what somebody typed may have had lines
