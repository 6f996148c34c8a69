"""The address book: contacts list, add, change."""

from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.at_register import desk_of, tell
from shipcalc.cli.look import Column, Look, paragraph, show_found, table
from shipcalc.cli.options import AsJson, argument, option
from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shipcalc.register.contacts import Contact

COLUMNS = (
    Column("Role"),
    Column("Name", wraps=True),
    Column("Telephone"),
    Column("Mail", wraps=True),
    Column("Address, remarks", wraps=True),
)

Telephone = Annotated[str, option("--telephone", "NO", "By day.")]
Evening = Annotated[str, option("--evening", "NO", "In the evening.")]
Mail = Annotated[str, option("--mail", "ADDRESS", "Where mails go.")]
Address = Annotated[str, option("--address", "TEXT", "Street and place.")]
Remark = Annotated[str, option("--remark", "TEXT", "Hours, whom to ask for.")]


def list_contacts(
    text: Annotated[list[str] | None, argument("[TEXT...]", "Words of name, place or remark, begun will do.")] = None,
    role: Annotated[
        str, option("--role", "ROLE", "Only carriers, forwarders, customs brokers, port agents, buyers …")
    ] = "",
    as_json: AsJson = False,
) -> None:
    """List the address book. The word list may be left out."""
    from shipcalc.actions.contacts import find

    show_found(find(" ".join(text or ()), desk_of(""), role=role), _json, _lines, as_json=as_json)


def add(
    role: Annotated[
        str, argument("ROLE", "carrier, forwarder, customs broker, port agent, line, insurer, buyer or other.")
    ],
    name: Annotated[str, argument("NAME", "Who it is.")],
    telephone: Telephone = "",
    evening: Evening = "",
    mail: Mail = "",
    address: Address = "",
    remark: Remark = "",
    as_json: AsJson = False,
) -> None:
    """Keep somebody; shipments set offers the name again, and the checklist prints telephone and mail."""
    from shipcalc.actions.contacts import add as keep

    told = _given(telephone, evening, mail, address, remark)
    _tell(keep(role, name, told, desk_of("")), as_json=as_json)


def change(
    name: Annotated[str, argument("NAME", "Who it is; begun will do.")],
    role: Annotated[str, option("--role", "ROLE", "The role, where two have one name.")] = "",
    telephone: Telephone = "",
    evening: Evening = "",
    mail: Mail = "",
    address: Address = "",
    remark: Remark = "",
    as_json: AsJson = False,
) -> None:
    """Keep other details of somebody; what is not named stays."""
    from shipcalc.actions.contacts import change as keep

    told = _given(telephone, evening, mail, address, remark)
    if not told:
        raise WrongInput("nothing is to be different", where="contacts change", remedy="give --telephone, --mail …")
    _tell(keep(name, told, desk_of(""), role=role), as_json=as_json)


def _given(telephone: str, evening: str, mail: str, address: str, remark: str) -> dict[str, str]:
    told = {"telephone": telephone, "evening": evening, "mail": mail, "address": address, "remark": remark}
    return {key: value for key, value in told.items() if value}


def _tell(contact: "Contact", *, as_json: bool) -> None:
    from shipcalc.records import asdict

    parts = [f"{contact.name} ({contact.role})", contact.telephone, contact.mail, contact.address]
    tell(asdict(contact), ", ".join(part for part in parts if part), as_json=as_json)


def _json(found: "Sequence[Contact]") -> str:
    """Return `{"contacts": […]}`, each with role, name, telephone, evening, mail, address, remark, version."""
    from shipcalc.cli.listing import to_json
    from shipcalc.records import asdict

    return to_json({"contacts": [asdict(one) for one in found]})


def _lines(found: "Sequence[Contact]", look: Look) -> list[str]:
    if not found and look.width is not None:
        return paragraph(look, "Nobody is in the address book who meets this. shipcalc contacts add keeps somebody.")
    rows = [
        (
            one.role,
            one.name,
            one.telephone + (f", evening {one.evening}" if one.evening else ""),
            one.mail,
            ", ".join(part for part in (one.address, one.remark) if part),
        )
        for one in found
    ]
    return table(look, COLUMNS, rows)


COMMANDS = (
    ("add", add, "Keep somebody.", 'shipcalc contacts add carrier "Tern Haulage" --telephone "+1 555 0142"'),
    ("list", list_contacts, "Who is in it.", "shipcalc contacts list tern"),
    ("change", change, "Other details.", "shipcalc contacts change tern --mail office@tern.example"),
)
