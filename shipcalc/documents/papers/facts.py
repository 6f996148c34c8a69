"""What the papers of a shipment are filled in from, and how the parts that many of them share are said."""

from collections.abc import Mapping
from datetime import date
from decimal import Decimal

from shipcalc.documents import wording
from shipcalc.documents.logo import Logo
from shipcalc.documents.offer.itemised import included_charges
from shipcalc.money import decimals
from shipcalc.quote.model import Leg, Option, Quote
from shipcalc.records import dataclass, field
from shipcalc.settings import Paper as Format
from shipcalc.trade import COVER_STAGE, OCEAN_MODES
from shipcalc.vehicles.vehicle import Vehicle


@dataclass(frozen=True, slots=True, kw_only=True)
class Party:
    """Somebody on a paper, as the address book has them."""

    name: str
    address: str = ""
    telephone: str = ""
    mail: str = ""

    def told(self) -> str:
        """Return name, address, telephone and mail, a line each."""
        return "\n".join(part for part in (self.name, self.address, self.telephone, self.mail) if part)


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """A quote, the choice that was taken, and what the office knows beside it.

    `references` are those of `checklist/references.py` by name; `parties` who they name, by the same names, and "buyer".
    `accepted_on` is None before the yes. `signatory` signs for the dealer; `bank` is where money goes, a line each.
    """

    quote: Quote
    option: Option
    day: date
    accepted_on: date | None = None
    references: Mapping[str, str] = field(default_factory=dict)
    parties: Mapping[str, Party] = field(default_factory=dict)
    signatory: str = ""
    bank: tuple[str, ...] = ()
    logo: Logo | None = None
    size: Format = "letter"

    @property
    def number(self) -> str:
        """Return the quote's number, or what stands in its place."""
        return self.quote.number or wording.reference(self.quote)

    @property
    def seller(self) -> Party:
        """Return the dealer."""
        dealer = self.quote.dealer
        return Party(name=dealer.name, address=dealer.address, telephone=dealer.phone, mail=dealer.email)

    @property
    def buyer(self) -> Party:
        """Return who buys; the name alone where the address book has no more."""
        return self.parties.get("buyer") or Party(name=self.quote.buyer)

    @property
    def consignee(self) -> Party:
        """Return who receives it: who is named, else the buyer."""
        return self.parties.get("consignee") or self.buyer

    def reference(self, name: str) -> str:
        """Return a reference, "" where there is none yet."""
        return self.references.get(name, "")

    def party(self, name: str) -> str:
        """Return who a reference names, with address and telephone where they are known."""
        known = self.parties.get(name)
        return known.told() if known else self.reference(name)

    @property
    def ship(self) -> Leg | None:
        """Return the leg at sea, if there is one."""
        return next((leg for leg in self.option.legs if leg.mode in OCEAN_MODES), None)

    @property
    def first_truck(self) -> Leg | None:
        """Return the leg that fetches the vehicle from the yard, where somebody carries it."""
        return self.option.legs[0] if self.option.legs and self.option.legs[0].mode not in OCEAN_MODES else None


def setting(facts_shipment: Facts, name: str) -> str:
    """Return how a reference of this shipment is filled in."""
    return f"shipcalc shipments set {facts_shipment.quote.number or 'NUMBER'} {name}=…"


def address_of(role: str, name: str) -> str:
    """Return how somebody's address is filled in."""
    return f'shipcalc contacts add {role} "{name or "NAME"}" --address "…"'


def commodity_code(facts_shipment: Facts) -> str:
    """Return how the commodity code is filled in, which only a customs broker or forwarder names."""
    return f"as the customs broker or forwarder names it: {setting(facts_shipment, 'commodity')}"


def described(vehicle: Vehicle) -> str:
    """Return a vehicle as customs and carriers ask for it: what it is, its number, engine, state."""
    engine = f"engine {vehicle.engine_cc:,} cm³" + (f", {vehicle.fuel}" if vehicle.fuel else "")
    more = (engine if vehicle.engine_cc else "", f"stock number {vehicle.stock_number}")
    parts = (
        f"Used motor vehicle, {vehicle.name}",
        f"serial number (VIN) {vehicle.serial}" if vehicle.serial else "",
        ", ".join(part for part in more if part),
    )
    return "\n".join(part for part in parts if part)


def kilograms(vehicle: Vehicle) -> str:
    """Return the mass in whole kilograms, "" where it is unknown; an assumed one says so."""
    if vehicle.mass_grams is None:
        return ""
    return f"{round(vehicle.mass_grams / 1000):,}" + (" (assumed)" if "mass_grams" in vehicle.assumed else "")


def measured(vehicle: Vehicle) -> str:
    """Return length × width × height in centimetres, rounded up; "" where one is unknown; assumed ones say so."""
    sizes = (vehicle.length_mm, vehicle.width_mm, vehicle.height_mm)
    if any(one is None for one in sizes):
        return ""
    assumed = {"length_mm", "width_mm", "height_mm"} & set(vehicle.assumed)
    return " × ".join(str(-(-(one or 0) // 10)) for one in sizes) + (" (assumed)" if assumed else "")


def cubic_metres(vehicle: Vehicle) -> str:
    """Return the volume over everything that sticks out, m³ to three decimals, "" where a size is unknown."""
    if vehicle.length_mm is None or vehicle.width_mm is None or vehicle.height_mm is None:
        return ""
    volume = Decimal(vehicle.length_mm * vehicle.width_mm * vehicle.height_mm) / 10**9
    return f"{volume:.3f}"


def price_of(vehicle: Vehicle) -> Decimal | None:
    """Return the price of a vehicle in its currency, None where it is unknown."""
    if vehicle.value_minor is None:
        return None
    places = decimals(vehicle.currency)
    return Decimal(vehicle.value_minor).scaleb(-places)


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivered:
    """What the transport costs beside the vehicles, as an invoice divides it: to the ship or border, freight, cover, "
    "onward."""

    carriage: Decimal
    freight: Decimal
    cover: Decimal

    @property
    def total(self) -> Decimal:
        """Return all of it: the total of the choice."""
        return self.carriage + self.freight + self.cover


def delivered(option: Option) -> Delivered:
    """Return the total of a choice as customs ask for it: freight and cover apart from the rest."""
    paid = included_charges(option)
    freight = sum((one.amount for one in paid if one.stage == "main carriage"), Decimal(0))
    cover = sum((one.amount for one in paid if one.stage == COVER_STAGE), Decimal(0))
    return Delivered(carriage=option.total - freight - cover, freight=freight, cover=cover)


def term_told(option: Option) -> str:
    """Return the delivery term with its named place: `DAP Bremen, Incoterms® 2020`; the place alone at home."""
    if option.term:
        return f"{option.term} {option.term_place} (Incoterms® 2020)"
    return option.term_place
