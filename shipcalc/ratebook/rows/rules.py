"""How cost becomes price: what the sheet Pricing sets."""

from collections.abc import Mapping
from datetime import date

from shipcalc.records import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class PricingRules:
    """How cost becomes price. Percentages in millionths, money in minor units of `currency`.

    `markup_ocean_ppm` is on ocean freight, `markup_port_ppm` on ports, papers and on-carriage; `overseas_term` the delivery term
    that is quoted where nobody asks for another, `cover_conditions` the marine cover (A, B or C).

    `least_abroad_minor` is what the price of a whole shipment abroad is above its cost at least, for each vehicle.

    `miles_a_day` is how far a truck comes in a day with its other stops, where its carrier's row does not say (400 to 500 on a
    shared trailer: common practice, no source).

    An enclosed trailer is recommended from the value `enclosed_from_minor` on (None: never for the value alone).
    `later` are the rules from a day of pickup on, in the order of the days, where a setting changes; these have none of their own.
    `cells` maps the name of each setting in the workbook to its cell (`Rounding step` → `trucking.xlsx › Pricing!B7`).
    """

    currency: str = "USD"
    valid_from: date | None = None
    valid_to: date | None = None
    markup_linehaul_ppm: int = 0
    markup_fuel_ppm: int = 0
    markup_extras_ppm: int = 0
    rounding_step_minor: int = 1
    days_valid: int = 14
    deposit_ppm: int = 0
    balance_due: str = "before pickup"
    enclosed_from_minor: int | None = None
    road_speed_mph: float = 55.0
    miles_a_day: int = 450
    fuel_stale_after_days: int = 14
    source_stale_after_days: int = 365
    markup_ocean_ppm: int = 0
    markup_port_ppm: int = 0
    least_abroad_minor: int = 0
    overseas_term: str = "DAP"
    cover_conditions: str = "A"
    farthest_export_port_mi: int = 3500
    currency_stale_after_days: int = 14
    cells: Mapping[str, str] = field(default_factory=dict)
    later: "tuple[tuple[date, PricingRules], ...]" = ()

    def of_day(self, day: date) -> "PricingRules":
        """Return the rules of a day of pickup."""
        return next((rules for first, rules in reversed(self.later) if first <= day), self)
