"""Who asks: the person of the request that is being answered, and what a role may do."""

from contextvars import ContextVar
from typing import Literal

from shipcalc.records import dataclass

Role = Literal["sales", "office", "manager"]
# Each may do what the ones before it may.
ROLES: tuple[Role, ...] = ("sales", "office", "manager")
# Which role an address needs, by what it begins with; what is not listed is everybody's.
NEEDED: tuple[tuple[str, Role], ...] = (("/office", "office"), ("/api/shipments", "office"), ("/rates", "manager"))


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody at the desk. Without a name: whoever sits at this machine."""

    name: str
    role: Role

    def may(self, path: str) -> bool:
        """Return whether an address is for this person."""
        return ROLES.index(self.role) >= ROLES.index(role_needed(path))


HERE = Person("", "manager")
WHO: ContextVar[Person] = ContextVar("who", default=HERE)


def role_needed(path: str) -> Role:
    """Return the least role that may ask for an address."""
    return next((role for start, role in NEEDED if path == start or path.startswith(f"{start}/")), "sales")
