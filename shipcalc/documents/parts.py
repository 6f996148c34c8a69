"""The few parts that a price is made of, for the eye: each charge's code decides."""

from shipcalc.quote.model import Charge

OTHER = "Everything else"

# (part, how the codes of its charges begin), in the order they are shown
PARTS = (
    ("Carriage by road", ("truck.base", "truck.linehaul", "truck.minimum")),
    ("Fuel surcharge", ("truck.fuel",)),
    ("By sea", ("ocean.",)),
    ("Ports and papers", ("port.", "export.", "import.")),
    (OTHER, ()),
)


def part_of(charge: Charge) -> str:
    """Return the part of the price that a charge belongs to."""
    return next((part for part, beginnings in PARTS if charge.code.startswith(beginnings)), OTHER)
