"""Stock: what the dealer has, and which rows of the list need a look."""

from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import NoAnswer
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.errors import Problem
    from shipcalc.vehicles.vehicle import Vehicle


@dataclass(frozen=True, slots=True)
class StockAnswer:
    """The vehicles that match, how many there are in all, and the problems of the whole list.

    `nearly` is True where nothing has the words as they were typed, and these have them spelled otherwise.
    """

    vehicles: "tuple[Vehicle, ...]"
    in_all: int
    problems: "tuple[Problem, ...]"
    nearly: bool = False


def look_through_stock(path: Path, text: str = "") -> StockAnswer:
    """Return the vehicles that have every word of `text` somewhere in what people say of them, or else nearly so spelled.

    Raises WrongInput for a list that cannot be read, NoAnswer where no vehicle matches.
    """
    from shipcalc.vehicles.stock import search, spelled_nearly
    from shipcalc.vehicles.stock_kept import stock_of

    stock = stock_of(path)
    exact = search(stock, text)
    found = exact or spelled_nearly(stock, text)
    if text.strip() and not found:
        raise NoAnswer(
            f'no vehicle of the list matches "{text.strip()}"',
            where=path.name,
            remedy="shipcalc stock lists them all",
        )
    return StockAnswer(found, len(stock.vehicles), stock.problems, nearly=not exact)
