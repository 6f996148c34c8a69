"""The answers of one block as columns."""

import numpy as np
from numpy.typing import NDArray

from shipcalc.money import Int64
from shipcalc.records import dataclass
from shipcalc.trade import STAGE_MODES

NONE = -1

# Why there is no price. What the sea has to say comes as a sentence of its own, after these.
NO_ROAD = "no road leads there, and no ferry of the rate book"
NO_CARRIER = "no carrier takes it"
NOT_HOME = "beyond the home roads"
REASONS = ("", NO_ROAD, NO_CARRIER, NOT_HOME)
# What a sum does not hold although the buyer will pay it.
NOT_IN_SUM = ("duty and tax",)
WAYS = STAGE_MODES


@dataclass(frozen=True, slots=True, eq=False)
class Answers:
    """Columns of the shape (vehicles, places, trailers); NONE where there is no answer.

    `price` and `locally` in minor units; `carrier`, `why`, `note`, `way` and `lacks` are numbers into `carriers`, `reasons`,
    `notes`, WAYS and NOT_IN_SUM; days are counted from the day the vehicle is ready.
    """

    price: Int64
    locally: Int64
    miles: NDArray[np.int32]
    nautical_miles: NDArray[np.int32]
    days_from: NDArray[np.int16]
    days_to: NDArray[np.int16]
    carrier: NDArray[np.int16]
    way: NDArray[np.int8]
    why: NDArray[np.int16]
    note: NDArray[np.int16]
    lacks: NDArray[np.int8]
    carriers: tuple[str, ...]
    reasons: tuple[str, ...]
    notes: tuple[str, ...]


def no_answers(shape: tuple[int, int, int], carriers: tuple[str, ...]) -> Answers:
    """Return columns without a single answer, to be filled in."""

    def nothing(kind: type[np.signedinteger]) -> NDArray[np.signedinteger]:
        return np.full(shape, NONE, dtype=kind)

    return Answers(
        price=nothing(np.int64),
        locally=np.zeros(shape, dtype=np.int64),
        miles=nothing(np.int32),
        nautical_miles=nothing(np.int32),
        days_from=nothing(np.int16),
        days_to=nothing(np.int16),
        carrier=nothing(np.int16),
        way=nothing(np.int8),
        why=np.zeros(shape, dtype=np.int16),
        note=nothing(np.int16),
        lacks=nothing(np.int8),
        carriers=carriers,
        reasons=REASONS,
        notes=(),
    )
