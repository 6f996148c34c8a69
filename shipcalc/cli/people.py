"""Who may sign in at the desk: people list, add, remove, site, no-site."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from shipcalc.cli.at_register import tell
from shipcalc.cli.look import Column, Look, paragraph, show_found, table
from shipcalc.cli.options import AsJson, argument, option
from shipcalc.errors import WrongInput

if TYPE_CHECKING:
    from shipcalc.desk.people import People

COLUMNS = (Column("Name", wraps=True), Column("What it is"), Column("Comes from", wraps=True))


def list_people(as_json: AsJson = False) -> None:
    """List who may sign in at the desk, and which sites may ask what delivery costs."""
    from shipcalc.desk.people import read_people

    show_found(read_people(_file()), _json, _lines, as_json=as_json)


def add(
    name: Annotated[str, argument("NAME", "Who it is.")],
    role: Annotated[
        str, option("--role", "ROLE", "sales: quotes. office: shipments too. manager: rates too. Default: sales.")
    ] = "sales",
    as_json: AsJson = False,
) -> None:
    """Let somebody sign in, or change their role or password. The password is asked; in a pipe it is the first line."""
    from shipcalc.desk.people import add_person

    person = add_person(_file(), name, role, _password(name))
    told = f"{person.name} may sign in, with the role {person.role}."
    tell({"name": person.name, "role": person.role}, told, as_json=as_json)


def remove(
    name: Annotated[str, argument("NAME", "Who it is.")],
    as_json: AsJson = False,
) -> None:
    """Let somebody sign in no more; who is signed in is out at once."""
    from shipcalc.desk.people import remove_person

    gone = remove_person(_file(), name)
    tell({"name": gone}, f"{gone} may sign in no more.", as_json=as_json)


def site(
    name: Annotated[str, argument("NAME", "A name for it: our web site.")],
    origin: Annotated[str, option("--origin", "ADDRESS", "Where its pages come from: https://www.dealer.example")],
    as_json: AsJson = False,
) -> None:
    """Let the pages of a site ask what delivery costs (shipcalc desk --public). Its key is shown this once."""
    from shipcalc.desk.people import add_site

    key = add_site(_file(), name, origin)
    tell({"name": name, "origin": origin, "key": key}, f"The key of {name}, shown this once: {key}", as_json=as_json)


def no_site(
    name: Annotated[str, argument("NAME", "Its name.")],
    as_json: AsJson = False,
) -> None:
    """Let a site ask no more."""
    from shipcalc.desk.people import remove_site

    gone = remove_site(_file(), name)
    tell({"name": gone}, f"{gone} may ask no more.", as_json=as_json)


def _file() -> Path:
    from shipcalc.desk.people import people_file
    from shipcalc.settings import find_settings

    return people_file(find_settings(Path.cwd()))


def _password(name: str) -> str:
    if not sys.stdin.isatty():
        return sys.stdin.readline().rstrip("\n")
    import getpass

    first = getpass.getpass(f"Password for {name}: ")
    if getpass.getpass("Once more: ") != first:
        raise WrongInput("the two are not the same", remedy="try again")
    return first


def _json(people: "People") -> str:
    from shipcalc.cli.listing import to_json

    return to_json(
        {
            "people": [{"name": one.name, "role": one.role} for one in people.persons],
            "sites": [{"name": one.name, "origin": one.origin} for one in people.sites],
        }
    )


def _lines(people: "People", look: Look) -> list[str]:
    rows = [(one.name, one.role, "") for one in people.persons] + [
        (one.name, "site", one.origin) for one in people.sites
    ]
    if not rows:
        told = "Nobody may sign in yet: shipcalc people add NAME. A desk on this machine alone needs nobody."
        return paragraph(look, told)
    return table(look, COLUMNS, rows)


COMMANDS = (
    ("list", list_people, "Who may sign in at the desk.", "shipcalc people list"),
    ("add", add, "Let somebody sign in.", 'shipcalc people add "Ida Quarles" --role office'),
    ("remove", remove, "Let somebody sign in no more.", 'shipcalc people remove "Ida Quarles"'),
    (
        "site",
        site,
        "Let a site's pages ask for prices.",
        'shipcalc people site "our site" --origin https://www.dealer.example',
    ),
    ("no-site", no_site, "Let a site ask no more.", 'shipcalc people no-site "our site"'),
)
