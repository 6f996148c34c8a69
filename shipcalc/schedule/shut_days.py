"""Days on which the offices of a country are shut although they are no public holidays there.

Each with its source; what is not known here is a day of work.
"""

from collections.abc import Callable, Iterator, Mapping
from datetime import date, timedelta

from shipcalc.records import dataclass

_FRIDAY = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Shut:
    """Days of every year in a country (ISO 3166-1 alpha-2), by (month, day) or by a rule; `source` says where it stands."""

    country: str
    name: str
    source: str
    days: tuple[tuple[int, int], ...] = ()
    rule: Callable[[int], date] | None = None

    def in_year(self, year: int) -> Iterator[date]:
        """Yield its days in a year."""
        yield from (date(year, month, day) for month, day in self.days)
        if self.rule is not None:
            yield self.rule(year)


def shut_days(country: str, year: int) -> Mapping[date, str]:
    """Return the days of a year on which the offices of a country are shut beside its public holidays, with their names."""
    return {day: row.name for row in SHUT if row.country == country for day in row.in_year(year)}


def _midsummer_eve(year: int) -> date:
    """Return the Friday from 19 to 25 June, the day before the Saturday from 20 to 26 June (lag 1989:253 § 2)."""
    first = date(year, 6, 19)
    return first + timedelta(days=(_FRIDAY - first.weekday()) % 7)


SHUT = (
    Shut(
        country="JP",
        name="Turn of the year (offices shut)",
        source="Act on Holidays of Administrative Organs (Act 91 of 1988), article 1 (1) (iii): 29 December to 3 January; read",
        days=((1, 1), (1, 2), (1, 3), (12, 29), (12, 30), (12, 31)),
    ),
    Shut(
        country="DE",
        name="Christmas Eve, New Year's Eve (federal offices off duty)",
        source="Arbeitszeitverordnung (AZV) § 6 (1): both are off duty for federal officials, customs among them; read",
        days=((12, 24), (12, 31)),
    ),
    Shut(
        country="SE",
        name="Eve of Midsummer, Christmas or New Year",
        source="lag (1930:173) § 2: no time limit of the law ends on these days; read. Offices shut: common practice",
        days=((12, 24), (12, 31)),
        rule=_midsummer_eve,
    ),
)
