"""What published figures change in a rate book: which cells, from what to what; and what must not go in without a word."""

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

from shipcalc.errors import WrongInput, asked
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.weekly.central_bank import EURO, rate_for_one
from shipcalc.ratebook.weekly.figures import Publication, Subject
from shipcalc.ratebook.weekly.series import Series, series_of
from shipcalc.records import dataclass
from shipcalc.sheets.numbers import plain

# Larger moves from one price to the next are asked about. The largest of a week that the energy office has published is that of
# 7 March 2022, when diesel rose from 4.104 to 4.849 dollars, 18 % (from memory); among the currencies of the central bank, those
# of January 2015 and December 2021 are the ones that went beyond a tenth (from memory). A slipped point is 90 or 900 %.
LARGEST_STEP = {"diesel": Decimal("0.25"), "exchange": Decimal("0.15")}
OLD_AFTER_DAYS = 10
DIESEL_IN = "USD"
_PRICE, _HUNDREDTH = Decimal("0.0001"), Decimal("0.01")
_MOST_TOLD = 3


@dataclass(frozen=True, slots=True)
class Move:
    """A newer figure for a series of the book, its day, and what its source is called in the cell."""

    series: Series
    value: Decimal
    day: date
    source: str

    @property
    def adds(self) -> bool:
        """Return whether it gets a row of its own; a figure that was corrected for the same day never does."""
        return self.series.adds and self.day != self.series.day

    @property
    def cell(self) -> str:
        """Return the cell that holds the figure until now."""
        return self.series.row.at.cell(self.series.value_field)

    @property
    def percent(self) -> Decimal:
        """Return the change in per cent, two decimals, half up."""
        share = (self.value / self.series.value - 1) * 100
        return share.quantize(_HUNDREDTH, rounding=ROUND_HALF_UP) + 0  # never minus nought


@dataclass(frozen=True, slots=True)
class Plan:
    """What is to be written, which cells hold the published figures already, and what is left as it is, in sentences."""

    moves: tuple[Move, ...]
    same: tuple[Series, ...]
    left: tuple[str, ...]


def moves_of(
    book: Tables, currency: str, publications: Sequence[Publication], *, today: date, older: bool, jump: bool
) -> Plan:
    """Return what publications change in a book whose amounts are in `currency`.

    Raises WrongInput where all figures of a file are older than the book's and `older` does not allow them, where one is further
    from the book's than ever is likely and `jump` does not allow it, and where a file is of a day to come.
    """
    kept = series_of(book)
    moves: list[Move] = []
    same: list[Series] = []
    left: list[str] = []
    for publication in publications:
        _hold_day(publication, today)
        own = [one for one in kept if one.subject == publication.subject]
        found = [move for one in own if (move := _find_move(one, publication, currency)) is not None]
        late = [move for move in found if move.day < move.series.day and not older]
        if late and len(late) == len(found):
            raise _older(publication, late[0])
        moves += [move for move in found if move not in late and not _is_known(move)]
        same += [move.series for move in found if _is_known(move)]
        left += _left(publication, own, found, late, currency)
        left += _old(publication, today)
    too_far = [move for move in moves if abs(move.value / move.series.value - 1) > LARGEST_STEP[move.series.subject]]
    if too_far and not jump:
        raise _jump(too_far)
    return Plan(tuple(moves), tuple(same), tuple(left))


def _find_move(series: Series, publication: Publication, currency: str) -> Move | None:
    """Return the published figure of a series, whether it is news or not; None where it is not in the publication."""
    if series.key is None:
        return None
    if publication.subject == "diesel":
        price = publication.figures.get(series.key) if currency == DIESEL_IN else None
        of = f", {series.key}" if series.key else ""
        told = f"{publication.source}{of}"
        value = None if price is None else price.quantize(_PRICE, rounding=ROUND_HALF_UP)
    else:
        rates = {**publication.figures, EURO: Decimal(1)}
        value = rate_for_one(rates, series.key, currency) if series.key != currency else None
        told = f"{publication.source}: {_for_one_euro(rates, series.key, currency)}"
    return (
        None
        if value is None
        else Move(series, value, publication.day, f"{series.told}; {told}" if series.told else told)
    )


def _for_one_euro(rates: dict[str, Decimal], *currencies: str) -> str:
    return (
        " and ".join(f"{rates[code]:f} {code}" for code in currencies if code in rates and code != EURO) + " for 1 EUR"
    )


def _is_known(move: Move) -> bool:
    return move.day == move.series.day and move.value == move.series.value


def _hold_day(publication: Publication, today: date) -> None:
    if publication.day > today:
        what = f"its newest figures are of {publication.day}, a day to come"
        raise WrongInput(what, where=publication.file, remedy="look at its days, and at the clock of this computer")


def _older(publication: Publication, move: Move) -> WrongInput:
    where = move.series.row.at.cell(move.series.day_field)
    what = f"its newest figures are of {publication.day}, and the book has {move.series.day} ({where}); nothing was written"
    return WrongInput(
        what, where=publication.file, remedy=f"take the newest file, or write them all the same with {asked('older')}"
    )


def _jump(moves: Sequence[Move]) -> WrongInput:
    told = [f"{move.cell} {plain(move.series.value)} → {plain(move.value)} ({move.percent:+} %)" for move in moves]
    more = f" and {len(told) - _MOST_TOLD} more" if len(told) > _MOST_TOLD else ""
    what = f"further from the book's figure than is likely: {'; '.join(told[:_MOST_TOLD])}{more}; nothing was written"
    remedy = f"look at the cell and at the file; if both are right, write it with {asked('jump')}"
    return WrongInput(what, remedy=remedy)


def _left(
    publication: Publication, own: Sequence[Series], found: Sequence[Move], late: Sequence[Move], currency: str
) -> Iterator[str]:
    """Yield what the book keeps and the publication does not move."""
    for move in late:
        yield f"{move.cell} stays: it is of {move.series.day}, later than the file's {publication.day}."
    if publication.subject == "diesel" and currency != DIESEL_IN:
        yield f"Diesel stays: the price is published in dollars, and the book's amounts are in {currency}."
        return
    moved = {id(move.series) for move in found}
    names = [one.name for one in own if id(one) not in moved and one.key != currency]
    if not own:
        yield f"{publication.file}: the book keeps no {_WHAT[publication.subject]}, so nothing of it was needed."
    elif names:
        yield f"Not in {publication.file}, and left as they are: {', '.join(names)}."


_WHAT: dict[Subject, str] = {"diesel": "price of diesel", "exchange": "rates of exchange"}


def _old(publication: Publication, today: date) -> Iterator[str]:
    days = (today - publication.day).days
    if days > OLD_AFTER_DAYS:
        yield f"{publication.file}: its newest figures are of {publication.day}, {days} days ago; look for a newer file."
