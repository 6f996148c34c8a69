"""How a vehicle is tied down on a truck: what is to be heeded, on paper and in the workbook."""

from shipcalc.quote.model import Option

HEAVIEST_LB = 10_000
CAUTIONS = (
    "The carrier is responsible for securing and knows its equipment; this sheet is a second pair of eyes and no approval.",
    "Local rules and the rules of other countries may ask for more.",
    "The working load limit stands on the tag of the strap or chain. No tag, a cut, a knot or a bent hook: do not count it.",
    "Above 10,000 lb other rules hold (49 CFR 393.130). For motorcycles 393.128 is not written; the general rules hold.",
    "Structure tie-downs go to the mounting points made for them; wheel straps must hold the wheel in all four directions.",
    "Never over painted or chromed parts.",
)
SOURCE = (
    "49 CFR 393.128: at least two tie-downs in front and two behind, each vehicle up to 10,000 lb. 49 CFR 393.106(d), read in a "
    "secondary source only: limits together at least half the weight; direct counts half, over or around counts whole."
)


def is_tied_down(option: Option) -> bool:
    """Return whether a truck of ours carries the vehicle: nothing is tied down that is driven or collected."""
    return option.trailer is not None
