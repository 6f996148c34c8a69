"""The answers that were last given: what is drawn, sent or kept of one is of the very quote that stands on the page."""

import secrets
from collections import OrderedDict

from shipcalc.actions.quoting import Made
from shipcalc.errors import WrongInput
from shipcalc.quote.model import Quote
from shipcalc.records import dataclass

MOST = 200


@dataclass(frozen=True, slots=True)
class Given:
    """An answer that was given: the quote as the office has it, and what it was made from; None for one that was kept before.

    `shown` is the index of the choice that stood on the page.
    """

    quote: Quote
    made: Made | None = None
    shown: int = 0


class Recent:
    """The last answers by a key that nobody can guess. One thread puts them in; any may read."""

    def __init__(self, most: int = MOST) -> None:
        self._given: OrderedDict[str, Given] = OrderedDict()
        self._most = most

    def put(self, given: Given) -> str:
        """Remember an answer, forget the oldest of too many, and return its key."""
        key = secrets.token_urlsafe(12)
        self._given[key] = given
        while len(self._given) > self._most:
            self._given.popitem(last=False)
        return key

    def find(self, key: str) -> Given | None:
        """Return an answer; None where it was forgotten, or the desk was started again since."""
        return self._given.get(key)

    def get(self, key: str) -> Given:
        """Return an answer. Raises WrongInput where it was forgotten."""
        given = self.find(key)
        if given is None:
            raise WrongInput("the desk no longer has this answer", remedy="it is asked again: then try once more")
        return given
