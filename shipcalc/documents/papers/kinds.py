"""Which papers there are, and which of them a shipment asks for: by the codes of its own documents, as the paperwork "
"rules name them."""

from collections.abc import Callable, Iterable

from shipcalc.documents.papers import invoices, ownership, road, shipping, yard
from shipcalc.documents.papers.facts import Facts
from shipcalc.documents.papers.paper import Paper
from shipcalc.records import dataclass
from shipcalc.vehicles.vehicle import Vehicle


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """One kind of paper: `documents` are the codes (sheet *Documents*) that ask for it; `make` or `make_each` fills it in.

    `beforehand`: it serves before the yes, and is made for a quote as well.
    """

    code: str
    title: str
    documents: tuple[str, ...]
    make: Callable[[Facts], Paper] | None = None
    make_each: Callable[[Facts, Vehicle], Paper] | None = None
    beforehand: bool = False

    def papers(self, facts: Facts) -> Iterable[Paper]:
        """Yield the paper, or one for each vehicle."""
        if self.make is not None:
            yield self.make(facts)
        if self.make_each is not None:
            for vehicle in facts.quote.vehicles:
                yield self.make_each(facts, vehicle)


KINDS = (
    Kind(
        code="pro-forma-invoice",
        title="Pro-forma invoice",
        documents=("commercial-invoice",),
        make=invoices.pro_forma_invoice,
        beforehand=True,
    ),
    Kind(
        code="commercial-invoice",
        title="Commercial invoice",
        documents=("commercial-invoice",),
        make=invoices.commercial_invoice,
    ),
    Kind(code="packing-list", title="Packing list", documents=("packing-list",), make=invoices.packing_list),
    Kind(
        code="shipper-instruction",
        title="Shipper’s letter of instruction",
        documents=("shipper-instruction",),
        make=shipping.shipper_instruction,
    ),
    Kind(
        code="transport-order", title="Order to the carrier", documents=("transport-order",), make=road.transport_order
    ),
    Kind(
        code="pickup-authorisation",
        title="Authority to fetch the vehicle",
        documents=("transport-order", "buyers-haulier", "collector"),
        make=road.pickup_authorisation,
    ),
    Kind(
        code="handover",
        title="Hand-over and condition",
        documents=("condition-report",),
        make_each=yard.handover,
    ),
    Kind(
        code="securing",
        title="Securing on the truck",
        documents=("transport-order",),
        make_each=yard.securing,
    ),
    Kind(code="dock-receipt", title="Dock receipt", documents=("dock-receipt",), make=shipping.dock_receipt),
    Kind(
        code="dangerous-goods",
        title="Statement of fuel and battery",
        documents=("dangerous-goods",),
        make_each=shipping.dangerous_goods,
    ),
    Kind(
        code="delivery-order-request",
        title="Request for the delivery order",
        documents=("delivery-order",),
        make=shipping.delivery_order_request,
    ),
    Kind(code="bill-of-sale", title="Bill of sale", documents=("bill-of-sale",), make_each=ownership.bill_of_sale),
    Kind(
        code="power-of-attorney",
        title="Authorization to file the export",
        documents=("power-of-attorney",),
        make=ownership.power_of_attorney,
    ),
    Kind(code="lien-letter", title="Release of a lien", documents=("lien-release",), make_each=ownership.lien_letter),
)
BY_CODE = {kind.code: kind for kind in KINDS}


def asked_for(facts: Facts) -> tuple[Kind, ...]:
    """Return the kinds of paper that the documents of the chosen option ask for."""
    codes = {document.code for document in facts.option.documents}
    return tuple(
        kind for kind in KINDS if codes & set(kind.documents) and (facts.accepted_on is not None or kind.beforehand)
    )
