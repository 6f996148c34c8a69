"""Watch a register: what happened in it since it was last asked, whichever desk or terminal did it."""

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


class Watch:
    """Keeps a register open, so that asking it every second costs next to nothing. Asked by one thread at a time."""

    def __init__(self) -> None:
        self._url = ""
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
        self._register, self._url = None, ""

    def _open(self, desk: "Desk") -> "Register":
        from shipcalc.register.opening import open_register

        url = desk.url
        if self._register is None or url != self._url:
            self.close()
            self._register, self._url = open_register(url), url
        return self._register
