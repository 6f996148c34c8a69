"""Which papers there are, and which of them a shipment asks for: by the codes of its own documents, as the paperwork rules name them."""

from collections.abc import Callable, Iterable

from shipcalc.documents.papers import invoices
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
)
BY_CODE = {kind.code: kind for kind in KINDS}


def asked_for(facts: Facts) -> tuple[Kind, ...]:
    """Return the kinds of paper that the documents of the chosen option ask for."""
    codes = {document.code for document in facts.option.documents}
    return tuple(
        kind for kind in KINDS if codes & set(kind.documents) and (facts.accepted_on is not None or kind.beforehand)
    )
