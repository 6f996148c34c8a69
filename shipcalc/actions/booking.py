"""The mail that books a shipment's truck, drafted from what is known of it."""

from typing import TYPE_CHECKING

from shipcalc.errors import NoAnswer
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from shipcalc.actions.kept_quotes import Desk
    from shipcalc.documents.letter import Letter
    from shipcalc.documents.papers.booking_mail import Wanting


@dataclass(frozen=True, slots=True, kw_only=True)
class Booking:
    """A drafted mail to the carrier, whom it is for (a mail address, "" where the contacts have none), what is missing in it.

    `mail` is it ready to open in a mail program (RFC 5322).
    """

    number: str
    letter: "Letter"
    mail: bytes
    to: str
    missing: "tuple[Wanting, ...]"


def draft_booking(number: str, desk: "Desk") -> Booking:
    """Return the mail to the carrier that fetches a shipment's vehicles. Raises NoAnswer where no truck is to come."""
    from shipcalc.actions.papers import facts_of
    from shipcalc.actions.shipments import number_of
    from shipcalc.documents.buyer.mail import mail_bytes
    from shipcalc.documents.papers.booking_mail import booking_letter, wanting
    from shipcalc.register.shipments import find_shipment

    meant = number_of(number, desk)
    with desk.register() as register, register.reading() as connection:
        shipment = find_shipment(connection, meant)
    if "pickup" in shipment.recorded:
        raise NoAnswer(
            f"{meant} was picked up on {shipment.recorded['pickup'].isoformat()}",
            remedy="no truck is to be booked any more",
        )
    facts = facts_of(meant, desk, size=desk.settings.paper)
    if facts.first_truck is None:
        raise NoAnswer(f"no truck is booked for {meant}: the buyer fetches it", remedy="nothing is to be sent")
    carrier = facts.parties.get("carrier")
    letter, to = booking_letter(facts, shipment.moments), carrier.mail if carrier else ""
    return Booking(
        number=meant,
        letter=letter,
        mail=mail_bytes(letter, facts.quote.dealer, desk.today, to=to),
        to=to,
        missing=wanting(facts),
    )
