"""The address book: carriers, forwarders, brokers, ports' agents, buyers, each typed once."""

from collections.abc import Mapping

from sqlalchemy import Connection, Row, delete, insert, select, update

from shipcalc.errors import NoAnswer, WrongInput
from shipcalc.records import dataclass
from shipcalc.register.tables import contacts
from shipcalc.register.words import words_in

ROLES = ("carrier", "forwarder", "customs broker", "port agent", "line", "insurer", "buyer", "other")
DETAILS = ("telephone", "evening", "mail", "address", "remark")


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """Somebody in the address book. `version` is one more with each change."""

    role: str
    name: str
    telephone: str = ""
    evening: str = ""
    mail: str = ""
    address: str = ""
    remark: str = ""
    version: int = 1


def key_of(role: str, name: str) -> str:
    """Return what a contact is told from others by: role and name, without capitals and accents."""
    return f"{role}|{' '.join(words_in(name))}"


def role_meant(text: str) -> str:
    """Return the role that somebody names, begun will do. Raises WrongInput for none or several."""
    found = [role for role in ROLES if role.startswith(text.strip().casefold())] if text.strip() else []
    if len(found) != 1:
        raise WrongInput(f'"{text}" is not a role', remedy=f"say {', '.join(ROLES)}")
    return found[0]


def add_contact(connection: Connection, contact: Contact) -> None:
    """Keep a contact. Raises NoAnswer where there is one of that name."""
    if find_contact(connection, contact.role, contact.name) is not None:
        remedy = f'shipcalc contacts change "{contact.name}" has other details kept'
        raise NoAnswer(f"{contact.name} ({contact.role}) is in the address book already", remedy=remedy)
    row = {field: getattr(contact, field) for field in ("role", "name", *DETAILS)}
    connection.execute(insert(contacts), {"key": key_of(contact.role, contact.name), "version": 1, **row})


def change_contact(connection: Connection, contact: Contact, details: Mapping[str, str]) -> Contact:
    """Keep other details of a contact as it was seen. Raises WrongInput where another desk changed it meanwhile."""
    at = (contacts.c.key == key_of(contact.role, contact.name), contacts.c.version == contact.version)
    done = connection.execute(update(contacts).where(*at).values(version=contact.version + 1, **details))
    if done.rowcount != 1:
        raise WrongInput(f"{contact.name} was changed at another desk meanwhile", remedy="look at it again")
    found = find_contact(connection, contact.role, contact.name)
    assert found is not None, "what was just changed is there"
    return found


def find_contact(connection: Connection, role: str, name: str) -> Contact | None:
    """Return the contact of a role whose name is this one, but for capitals and accents."""
    row = connection.execute(select(contacts).where(contacts.c.key == key_of(role, name))).first()
    return _contact(row) if row is not None else None


def list_contacts(connection: Connection, *, text: str = "", role: str = "") -> tuple[Contact, ...]:
    """Return the contacts, by name; with a text, those of whom all its words are told."""
    asked = select(contacts).order_by(contacts.c.role, contacts.c.key)
    if role:
        asked = asked.where(contacts.c.role == role)
    wanted = words_in(text)
    return tuple(one for one in map(_contact, connection.execute(asked)) if _has(one, wanted))


def _has(contact: Contact, wanted: tuple[str, ...]) -> bool:
    there = words_in(" ".join(getattr(contact, field) for field in ("role", "name", *DETAILS)))
    return all(any(word.startswith(one) for word in there) for one in wanted)


def offered(connection: Connection, role: str, name: str) -> tuple[Contact, ...]:
    """Return who of a role may be meant by a name: the one of that name, else all whose name has its words."""
    exact = find_contact(connection, role, name)
    if exact is not None:
        return (exact,)
    wanted = words_in(name)
    return tuple(
        one
        for one in list_contacts(connection, role=role)
        if wanted and all(any(word.startswith(part) for word in words_in(one.name)) for part in wanted)
    )


def forget_contact(connection: Connection, name: str) -> None:
    """Take a buyer out of the address book."""
    connection.execute(delete(contacts).where(contacts.c.key == key_of("buyer", name)))


def _contact(row: Row[tuple[object, ...]]) -> Contact:
    return Contact(**{field: getattr(row, field) for field in ("role", "name", *DETAILS, "version")})
