"""One end of a lane as a mail names it, and the doubt of which it may be."""

from typing import Literal

from shipcalc.records import dataclass

Kind = Literal["ZIP", "city", "state", "country", "port", "name", "postal", "region", "zone"]


@dataclass(frozen=True, slots=True)
class End:
    """One end of a lane: its text as the rate book has it, and what it is; `said` where that is not plain.

    `country` is that of postal codes and regions abroad, which their text does not say.
    """

    text: str
    kind: Kind
    said: str = ""
    country: str = ""


class Unclear(Exception):
    """A cell that names no place beyond doubt: why, and what it may be."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why
