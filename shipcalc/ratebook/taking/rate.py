"""A price as it was taken from a mail, before it is a row of any sheet; and what was not taken."""

from datetime import date
from decimal import Decimal
from typing import Literal

from shipcalc.ratebook.taking.ends import End
from shipcalc.ratebook.taking.spans import Span
from shipcalc.records import dataclass

Target = Literal["Lanes", "Per mile", "Areas", "Ocean quotations", "On-carriage", "Port charges"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """One price. `where` is the cell it is from, `row` that cell's row; None and "" stand for what the mail does not say.

    `carrier` is who quotes, a forwarder or an agent at a port too. `flat`, `per_mile` and `minimum` are in `currency`;
    of an ocean freight and a port's charge `flat` is for one unit of `basis`. `span` is a band of miles that a price is for,
    `condition` the vehicles that it is for alone, `reading` how a figure was read that needs a look.
    """

    target: Target
    where: str
    row: int
    carrier: str = ""
    trailer: str = ""
    mode: str = ""
    line: str = ""
    start: End | None = None
    end: End | None = None
    flat: Decimal | None = None
    per_mile: Decimal | None = None
    minimum: Decimal | None = None
    percent: Decimal | None = None
    basis: str = ""
    currency: str = ""
    fuel_included: bool | None = None
    valid_from: date | None = None
    valid_to: date | None = None
    reference: str = ""
    free_days: int | None = None
    label: str = ""
    from_day: int | None = None
    span: Span | None = None
    remark: str = ""
    condition: str = ""
    reading: str = ""

    @property
    def key(self) -> tuple[object, ...]:
        """Return what two prices have in common that cannot both hold."""
        ends = tuple(end and (end.text.casefold(), end.country) for end in (self.start, self.end))
        return (
            self.target,
            self.carrier.casefold(),
            self.trailer,
            self.mode,
            self.line.casefold(),
            *ends,
            self.basis,
            self.label,
            self.from_day,
            self.span,
            self.valid_from,
            self.valid_to,
        )

    @property
    def price(self) -> tuple[object, ...]:
        """Return what may differ between two prices of one key."""
        return (self.flat, self.per_mile, self.minimum, self.percent, self.currency, self.fuel_included)


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A cell that was not taken, or was taken and needs a look: where, what stands in it, why."""

    where: str
    what: str
    why: str
    is_taken: bool = False


@dataclass(frozen=True, slots=True)
class Question:
    """What must be known before anything of this is taken. `key` is the line of the answers; without choices words are typed."""

    key: str
    text: str
    choices: tuple[str, ...] = ()
    where: str = ""


@dataclass(frozen=True, slots=True)
class Taken:
    """What came of one table, or of one form."""

    rates: tuple[Rate, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    questions: tuple[Question, ...] = ()
