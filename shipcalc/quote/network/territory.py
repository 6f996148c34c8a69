"""What belongs to the United States: where a shipment crosses the sea but no customs border, and what it still has to file.

Export information is filed for shipments to foreign countries and, for statistics, to Puerto Rico and the US Virgin Islands
(15 CFR 30.2(a)(1)); not between the states, nor to the other territories.
"""

DOMESTIC = frozenset({"US", "PR", "VI", "GU", "AS", "MP"})
FILED_ALTHOUGH_DOMESTIC = frozenset({"PR", "VI"})
BEYOND_THE_ROADS = frozenset({"AK", "HI"})

NO_CUSTOMS = (
    "No customs duty is counted between the United States and their territories; local excise, use tax and registration are "
    "the buyer's, and the tax office there says what they are."
)


def is_home(country: str, subdivision: str) -> bool:
    """Return whether home trucks go there: the contiguous United States."""
    return country == "US" and subdivision not in BEYOND_THE_ROADS


def is_domestic(country: str) -> bool:
    """Return whether a place is in the United States or a territory of theirs."""
    return country in DOMESTIC


def is_filed(country: str) -> bool:
    """Return whether the shipment's export information must be filed."""
    return country not in DOMESTIC or country in FILED_ALTHOUGH_DOMESTIC


def stages_without(country: str) -> frozenset[str]:
    """Return the cost stages that a shipment to a country does not have."""
    missing = {"import clearance"} if is_domestic(country) else set()
    return frozenset(missing if is_filed(country) else {*missing, "export clearance"})
