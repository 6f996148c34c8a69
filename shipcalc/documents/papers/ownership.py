"""What passes the vehicle from one to the other: bill of sale, power of attorney for the forwarder, letter to a lien holder.

Drafts in our own words. State law says what a bill of sale must hold and whether a notary signs it: the state's own form goes
before this one.
"""

from shipcalc.documents import wording
from shipcalc.documents.papers import layout_key
from shipcalc.documents.papers.facts import Facts, address_of, described, price_of, setting
from shipcalc.documents.papers.invoices import stock_column
from shipcalc.documents.papers.paper import BY_HAND, Field, Paper
from shipcalc.vehicles.vehicle import Vehicle

ODOMETER_SOURCE = "Federal odometer disclosure: 49 CFR part 580; which vehicles are exempt stands in 49 CFR 580.17."
STATE_FORM = (
    "Many states have a form of their own, and some ask for a notary: the office of the state that issued the title "
    "says which. This "
    "draft is no legal advice."
)


def bill_of_sale(facts: Facts, vehicle: Vehicle) -> Paper:
    """Return the bill of sale of one vehicle."""
    price = price_of(vehicle)
    told = "" if price is None else f"{price:,} {vehicle.currency}"
    buyer = facts.buyer
    return Paper(
        code="bill-of-sale",
        title="Bill of sale",
        vehicle=vehicle.stock_number,
        boxes=(
            (
                layout_key.someone("Seller", facts.seller, "shipcalc.toml, [dealer] address"),
                layout_key.someone("Buyer", buyer, address_of("buyer", buyer.name)),
            ),
            (
                Field("Vehicle", described(vehicle) if vehicle.serial else "", stock_column("VIN", vehicle)),
                Field("Title: number and state", facts.reference("title"), setting(facts, "title")),
            ),
            (
                Field("Price", told, stock_column("Value", vehicle)),
                Field("Day of the sale", wording.day(facts.accepted_on) if facts.accepted_on else "", BY_HAND),
            ),
            (
                Field(
                    "Odometer, and whether it is the true distance",
                    facts.reference("odometer"),
                    setting(facts, "odometer"),
                ),
                Field("Reference", facts.number),
            ),
        ),
        sentences=(
            (
                "For the price named above the seller passes the vehicle to the buyer. The seller is its owner, may sell "
                "it, and knows of "
                "no claim of others on it but those written here:"
            ),
            "\n\n",
            "Sold as it stands, used, unless something else was agreed in writing.",
        ),
        cautions=(STATE_FORM,),
        signatures=("Seller: name, signature, day", "Buyer: name, signature, day"),
        after=ODOMETER_SOURCE,
    )


def power_of_attorney(facts: Facts) -> Paper:
    """Return the authorization for the forwarder to file the export."""
    return Paper(
        code="power-of-attorney",
        title="Authorization to file the export",
        boxes=(
            (
                layout_key.consignor(facts),
                Field("Forwarder (authorized agent)", facts.party("forwarder"), setting(facts, "forwarder")),
            ),
            (
                Field("Our tax number (EIN)", "", BY_HAND),
                Field("Holds for", f"{facts.number} alone, until the goods have left"),
            ),
        ),
        sentences=(
            (
                "We authorize the agent named above to act for us as true and lawful agent for the export of the vehicles "
                "of this "
                "reference: to prepare and transmit the Electronic Export Information and to sign the papers of export "
                "that go with it."
            ),
            (
                "We give the agent true and complete data, tell every change at once, and keep the records of this export "
                "for five years, "
                "as the agent does."
            ),
            "; ".join(f"{one.name}, {one.serial or 'serial number to be filled in'}" for one in facts.quote.vehicles)
            + ".",
        ),
        cautions=(
            "Only who may sign for the company signs. Read it with your forwarder or a lawyer before it is given away.",
        ),
        signatures=(layout_key.place_and_day(facts),),
        after="15 CFR 30.3(f): a power of attorney or written authorization; 15 CFR 30.10: records are kept for five years.",
    )


def lien_letter(facts: Facts, vehicle: Vehicle) -> Paper:
    """Return the letter that asks a lender to release its lien, or to let the vehicle leave."""
    abroad = facts.quote.to.country != facts.quote.from_.country
    wish = (
        "Please send us your release of the lien, or, if the loan is not paid off before, your letter that you let the "
        "vehicle leave "
        "the country. Customs wants it on your paper, dated, with the serial number and somebody who can be called."
        if abroad
        else "Please send us your release of the lien on your paper, dated, "
        "with the serial number and somebody who can be called; "
        "and the "
        "title, if you hold it."
    )
    return Paper(
        code="lien-letter",
        title="Release of a lien",
        vehicle=vehicle.stock_number,
        to=("To the lender (name and address to be filled in by hand)",),
        opening=("We have sold the vehicle below, on which you hold a lien. " + wish,),
        boxes=(
            (
                Field("Vehicle", described(vehicle) if vehicle.serial else "", stock_column("VIN", vehicle)),
                Field("Title: number and state", facts.reference("title"), setting(facts, "title")),
            ),
            (
                Field("Loan number", "", BY_HAND),
                Field("We need it by", wording.day(facts.option.dates.pickup[0])),
            ),
        ),
        sentences=(
            (
                "Please tell us the sum that pays the loan off, until which day it holds, and to which account it goes. We "
                "shall call you "
                "at the number of your public records before anything is paid."
            ),
        ),
        signatures=(layout_key.place_and_day(facts),),
        after="19 CFR 192.2(b): for a vehicle with a lien the lender’s letter is shown to customs." if abroad else "",
    )
