"""What both kinds of transport come to before they are a Quote: the choices, and what is said about them."""

from datetime import date

from shipcalc.quote.model import LeftOut, Option
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The choices with the recommended one, and sentences. `rows_end` are the last days of the rows that priced them."""

    options: tuple[Option, ...]
    recommended: int
    reason: str
    left_out: tuple[LeftOut, ...]
    assumptions: tuple[str, ...]
    cautions: tuple[str, ...]
    rows_end: tuple[date, ...]
