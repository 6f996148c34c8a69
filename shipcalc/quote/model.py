"""The Quote: one plain, complete, serialisable answer. Everything that people read is made from it and from nothing else.

Amounts are `Decimal` with the currency's own number of decimals and travel as strings in JSON, so that a quote that was
written and read again is the same to the byte.
"""

from datetime import date
from decimal import Decimal
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from shipcalc.places.place import Place
from shipcalc.vehicles.vehicle import Vehicle

Trailer = Literal["open", "enclosed"]
Payer = Literal["seller", "buyer"]
Window = tuple[date, date]


class Part(BaseModel):
    """Base of all parts of a quote: frozen, closed to unknown fields."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)


class Wishes(Part):
    """What the buyer asks for beyond the place."""

    trailer: Trailer | None = None
    lift_gate: bool = False
    limited_access: bool = False
    express: bool = False
    term: str | None = None
    currency: str | None = None


class Dealer(Part):
    """Who makes the offer, as the papers show it."""

    name: str
    phone: str = ""
    email: str = ""
    address: str = ""
    website: str = ""
    licence: str = ""


class RateBookStamp(Part):
    """Which rate book priced the quote."""

    fingerprint: str
    valid_from: date | None = None
    valid_to: date | None = None


class Leg(Part):
    """One movement. `distance` is what was charged for, in `unit`; `method` says how it was found.

    The buyer sees `carrier` only where `carrier_named`.
    """

    mode: str
    carrier: str
    carrier_named: bool = False
    from_: Place = Field(alias="from")
    to: Place
    great_circle: float
    distance: int
    unit: Literal["mi", "nmi"]
    method: str
    method_note: str = ""
    vehicles: tuple[str, ...] = ()


class Cost(Part):
    """What a charge costs the dealer: never in anything a buyer gets."""

    quantity: Decimal
    rate: Decimal
    amount: Decimal


class Charge(Part):
    """One line. `amount` is what the payer pays: quantity × rate, or, where `unit` is "%", rate % of quantity.

    A percentage's quantity is the sum of the amounts of the lines named in `of` (by `line`), or the vehicle's value where `of`
    is empty. `line` is unique within its option ("1", "2" …). `source` is the cell of the rate (office only).
    """

    line: str
    code: str
    label: str
    stage: str
    vehicle: str | None = None
    quantity: Decimal
    unit: str
    rate: Decimal
    of: tuple[str, ...] = ()
    amount: Decimal
    payer: Payer = "seller"
    estimate: bool = False
    note: str = ""
    source: str | None = None
    cost: Cost | None = None


class Milestone(Part):
    """One step of the timeline, with its earliest and latest day."""

    what: str
    earliest: date
    latest: date
    note: str = ""


class Dates(Part):
    """When the vehicle is picked up and delivered, earliest and latest, and the steps between."""

    pickup: Window
    delivery: Window
    timeline: tuple[Milestone, ...] = ()


class Document(Part):
    """A paper the shipment needs."""

    code: str
    title: str
    due: date
    stage: str = ""
    prepared_by: str = ""
    given_to: str = ""
    copies: str = ""
    note: str = ""
    source: str = ""
    vehicle: str | None = None


class Task(Part):
    """Something somebody must do, with its due date."""

    code: str
    title: str
    owner: str
    due: date
    stage: str
    after: tuple[str, ...] = ()
    proof: str = ""
    critical: bool = False
    note: str = ""
    source: str = ""
    vehicle: str | None = None


class Option(Part):
    """One way to do it, priced: what the buyer sees as a choice."""

    title: str
    good_for: tuple[str, ...] = ()
    trailer: Trailer | None = None
    ocean: Literal["roro", "container"] | None = None
    term: str
    term_place: str
    total: Decimal
    buyer_pays_locally: Decimal
    deposit: Decimal
    cover: Decimal
    total_cost: Decimal | None = None
    legs: tuple[Leg, ...]
    charges: tuple[Charge, ...]
    dates: Dates
    documents: tuple[Document, ...] = ()
    tasks: tuple[Task, ...] = ()
    included: tuple[str, ...] = ()
    not_included: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()


class LeftOut(Part):
    """A carrier's service that could not be offered, and why (office only)."""

    carrier: str
    trailer: Trailer
    reason: str


class Quote(Part):
    """The whole answer: see the module's text. `recommended` is an index into `options`; `reason` says why in a sentence."""

    number: str | None = None
    as_of: date
    ready: date
    valid_until: date
    currency: str
    rate_book: RateBookStamp
    program: str
    dealer: Dealer
    buyer: str = ""
    wishes: Wishes
    from_: Place = Field(alias="from")
    to: Place
    vehicles: tuple[Vehicle, ...]
    recommended: int
    reason: str
    options: tuple[Option, ...]
    left_out: tuple[LeftOut, ...] = ()
    assumptions: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()

    def to_json(self) -> str:
        """Return the quote as JSON; `Quote.model_validate_json` gives the same quote back."""
        return self.model_dump_json(by_alias=True, indent=2)
