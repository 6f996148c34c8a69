"""Watch a register: what happened in it since it was last asked, whichever desk or terminal did it."""

from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.actions.kept_quotes import Desk
    from shipcalc.register.events import Event
    from shipcalc.register.opening import Register

MOST_AT_ONCE = 200


@dataclass(frozen=True, slots=True)
class Happened:
    """What happened, oldest first; `last` is the number of the latest event. Where there was too much to tell, `lost` says so."""

    last: int
    events: "tuple[Event, ...]"
    lost: bool = False


def latest(desk: "Desk") -> int:
    """Return the number of the latest event: what is read after it has all that happened until then."""
    from shipcalc.register.events import latest_event

    with desk.register() as register, register.reading() as connection:
        return latest_event(connection)


class Watch:
    """Keeps a register open, so that asking it every second costs next to nothing. Asked by one thread at a time."""

    def __init__(self) -> None:
        self._which: object = None
        self._register: Register | None = None

    def since(self, last: int | None, desk: "Desk") -> Happened:
        """Return what happened after an event; with None only the latest one's number.

        An event that is not there yet belongs to another register, or to one put back from a backup: all is lost.
        """
        from shipcalc.register.events import events_after, latest_event

        with self._open(desk).reading() as connection:
            latest = latest_event(connection)
            if last is None or last == latest:
                return Happened(latest, ())
            if last > latest or latest - last > MOST_AT_ONCE:
                return Happened(latest, (), lost=True)
            found = events_after(connection, last, most=MOST_AT_ONCE)
        return Happened(found[-1].id, found)

    def close(self) -> None:
        """Let go of the register."""
        if self._register is not None:
            self._register.close()
        self._register, self._which = None, None

    def _open(self, desk: "Desk") -> "Register":
        from shipcalc.register.opening import open_register

        if self._register is None or _which(desk.url) != self._which:
            self.close()
            self._register = open_register(desk.url)
            self._which = _which(desk.url)
        return self._register


def _which(url: str) -> object:
    """Return what tells one register from another: its URL, and of a file which one it is, since another may take its place."""
    from sqlalchemy import make_url

    parsed = make_url(url)
    if parsed.get_backend_name() != "sqlite":
        return url
    try:
        told = Path(parsed.database or "").stat()
    except OSError:
        return url
    return url, told.st_dev, told.st_ino
