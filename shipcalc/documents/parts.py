"""The few parts that a price is made of, for the eye: by a charge's stage, and by its code where all is one stage.

What is less to pay is a part of its own, and what brings a sum to a round price counts with the carriage.
"""

from shipcalc.quote.model import Charge

OTHER = "Extra services"
DISCOUNTS = "Discounts"

_CARRIAGE = (
    *("truck.base", "truck.linehaul", "truck.lane", "truck.direction", "truck.minimum", "truck.spot"),
    "price.rounding",
)
# (part, how the codes of its charges begin), in the order they are shown
_BY_CODE = (
    ("Carriage by road", _CARRIAGE),
    ("Fuel surcharge", ("truck.fuel",)),
)

# (part, its stages), in the order they are shown: as many as a drawing can tell apart
_BY_STAGE = (
    ("Up to the main carriage", ("storage", "export packing", "loading at origin", "pre-carriage")),
    ("The main carriage", ("main carriage", "rounding")),
    ("Marine cover", ("cargo insurance",)),
    (
        "Ports and papers",
        (
            "export clearance",
            "origin terminal",
            "loading on vessel",
            "destination terminal",
            "import clearance",
        ),
    ),
    ("To your door", ("on-carriage", "unloading")),
    ("Duty and tax", ("duty and tax",)),
)
_STAGE_PARTS = {stage: part for part, stages in _BY_STAGE for stage in stages}
PARTS = (*(part for part, _ in _BY_CODE), *(part for part, _ in _BY_STAGE), OTHER, DISCOUNTS)


def part_of(charge: Charge) -> str:
    """Return the part of the price that a charge belongs to."""
    if charge.amount < 0:
        return DISCOUNTS
    if charge.stage in _STAGE_PARTS:
        return _STAGE_PARTS[charge.stage]
    return next((part for part, beginnings in _BY_CODE if charge.code.startswith(beginnings)), OTHER)
