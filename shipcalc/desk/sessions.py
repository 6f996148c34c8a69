"""Who is signed in, for how long, and how often somebody may try: all in memory: a desk that ends signs everybody out."""

import secrets
from collections import OrderedDict
from collections.abc import Callable

from shipcalc.desk.who import Person
from shipcalc.records import dataclass

IDLE_SECONDS = 12 * 3600
_MOST_SESSIONS = 1_000
_MOST_WATCHED = 10_000


@dataclass(slots=True)
class Session:
    """One signed-in browser: who it is, the token that its pages send with what they change, when it was last heard of."""

    person: Person
    token: str
    heard: float


class Sessions:
    """The sessions by the secret in the browser's cookie. `clock` counts seconds and never goes back."""

    def __init__(self, clock: Callable[[], float]) -> None:
        self._clock = clock
        self._sessions: OrderedDict[str, Session] = OrderedDict()

    def begin(self, person: Person) -> str:
        """Return the secret of a new session."""
        secret = secrets.token_urlsafe(32)
        self._sessions[secret] = Session(person, secrets.token_urlsafe(32), self._clock())
        while len(self._sessions) > _MOST_SESSIONS:
            self._sessions.popitem(last=False)
        return secret

    def find(self, secret: str) -> Session | None:
        """Return the session of a secret, None where it never was or has ended."""
        found = self._sessions.get(secret)
        if found is None:
            return None
        if self._clock() - found.heard > IDLE_SECONDS:
            del self._sessions[secret]
            return None
        found.heard = self._clock()
        self._sessions.move_to_end(secret)
        return found

    def end(self, secret: str) -> None:
        """End a session."""
        self._sessions.pop(secret, None)


class Allowance:
    """So many things in so many seconds by whoever is counted, given back evenly. `clock` counts seconds."""

    def __init__(self, most: int, seconds: float, clock: Callable[[], float]) -> None:
        self._most, self._each, self._clock = float(most), seconds / most, clock
        self._left: OrderedDict[str, tuple[float, float]] = OrderedDict()

    def wait(self, who: str) -> float:
        """Return how many seconds are to be waited before the next thing; 0 where none."""
        left = self._now_left(who)
        return 0.0 if left >= 1 else (1 - left) * self._each

    def take(self, who: str) -> float:
        """Count one thing and return 0, or, where none is left, the seconds to wait."""
        wait = self.wait(who)
        if not wait:
            self._left[who] = (self._now_left(who) - 1, self._clock())
            self._left.move_to_end(who)
            while len(self._left) > _MOST_WATCHED:
                self._left.popitem(last=False)
        return wait

    def give_back(self, who: str) -> None:
        """Forget what was counted."""
        self._left.pop(who, None)

    def _now_left(self, who: str) -> float:
        left, at = self._left.get(who, (self._most, self._clock()))
        return min(self._most, left + (self._clock() - at) / self._each)
