"""What a condition column of a decision table asks: of which fact, how, and what it means where nobody knows the fact.

Conditions are declared with their columns (`column(…, condition=Condition(…))`); `ratebook/decisions.py` answers them.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from shipcalc.records import dataclass

How = Literal[
    "is",
    "one of",
    "none of",
    "all of",
    "over",
    "up to",
    "from",
    "under",
    "has a word of",
    "has no word of",
    "lies in",
    "season",
]
Bearer = Literal["vehicle", "lane", "service", "shipment", "departure", "day"]
Unknown = Literal["met", "not met"]
Part = Literal["first", "last", "every year"]


@dataclass(frozen=True, slots=True)
class Fact:
    """Something that rows may ask for: what bears it, what it is, and whether it may be unknown (None)."""

    about: Bearer
    told: str
    may_be_unknown: bool = False


@dataclass(frozen=True, slots=True)
class Condition:
    """What a column asks of one fact.

    is, one of, none of: the fact is, or is none, of the cell's answers, letters' case aside; of a fact that is several things at
    once, one of them. all of: it is all of them. over and under leave the cell's figure (or day) out, up to and from take it in.
    has a word of, has no word of: a text holds one of the cell's words. lies in: a place lies in the area of that name.
    season: the columns that are its `part` make one condition; without its first or last day it asks nothing.

    A blank cell asks nothing; but where it `blank_bars` some answers, they do not meet it. `unknown` is said of every fact that
    may be unknown: whether it then counts as meeting the condition.
    """

    fact: str
    how: How
    unknown: Unknown | None = None
    part: Part | None = None
    blank_bars: tuple[str, ...] = ()


FACTS: Mapping[str, Fact] = MappingProxyType(
    {
        "yard": Fact("vehicle", "yard it stands at", may_be_unknown=True),
        "runs": Fact("vehicle", "runs"),
        "rolls": Fact("vehicle", "rolls"),
        "steers": Fact("vehicle", "steers"),
        "brakes": Fact("vehicle", "brakes"),
        "modified": Fact("vehicle", "is altered in size or stance"),
        "battery": Fact("vehicle", "is driven by battery, wholly or in part"),
        "motorcycle": Fact("vehicle", "its body says motorcycle; one whose body nobody knows is none"),
        "title": Fact("vehicle", "kind of title"),
        "length_mm": Fact("vehicle", "length", may_be_unknown=True),
        "width_mm": Fact("vehicle", "width", may_be_unknown=True),
        "height_mm": Fact("vehicle", "height", may_be_unknown=True),
        "clearance_mm": Fact("vehicle", "ground clearance", may_be_unknown=True),
        "mass_grams": Fact("vehicle", "mass", may_be_unknown=True),
        "value_minor": Fact("vehicle", "value", may_be_unknown=True),
        "engine_cc": Fact("vehicle", "size of the engine", may_be_unknown=True),
        "year": Fact("vehicle", "model year", may_be_unknown=True),
        "age_years": Fact("vehicle", "age by model year, on the day the sheet counts from", may_be_unknown=True),
        "built_in": Fact("vehicle", "country it was built in", may_be_unknown=True),
        "body": Fact("vehicle", "kind of body, as text", may_be_unknown=True),
        "treatment": Fact("shipment", "how customs take it, or may take it", may_be_unknown=True),
        "loaded": Fact("vehicle", "how it goes onto what carries it", may_be_unknown=True),
        "miles": Fact("lane", "whole road miles"),
        "pickup_area": Fact("lane", "the areas that its beginning lies in"),
        "delivery_area": Fact("lane", "the areas that its end lies in"),
        "carrier": Fact("service", "carrier or line"),
        "trailer": Fact("service", "kind of trailer, or driven", may_be_unknown=True),
        "day": Fact(
            "day", "the day that the sheet counts by: pickup, the last day that a vehicle is kept, or the quote"
        ),
        "vehicle_count": Fact("shipment", "vehicles of the request"),
        "lift_gate": Fact("shipment", "a lift gate is asked for; for papers also where a low vehicle needs one"),
        "limited_access": Fact("shipment", "the truck cannot reach the door"),
        "express": Fact("shipment", "express pickup is paid for"),
        "overseas": Fact("shipment", "leaves the customs territory"),
        "export_filing": Fact("shipment", "an export filing is due"),
        "to_country": Fact("shipment", "country it goes to, ISO 3166-1"),
        "to_part": Fact("shipment", "region and city it goes to"),
        "mode": Fact("shipment", "how it travels the longest part"),
        "cover": Fact("shipment", "conditions of the marine cover"),
        "term": Fact("shipment", "delivery term"),
        "seller_pays": Fact("shipment", "cost stages on the seller's account; all others are the buyer's"),
        "balance_due": Fact("shipment", "when the balance is due"),
        "leaves": Fact(
            "departure", "first and last day on which it may leave, by ship or by road", may_be_unknown=True
        ),
    }
)
