"""The boxes of a paper of international trade where the United Nations Layout Key puts them.

UNECE Recommendation No. 1 (ISO 6422): consignor, consignee and notify party on the left from the top down; number, date,
references and buyer on the right; countries, transport details left, terms of delivery and payment right; then the goods;
at the foot place and date of issue and who signs.
"""

from shipcalc.documents import wording
from shipcalc.documents.papers.facts import Facts, Party, address_of, setting, term_told
from shipcalc.documents.papers.paper import Field

AFTER = "Boxes in the order of the United Nations Layout Key (UNECE Recommendation No. 1)."
_SETTINGS = "shipcalc.toml, [dealer]"


def head_boxes(facts: Facts, *, numbered: str) -> tuple[tuple[Field, ...], ...]:
    """Return the boxes above the goods; `numbered` is what the paper's number is called."""
    return (
        (consignor(facts), Field(numbered, f"{facts.number}\n{wording.day(facts.day)}")),
        (consignee(facts), buyer(facts)),
        (notify(facts), countries(facts)),
        (transport(facts), terms(facts)),
    )


def someone(label: str, party: Party, where: str) -> Field:
    """Return somebody who must be named with an address; `where` is how what is missing of both is filled in."""
    return Field(label, party.told(), where, lacks="" if party.address or not party.name else "address")


def consignor(facts: Facts) -> Field:
    """Return who sends it: the dealer."""
    return someone("Consignor (seller, exporter)", facts.seller, f"{_SETTINGS} address")


def consignee(facts: Facts) -> Field:
    """Return who receives it, with an address, without which no line writes a bill of lading."""
    return someone("Consignee", facts.consignee, _where_buyer(facts, "consignee"))


def buyer(facts: Facts) -> Field:
    """Return who buys, where that is somebody else than who receives it."""
    if "consignee" not in facts.parties:
        return Field("Buyer (if other than consignee)", "the consignee")
    return someone("Buyer (if other than consignee)", facts.buyer, address_of("buyer", facts.buyer.name))


def notify(facts: Facts) -> Field:
    """Return whom the line tells that the ship comes."""
    told = facts.party("notify") or ("the consignee" if facts.consignee.telephone or facts.consignee.mail else "")
    return Field("Notify party", told, setting(facts, "notify"))


def countries(facts: Facts) -> Field:
    """Return from where to where it goes, and where each vehicle was made."""
    made = dict.fromkeys(vehicle.built_in for vehicle in facts.quote.vehicles)
    if "" in made:
        return Field("Country of origin and of destination", "", 'the stock list, column "Made in"')
    origins = ", ".join(wording.country(code) for code in made)
    ends = f"From {wording.country(facts.quote.from_.country)} to {wording.country(facts.quote.to.country)}"
    return Field("Country of origin and of destination", f"Origin: {origins}\n{ends}")


def transport(facts: Facts) -> Field:
    """Return by what, from which port to which, on which ship, and when it is fetched."""
    lines = [wording.way(leg, facts.option) for leg in facts.option.legs] or ["The buyer fetches it"]
    lines += [f"To be fetched {wording.window(facts.option.dates.pickup)}"]
    ship = " ".join(part for part in (facts.reference("vessel"), facts.reference("voyage")) if part)
    lines += [f"Vessel: {ship}"] if ship else []
    lines += [f"Booking: {facts.reference('booking')}"] if facts.reference("booking") else []
    lines += [f"Container: {facts.reference('container')}"] if facts.reference("container") else []
    lines += [f"Seal: {facts.reference('seal')}"] if facts.reference("seal") else []
    return Field("Transport details", "\n".join(lines))


def terms(facts: Facts) -> Field:
    """Return the delivery term with its place, and when what is paid."""
    option, quote = facts.option, facts.quote
    deposit = f"{wording.money(option.deposit, quote.currency)} deposit on acceptance, balance {option.balance_due}"
    return Field("Terms of delivery and payment", f"{term_told(option)}\n{deposit}")


def place_and_day(facts: Facts) -> str:
    """Return what stands under the line to sign on."""
    who = f"{facts.signatory}, " if facts.signatory else "Name, "
    return f"{who}{facts.quote.dealer.name}: signature, place, day"


def _where_buyer(facts: Facts, role: str) -> str:
    if role in facts.parties or facts.quote.buyer:
        named = facts.consignee.name
        return address_of("buyer", named)
    return setting(facts, role)
