"""The cost stages of a shipment over the sea or a border, in words that a buyer understands."""

from collections.abc import Iterable, Sequence
from itertools import groupby

from shipcalc.quote.model import Charge, Option
from shipcalc.trade import CROSSING_BY_MODE, KEPT, OCEAN_MODES, ROUNDING, STAGES, Payer, called_by

# How the sentences begin that say of what is not included what every answer says by itself.
PAID_TO_OTHERS = "What you pay to others"
DUTY_UNKNOWN = "Duty and tax where you live"

STAGES_IN_WORDS = {KEPT: "keeping it in the yard", **{stage.name: stage.told for stage in STAGES}, ROUNDING: "rounding"}


def in_words(stage: str, mode: str) -> str:
    """Return a stage of a way that crosses so, as it stands within a sentence; one that is none of ours as it is."""
    return CROSSING_BY_MODE[mode].stages.get(stage) or STAGES_IN_WORDS.get(stage, stage)


def stage_title(stage: str, option: Option) -> str:
    """Return a stage as it stands above its lines: `The truck to the port`."""
    words = in_words(stage, next((leg.mode for leg in option.legs if leg.mode in OCEAN_MODES), "truck"))
    return words[:1].upper() + words[1:]


def has_stages(option: Option) -> bool:
    """Return whether the charges go by more than one cost stage, so that a heading over each tells something."""
    return len({charge.stage for charge in option.charges}) > 1


def by_stage(charges: Iterable[Charge]) -> Sequence[tuple[str, tuple[Charge, ...]]]:
    """Return (stage, its charges) in the order of the charges, which is that of the journey."""
    return [(stage, tuple(own)) for stage, own in groupby(charges, key=lambda charge: charge.stage)]


def stages_paid(charges: Iterable[Charge], payer: Payer) -> list[str]:
    """Return the stages on one party's account, in the order of the journey."""
    paid = {charge.stage for charge in charges if charge.payer == payer and charge.amount}
    return [stage for stage in STAGES_IN_WORDS if stage in paid and stage != ROUNDING]


def covered_in_words(option: Option, currency: str) -> str:
    """Return up to which sum each vehicle is covered in the price, and by what; that nobody covers it, where that is so."""
    if not option.cover and option.in_hand:
        return "up to a sum that is not known yet: the carrier's certificate is to be seen first"
    if not option.cover:
        return "not in this price; insuring the vehicle is yours"
    called = called_by(leg.mode for leg in option.legs)[0]
    conditions = f", {called.cover}, conditions {option.cover_conditions}" if option.cover_conditions else ""
    return f"up to {option.cover:,.0f} {currency}{conditions}"
