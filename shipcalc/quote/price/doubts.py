"""What of duty and tax rests on a fact that nobody read, that is past its age, or that changes soon: a sentence each."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta

from shipcalc.ratebook.rows.imports import Country, ImportCharge

_LEARNT = {"memory": "from memory", "second hand": "second hand", None: "nobody said how it was learnt"}
# A vehicle over the sea is rarely longer on its way to its customs: common practice, no source.
AHEAD = timedelta(days=150)


def doubts(rows: Iterable[ImportCharge], *, day: date, stale_after_days: int) -> Iterator[str]:
    """Yield for the office what of the rows is to be looked up before it is promised, with its cell and where to look."""
    for row in rows:
        age = 0 if row.checked_on is None else (day - row.checked_on).days
        why = _LEARNT.get(row.trust, "")
        if age > stale_after_days:
            why = f"read {age:,} days ago, on {row.checked_on}"
        if why:
            where = "; ".join(part for part in (row.source, row.address) if part)
            told = f". Look at: {where}" if where else ""
            yield f"{row.label}: {why} ({row.at.cell('trust')}){told}."


def changes_ahead(rows: Sequence[ImportCharge], country: Country, day: date) -> Iterator[str]:
    """Yield that what customs ask will be another before the vehicle may be there, where rows of a later day say so."""
    ends = {row.valid_to + timedelta(days=1) for row in rows if row.valid_to is not None and row.valid_to < date.max}
    begins = {row.valid_from for row in rows if row.valid_from is not None}
    soon = sorted(change for change in ends | begins if day < change <= day + AHEAD)
    if soon:
        yield (
            f"Duty and tax in {country.name} change on {soon[0].isoformat()}: what is counted here holds for what its customs "
            "clear before that day."
        )
