"""A request: complete, so that with a rate book and a date it determines the answer."""

from datetime import date

from shipcalc.places.place import Place
from shipcalc.quote.model import Wishes
from shipcalc.records import dataclass
from shipcalc.vehicles.vehicle import Vehicle


@dataclass(frozen=True, slots=True)
class Fetched:
    """That the buyer fetches it himself: at a terminal of the rate book, so many road miles from him, or in the yard ("")."""

    terminal: str = ""
    miles_left: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """What is to be brought where. `starts` has one place for each vehicle; `notes` are sentences on how it was understood.

    `by` is the day by which it must be there. `kept_from`: it is ready since then, and waits until `ready` because the buyer
    wishes it. `fetched`: `to` is not where the buyer is, but where he comes for it.
    """

    vehicles: tuple[Vehicle, ...]
    starts: tuple[Place, ...]
    to: Place
    ready: date
    wishes: Wishes
    by: date | None = None
    kept_from: date | None = None
    fetched: Fetched | None = None
    buyer: str = ""
    notes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        assert self.vehicles, "a request has at least one vehicle"
        assert len(self.vehicles) == len(self.starts), "one start for each vehicle"
