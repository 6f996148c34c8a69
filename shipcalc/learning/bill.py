"""A bill: what somebody who carried, or helped to, asked for one quoted shipment; and the kinds that bills are told apart by."""

from collections.abc import Mapping
from datetime import date

from shipcalc.pricing.line import FUEL, LINEHAUL
from shipcalc.records import dataclass

# What a bill can be for, and how the codes of a quote's lines begin that are the same thing.
KINDS: Mapping[str, tuple[str, ...]] = {
    "linehaul": LINEHAUL,
    "fuel": FUEL,
    "extras": ("extra.", "area.", "season", "truck."),
    "ocean": ("ocean.", "loading."),
    "port": ("port.",),
    "forwarding": ("stage.", "yard."),
    "cover": ("cover.",),
    "on-carriage": ("oncarriage.",),
    "ferry": ("ferry",),
    "storage": ("storage",),
}
# One sum for the truck: how most carriers bill.
ALL_IN = "all-in"
OF_ALL_IN = ("linehaul", "fuel", "extras")
WORDS = (*KINDS, ALL_IN)
_SPOT = "truck.spot"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bill:
    """One line of what was billed, in whole minor units; below 0 for what was given back. `id` is its place in the register."""

    id: int = 0
    number: str
    carrier: str
    kind: str
    amount_minor: int
    currency: str
    day: date
    reference: str = ""


def kind_of(code: str) -> str | None:
    """Return what a line of a quote would be billed as; None for what nobody bills, such as the step to a round price."""
    if code == _SPOT:
        return ALL_IN
    return next((kind for kind, begins in KINDS.items() if code.startswith(begins)), None)


def kinds_in(kind: str) -> tuple[str, ...]:
    """Return the kinds of lines that a bill of a kind is for."""
    return (*OF_ALL_IN, ALL_IN) if kind == ALL_IN else (kind,)
