"""The papers of a kept quote or shipment: which it asks for, filled in and written as PDF."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from shipcalc.errors import NoAnswer, WrongInput, asked
from shipcalc.records import dataclass

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from shipcalc.actions.kept_quotes import Desk
    from shipcalc.documents.papers.facts import Facts, Party
    from shipcalc.documents.papers.kinds import Kind
    from shipcalc.documents.papers.paper import Paper
    from shipcalc.register.quotes import Kept
    from shipcalc.register.shipments import Shipment
    from shipcalc.settings import Paper as Format


@dataclass(frozen=True, slots=True)
class Written:
    """A paper and the file it was written to."""

    paper: "Paper"
    file: Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Papers:
    """The papers of one quote: what was written, and which kinds it asks for that were not wanted this time."""

    number: str
    accepted: bool
    written: tuple[Written, ...]
    others: "tuple[Kind, ...]"


@dataclass(frozen=True, slots=True, kw_only=True)
class Drafted:
    """Papers filled in and not yet set in type: `drafts` by their kind, `others` as in Papers."""

    facts: "Facts"
    drafts: "tuple[tuple[Kind, tuple[Paper, ...]], ...]"
    others: "tuple[Kind, ...]"


def draft_papers(
    number: str, desk: "Desk", *, which: Sequence[str], size: "Format", choice: int | None = None
) -> Drafted:
    """Fill in the papers that a quote's own documents ask for, or those of them, or others, that `which` names.

    Before the yes there are few: `choice` (from 0) says of which choice. Raises WrongInput for a paper that there is none of,
    NoAnswer where a quote asks for none.
    """
    from shipcalc.documents.papers.kinds import asked_for

    facts = facts_of(number, desk, size=size, choice=choice)
    asked_kinds = asked_for(facts)
    wanted = _meant(which) if which else asked_kinds
    if not wanted:
        remedy = "accept the quote first, or name papers"
        raise NoAnswer(f"{facts.number} asks for no paper that can be filled in yet", remedy=remedy)
    return Drafted(
        facts=facts,
        drafts=tuple((kind, tuple(kind.papers(facts))) for kind in wanted),
        others=tuple(kind for kind in asked_kinds if kind not in wanted),
    )


def write_papers(
    number: str, desk: "Desk", *, out: Path, which: Sequence[str], size: "Format", choice: int | None = None
) -> Papers:
    """Write the papers that `draft_papers` fills in, each into a file of its own. Raises as it does."""
    from shipcalc.documents.papers.paper import paper_pdf
    from shipcalc.sheets.saving import save

    drafted = draft_papers(number, desk, which=which, size=size, choice=choice)
    facts, written = drafted.facts, []
    for paper in (paper for _, papers in drafted.drafts for paper in papers):
        file = out / f"{paper.name}.pdf"
        save(file, paper_pdf(paper, facts))
        written.append(Written(paper, file))
    accepted = facts.accepted_on is not None
    return Papers(number=facts.number, accepted=accepted, written=tuple(written), others=drafted.others)


def _meant(which: Sequence[str]) -> "tuple[Kind, ...]":
    from shipcalc.documents.papers.kinds import KINDS

    return tuple(_one_meant(text.strip().casefold().replace(" ", "-"), KINDS) for text in which)


def _one_meant(text: str, kinds: "Sequence[Kind]") -> "Kind":
    """Return the kind of paper that a word names: its code, begun will do."""
    found = [kind for kind in kinds if kind.code == text] or [kind for kind in kinds if kind.code.startswith(text)]
    if len(found) != 1 or not text:
        remedy = f"write one of {', '.join(kind.code for kind in kinds)}"
        raise WrongInput(f'"{text}" is not a paper', where=asked("only"), remedy=remedy)
    return found[0]


def facts_of(number: str, desk: "Desk", *, size: "Format", choice: int | None = None) -> "Facts":
    """Return what the papers of a quote are filled in from: a shipment's references, too, once it is accepted."""
    from shipcalc.actions.shipments import number_of
    from shipcalc.register.finding import find_one
    from shipcalc.register.quotes import find_kept
    from shipcalc.register.shipments import find_shipment
    from shipcalc.register.states import ACCEPTED

    meant = number_of(number, desk)
    with desk.register() as register, register.reading() as connection:
        kept = find_kept(connection, meant)
        if find_one(connection, meant, today=desk.today).state != ACCEPTED:
            return _of_quote(connection, kept, desk, size, choice)
        return _of_shipment(connection, find_shipment(connection, meant), desk, size)


def _of_quote(connection: "Connection", kept: "Kept", desk: "Desk", size: "Format", choice: int | None) -> "Facts":
    from shipcalc.documents.logo import read_logo
    from shipcalc.documents.papers.facts import Facts

    quote = kept.quote
    at = quote.recommended if choice is None else choice
    if not 0 <= at < len(quote.options):
        raise WrongInput(
            f"there is no choice {at + 1}", where=asked("choice"), remedy=f"write 1 to {len(quote.options)}"
        )
    return Facts(
        quote=quote,
        option=quote.options[at],
        day=desk.today,
        parties=_parties(connection, quote.buyer, {}),
        signatory=desk.settings.dealer.signatory,
        bank=desk.settings.bank.lines(),
        logo=read_logo(desk.settings.dealer.logo),
        size=size,
    )


def _of_shipment(connection: "Connection", shipment: "Shipment", desk: "Desk", size: "Format") -> "Facts":
    from shipcalc.documents.logo import read_logo
    from shipcalc.documents.papers.facts import Facts

    return Facts(
        quote=shipment.quote,
        option=shipment.option,
        day=desk.today,
        accepted_on=shipment.accepted_on,
        references=shipment.references,
        parties=_parties(connection, shipment.quote.buyer, shipment.references),
        signatory=desk.settings.dealer.signatory,
        bank=desk.settings.bank.lines(),
        logo=read_logo(desk.settings.dealer.logo),
        size=size,
    )


def _parties(connection: "Connection", buyer: str, references: Mapping[str, str]) -> "dict[str, Party]":
    """Return who is named for a shipment, as the address book has them."""
    from shipcalc.checklist.references import BY_NAME
    from shipcalc.documents.papers.facts import Party
    from shipcalc.register.contacts import find_contact, list_contacts

    named = {key: (BY_NAME[key].role, value) for key, value in references.items() if key in BY_NAME and value}
    wanted = {"buyer": ("buyer", buyer), **{key: one for key, one in named.items() if one[0] or key == "notify"}}
    parties = {}
    for key, (role, name) in wanted.items():
        found = find_contact(connection, role, name) if role else next(iter(list_contacts(connection, text=name)), None)
        if found is not None:
            parties[key] = Party(name=found.name, address=found.address, telephone=found.telephone, mail=found.mail)
        elif key != "buyer":
            parties[key] = Party(name=name)
    return parties
