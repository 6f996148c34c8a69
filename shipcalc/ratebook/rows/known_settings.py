"""The settings that the sheet Pricing may have: what each is called, which field it fills, how its value is read."""

from shipcalc.ratebook.workbook.columns import Kind
from shipcalc.records import dataclass
from shipcalc.trade import BALANCES, COVER_CONDITIONS, DELIVERY_TERMS


@dataclass(frozen=True, slots=True)
class Setting:
    """One known setting: its name on the sheet, the field it fills, how its value is read and shown."""

    name: str
    field: str
    kind: Kind
    unit: str
    example: str
    note: str
    choices: tuple[str, ...] = ()
    overseas: bool = False

    @property
    def may_change(self) -> bool:
        """Return whether it may have another value for pickups from some day on: only what the price of a day is made with."""
        return self.field.startswith("markup_") or self.field in _OF_A_DAY


_OF_A_DAY = frozenset(("enclosed_from_minor", "rounding_step_minor", "deposit_ppm", "least_abroad_minor"))

SETTINGS = (
    Setting(
        "Currency",
        "currency",
        Kind.CODE,
        "three letters (ISO 4217)",
        "USD",
        "The currency of every amount in this workbook.",
    ),
    Setting("Valid from", "valid_from", Kind.DATE, "date", "2026-01-01", "First day these prices may be quoted."),
    Setting("Valid to", "valid_to", Kind.DATE, "date", "2027-12-31", "Last day these prices may be quoted."),
    Setting(
        "Markup on linehaul",
        "markup_linehaul_ppm",
        Kind.PERCENT,
        "percent",
        "14 %",
        "Added to the carrier's base fee and miles, and to seasons.",
    ),
    Setting("Markup on fuel", "markup_fuel_ppm", Kind.PERCENT, "percent", "0 %", "Added to the fuel surcharge."),
    Setting(
        "Markup on extra charges",
        "markup_extras_ppm",
        Kind.PERCENT,
        "percent",
        "10 %",
        "Added to extra charges and to charges of areas.",
    ),
    Setting(
        "Rounding step",
        "rounding_step_minor",
        Kind.MONEY,
        "dollars",
        "5",
        "The total is rounded up to a multiple of this.",
    ),
    Setting("Days valid", "days_valid", Kind.WHOLE, "days", "14", "How long a quote may be accepted."),
    Setting("Deposit", "deposit_ppm", Kind.PERCENT, "percent of the total", "20 %", "Due when the buyer accepts."),
    Setting(
        "Enclosed from",
        "enclosed_from_minor",
        Kind.MONEY,
        "dollars",
        "75000",
        "From this value of the vehicle on, an enclosed trailer is recommended. No row: never for the value alone.",
    ),
    Setting(
        "Road speed (mph)",
        "road_speed_mph",
        Kind.FACTOR,
        "miles an hour",
        "55",
        "Average speed while driving: how soon a driver may lawfully be there.",
    ),
    Setting(
        "Fuel price stale after (days)",
        "fuel_stale_after_days",
        Kind.WHOLE,
        "days",
        "14",
        "An older fuel price is a warning on every quote.",
    ),
    Setting(
        "Source stale after (days)",
        "source_stale_after_days",
        Kind.WHOLE,
        "days",
        "365",
        "The check names rows whose source was last looked at longer ago (Checked on).",
    ),
    Setting(
        "Markup, ocean freight",
        "markup_ocean_ppm",
        Kind.PERCENT,
        "percent",
        "12 %",
        "Added to ocean freight.",
        overseas=True,
    ),
    Setting(
        "Markup, ports, papers and on-carriage",
        "markup_port_ppm",
        Kind.PERCENT,
        "percent",
        "10 %",
        "Added to charges of ports, containers and papers, and to carriage from the arrival port.",
        overseas=True,
    ),
    Setting(
        "Least margin abroad",
        "least_abroad_minor",
        Kind.MONEY,
        "dollars a vehicle",
        "400",
        "Abroad, our price of all that we arrange is so much above what it costs us at least; what is missing is a line of its own.",
        overseas=True,
    ),
    Setting(
        "Overseas term",
        "overseas_term",
        Kind.CHOICE,
        "delivery term (Incoterms 2020)",
        "DAP",
        "The delivery term of an overseas quote, unless another is asked for.",
        choices=DELIVERY_TERMS,
        overseas=True,
    ),
    Setting(
        "Cover conditions",
        "cover_conditions",
        Kind.CHOICE,
        "A, B or C",
        "A",
        "The marine cover of an overseas quote, unless the delivery term asks for more.",
        choices=COVER_CONDITIONS,
        overseas=True,
    ),
    Setting(
        "Farthest export port (mi)",
        "farthest_export_port_mi",
        Kind.MILES,
        "road miles",
        "3500",
        "Ports farther from the yard by road than this are not considered.",
        overseas=True,
    ),
    Setting(
        "Currency rate stale after (days)",
        "currency_stale_after_days",
        Kind.WHOLE,
        "days",
        "14",
        "An older rate of exchange is a warning on every quote that uses it.",
        overseas=True,
    ),
    Setting(
        "Balance due",
        "balance_due",
        Kind.CHOICE,
        ", ".join(BALANCES),
        "before pickup",
        "When the rest of the price is due: quotes say it, and the tasks of the checklist follow it.",
        choices=BALANCES,
    ),
    Setting(
        "Miles a day",
        "miles_a_day",
        Kind.WHOLE,
        "road miles",
        "450",
        "How far a truck gets in a day with its other stops, where the sheet Carriers does not say.",
    ),
)
