"""What counts for one table: what the letter and the titles say, what was answered, what the rate book knows."""

from collections.abc import Mapping

from shipcalc.ratebook.taking.answers import Answers
from shipcalc.ratebook.taking.days import Order
from shipcalc.ratebook.taking.ends import End
from shipcalc.ratebook.taking.figures import Mark
from shipcalc.ratebook.taking.letter import Facts
from shipcalc.records import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What the rate book knows: its currency, its carriers, the names of areas in small letters.

    `currencies` are those of carriers' bands by their names in small letters, of all that are on the sheet Carriers.
    """

    currency: str = "USD"
    carriers: tuple[str, ...] = ()
    names: frozenset[str] = frozenset()
    currencies: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Zone:
    """A zone that the mail explains: its name in small letters, its pieces each with its cell and that cell's row."""

    name: str
    pieces: tuple[tuple[End, str, int], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """All that is said of a table outside of it. `sender` is who sent the mail, as far as that is known;
    `zones` are those that the mail explains, by their names in small letters."""

    facts: Facts
    answers: Answers
    known: Known
    order: Order = ""
    mark: Mark = ""
    sender: str = ""
    zones: Mapping[str, Zone] = field(default_factory=dict)
