"""The address book: list, add, change."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput, asked

if TYPE_CHECKING:
    from shipcalc.actions.kept_quotes import Desk
    from shipcalc.register.contacts import Contact


def find(text: str, desk: "Desk", *, role: str = "") -> "tuple[Contact, ...]":
    """Return the contacts that have the words of a text."""
    from shipcalc.register.contacts import list_contacts, role_meant

    with desk.register() as register, register.reading() as connection:
        return list_contacts(connection, text=text, role=role_meant(role) if role else "")


def add(role: str, name: str, details: Mapping[str, str], desk: "Desk") -> "Contact":
    """Keep a contact. Raises NoAnswer where there is one of that role and name."""
    from shipcalc.checklist.references import one_line
    from shipcalc.register.contacts import Contact, add_contact, role_meant

    plain = one_line(name)
    if not plain:
        raise WrongInput("nobody is named", where="contacts add", remedy="give role and name")
    told = {key: one_line(value) for key, value in details.items()}
    contact = Contact(role=role_meant(role), name=plain, **told)  # type: ignore[arg-type]
    with desk.register() as register, register.writing("adding a contact") as connection:
        add_contact(connection, contact)
    return contact


def change(name: str, details: Mapping[str, str], desk: "Desk", *, role: str = "") -> "Contact":
    """Keep other details of a contact; what is not named stays. Raises WrongInput where none, or several, are meant."""
    from shipcalc.checklist.references import one_line
    from shipcalc.register.contacts import change_contact, list_contacts, role_meant

    with desk.register() as register, register.writing("changing a contact") as connection:
        found = list_contacts(connection, text=name, role=role_meant(role) if role else "")
        exact = [one for one in found if one.name.casefold() == name.strip().casefold()] or list(found)
        if len(exact) != 1:
            which = ", ".join(f"{one.name} ({one.role})" for one in exact[:4])
            told = f'"{name}" can be {which}' if exact else f'"{name}" is not in the address book'
            raise WrongInput(told, remedy=f"name one of those that shipcalc contacts list shows, with {asked('role')}")
        return change_contact(connection, exact[0], {key: one_line(value) for key, value in details.items()})
