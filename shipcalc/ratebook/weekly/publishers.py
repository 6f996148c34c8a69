"""The publishers whose weekly figures are known, and which of them a file comes from."""

from collections.abc import Callable

from shipcalc.errors import WrongInput
from shipcalc.ratebook.weekly import central_bank, energy_office
from shipcalc.ratebook.weekly.figures import Publication
from shipcalc.records import dataclass


@dataclass(frozen=True, slots=True)
class Publisher:
    """Who publishes, where the newest file is, and how a file of theirs is read (None: it is none of theirs)."""

    source: str
    address: str
    find: Callable[[str, bytes], Publication | None]

    @property
    def file_name(self) -> str:
        """Return the name of the newest file."""
        return self.address.rpartition("/")[2]


PUBLISHERS = (
    Publisher(energy_office.SOURCE, energy_office.ADDRESS, energy_office.find_diesel_prices),
    Publisher(central_bank.SOURCE, central_bank.ADDRESS, central_bank.find_reference_rates),
)


def get_publication(name: str, content: bytes) -> Publication:
    """Return what a file publishes. Raises WrongInput where no publisher that is known here has such files."""
    for publisher in PUBLISHERS:
        found = publisher.find(name, content)
        if found is not None:
            return found
    known = " or ".join(f"{one.address} ({one.source})" for one in PUBLISHERS)
    raise WrongInput(
        "no weekly figures that are known here stand in it", where=name, remedy=f"take {known}, as it came"
    )
