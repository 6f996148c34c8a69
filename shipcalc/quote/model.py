"""The Quote: one plain, complete, serialisable answer. Everything that people read is made from it and from nothing else.

Amounts are `Decimal` with the currency's own number of decimals and travel as strings in JSON, so that a quote that was
written and read again is the same to the byte (`as_data`). Records, because building sixteen pydantic models would take a
fifth of the time in which a quote is to be on the screen; pydantic tells what is wrong with a quote that cannot be read.
"""

from datetime import date
from decimal import Decimal
from typing import Literal

from shipcalc.places.place import Place
from shipcalc.records import dataclass
from shipcalc.trade import Conditions, Ocean, Payer, Trailer, Treatment
from shipcalc.vehicles.vehicle import Vehicle

Window = tuple[date, date]


@dataclass(frozen=True, slots=True, kw_only=True)
class SpotPrice:
    """A carrier's price for this one shipment, as it was said: for all vehicles together, or for `each`.

    `to` is the port that its truck drives to, where it does not go to the buyer; without a `currency` it is the rate book's.
    """

    carrier: str
    amount: Decimal
    currency: str | None = None
    until: date
    reference: str = ""
    trailer: Trailer | None = None
    to: str = ""
    each: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class InHand:
    """That an option's truck goes at a price in hand, until when it holds; the rest is for the office only.

    `amount` is what the carrier asks for all vehicles, in the quote's currency; `in_book`: it has a row in the rate book;
    `to_check` is what is to be settled with it before the price is promised, a sentence each.
    """

    until: date
    carrier: str = ""
    in_book: bool = False
    amount: Decimal | None = None
    reference: str = ""
    to_check: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WhenItHappens:
    """What a truck asks for beside the price when something happens: `amount` for each `per` ("hour", "day", "time") after the
    first `free` of them. Office only: `cost`, what the carrier asks, and the cell it stands in.
    """

    what: str
    per: str
    free: int = 0
    amount: Decimal
    cost: Decimal | None = None
    source: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What the buyer asks for beyond the place. `insure_for`: the cargo cover at home goes up to this sum for each vehicle.

    `sailing`: only ships that leave on this day. `spot`: prices in hand, which stand beside what the rate book comes to.
    `buyer_is`: a kind of buyer that the rate book has markups for.
    """

    trailer: Trailer | None = None
    lift_gate: bool = False
    limited_access: bool = False
    express: bool = False
    ocean: Ocean | None = None
    cover: Conditions | None = None
    insure_for: Decimal | None = None
    term: str | None = None
    currency: str | None = None
    released_by: str = ""
    keep_until: date | None = None
    collect: bool = False
    terminal: bool = False
    sailing: date | None = None
    spot: tuple[SpotPrice, ...] = ()
    buyer_is: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dealer:
    """Who makes the offer, as the papers show it.

    `signatory` signs papers; `accent` is a colour (#RRGGBB); `terms` are sentences of the dealer's own; `bank` is where money
    goes, a line each.
    """

    name: str
    phone: str = ""
    email: str = ""
    address: str = ""
    website: str = ""
    licence: str = ""
    signatory: str = ""
    accent: str = ""
    terms: tuple[str, ...] = ()
    bank: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RateBookStamp:
    """Which rate book priced the quote."""

    fingerprint: str
    valid_from: date | None = None
    valid_to: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """How one vehicle goes onto what carries it over the longest leg, as the charges hold it.

    `way` is one of `trade.LOADINGS`, `how` the same in a buyer's words (`in tow`), `equipment` what it needs.
    """

    vehicle: str
    way: str
    how: str
    equipment: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One movement. `distance` is what was charged for, in `unit`; `method` says how it was found.

    `loading` is how the vehicles go onto the ship, or into the container, in a buyer's words; "" on land.

    The buyer sees `carrier` only where `carrier_named`.
    """

    mode: str
    carrier: str
    carrier_named: bool = False
    from_: Place
    to: Place
    great_circle: float
    distance: int
    unit: Literal["mi", "nmi"]
    method: str
    method_note: str = ""
    vehicles: tuple[str, ...] = ()
    loading: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What a charge costs the dealer: never in anything a buyer gets."""

    quantity: Decimal
    rate: Decimal
    amount: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Charge:
    """One line. `amount` is what the payer pays: quantity × rate, or, where `unit` is "%", rate % of quantity.

    A percentage's quantity is the sum of the amounts of the lines named in `of` (by `line`), or the vehicle's value where `of`
    is empty. `line` is unique within its option ("1", "2" …). Office only: `source`, the cell of the rate, and
    `offer`, who quoted it.
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
    offer: str = ""
    cost: Cost | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Milestone:
    """One step of the timeline, with its earliest and latest day; `stage` is the moment papers are due by, if it is one.

    `office_note` is how the days were reckoned, for the office only. `free_days`: where it comes into a port, the days by the
    calendar that it stands there free of storage.
    """

    what: str
    earliest: date
    latest: date
    note: str = ""
    office_note: str = ""
    stage: str = ""
    free_days: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Dates:
    """When the vehicle is picked up and delivered, earliest and latest, and the steps between.

    `held_days`: it could set out so many days sooner, and is held in the yard for its ship. `warned` are those warnings of the
    option that hold only while it sails on these days.
    """

    pickup: Window
    delivery: Window
    timeline: tuple[Milestone, ...] = ()
    held_days: int = 0
    warned: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """A paper the shipment needs. Office only: `fee`, what it costs to get (in no price), `trust`, how its source was learnt."""

    code: str
    title: str
    due: date
    stage: str = ""
    prepared_by: str = ""
    given_to: str = ""
    copies: str = ""
    fee: Decimal | None = None
    note: str = ""
    source: str = ""
    trust: str = ""
    vehicle: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """Something somebody must do, with its due date. `takes_days`: others take that long over it once it is begun.

    It is due `days` after `stage` (before it, where negative), which `counts_from` ("first" or "last") the end of its window that
    `schedule.due` names; without `days` only the date is known.
    """

    code: str
    title: str
    owner: str
    due: date
    stage: str
    after: tuple[str, ...] = ()
    takes_days: int | None = None
    days: int | None = None
    counts_from: str = ""
    proof: str = ""
    critical: bool = False
    note: str = ""
    source: str = ""
    trust: str = ""
    vehicle: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportEstimate:
    """What the customs of the buyer's country may ask if they treat the vehicles in one way. Never more than an estimate.

    `counted`: the option's own charges hold these lines. `criteria` is what the customs will ask for.
    """

    treatment: Treatment
    counted: bool
    amount: Decimal
    lines: tuple[Charge, ...]
    criteria: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exchange:
    """The buyer's currency: units of it for one of the quote's, the day of the rate, the buffer in percent."""

    currency: str
    rate: Decimal
    as_of: date
    buffer: Decimal
    source: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Converted:
    """An option's sums in the buyer's currency, each rounded once from the quote's."""

    total: Decimal
    buyer_pays_locally: Decimal
    landed: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One way to do it, priced: what the buyer sees as a choice.

    `cover` is the sum up to which each vehicle is covered, under `cover_conditions` where the cover is a marine one. `landed`
    is all that the buyer will have paid: the vehicles, the total and what is paid locally; None at home and for unknown values.
    `balance_due` is when the rest of the total is due, as the rate book says it (`trade.BALANCES`).
    `latest_ready` is the last day to be ready that is in time for the day the buyer must have it by, where there is one.
    `before_price` are the warnings that may change the buyer's decision: every face shows them above the price. `warnings` are
    the others. `needed_from_buyer` is what the buyer must bring for this shipment, one short sentence each.
    `loading`: how each vehicle is loaded, one way each.
    `arrives`: the way ends where the buyer asked, and not at a port or border before it. `in_hand`: its truck goes at a price in
    hand. `service_class`: its carrier guarantees the pick-up by the last day of `dates.pickup`, in a class of that name.
    `when_it_happens` is in no sum: what its truck asks for then. Office only: `to_check`, which facts of the sums nobody read at
    their source or are past their age, a sentence each.
    """

    title: str
    good_for: tuple[str, ...] = ()
    trailer: Trailer | None = None
    ocean: Ocean | None = None
    term: str
    term_place: str
    risk_passes: str = ""
    total: Decimal
    buyer_pays_locally: Decimal
    deposit: Decimal
    balance_due: str = "before pickup"
    landed: Decimal | None = None
    converted: Converted | None = None
    cover: Decimal
    cover_conditions: str = ""
    total_cost: Decimal | None = None
    legs: tuple[Leg, ...]
    loading: tuple[Loaded, ...] = ()
    charges: tuple[Charge, ...]
    dates: Dates
    latest_ready: date | None = None
    imports: tuple[ImportEstimate, ...] = ()
    documents: tuple[Document, ...] = ()
    tasks: tuple[Task, ...] = ()
    included: tuple[str, ...] = ()
    not_included: tuple[str, ...] = ()
    arrives: bool = True
    before_price: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    needed_from_buyer: tuple[str, ...] = ()
    in_hand: InHand | None = None
    service_class: str = ""
    when_it_happens: tuple[WhenItHappens, ...] = ()
    to_check: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Also:
    """What else buyers ask, told beside the choices in one short line and never recommended.

    `what` is "terminal", "port", "now" or "collected"; `title` is told as it is, `total` and `difference` (to the recommended
    choice's total) are exact, `note` says what is left to the buyer. A face shows `title: total (difference), note`.
    """

    what: str
    title: str
    total: Decimal
    difference: Decimal
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """A carrier's service, a container or a port that could not be offered, and why (office only)."""

    carrier: str
    trailer: Trailer | None = None
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """The whole answer: see the module's text. `recommended` is an index into `options`; `reason` says why in a sentence.

    `number` and `revision`, from 1 on, are given where the quote is kept.
    """

    number: str | None = None
    revision: int | None = None
    as_of: date
    ready: date
    by: date | None = None
    valid_until: date
    currency: str
    rate_book: RateBookStamp
    program: str
    dealer: Dealer
    buyer: str = ""
    wishes: Wishes
    from_: Place
    to: Place
    vehicles: tuple[Vehicle, ...]
    recommended: int
    reason: str
    exchange: Exchange | None = None
    options: tuple[Option, ...]
    also: tuple[Also, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    assumptions: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
