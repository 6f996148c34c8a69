"""Who may sign in at a desk that others reach, and which sites may ask for prices: a file that only its owner reads.

Of a password its argon2id hash is kept, with the parameters of the file's day (RFC 9106, its second recommended option); of a
site's key, which is 256 random bits, a SHA-256. Neither can be read back.
"""

import hashlib
import json
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from shipcalc.desk.who import ROLES, Person, Role
from shipcalc.errors import WrongInput, asked, why
from shipcalc.files import read_file
from shipcalc.records import dataclass, replace
from shipcalc.settings import Settings
from shipcalc.sheets.saving import PRIVATE_MODE, whole

FILE_NAME = "people.json"
# NIST SP 800-63B-4, 3.1.1.2: a password that is the only factor has at least 15 characters, and at least 64 are taken.
LEAST_PASSWORD, MOST_PASSWORD = 15, 256
_MOST_NAME = 80


@dataclass(frozen=True, slots=True)
class Known:
    """Somebody who may sign in."""

    name: str
    role: Role
    password_hash: str


@dataclass(frozen=True, slots=True)
class Site:
    """A site whose pages may ask what delivery costs: where they come from (an origin), and the digest of its key."""

    name: str
    origin: str
    key_digest: str


@dataclass(frozen=True, slots=True)
class People:
    """All that the file holds."""

    persons: tuple[Known, ...] = ()
    sites: tuple[Site, ...] = ()

    def find(self, name: str) -> Known | None:
        """Return who has a name, without regard to case."""
        wanted = name.strip().casefold()
        return next((one for one in self.persons if one.name.casefold() == wanted), None)

    def site_of(self, key: str) -> Site | None:
        """Return the site whose key this is."""
        digest = _digest(key)
        return next((one for one in self.sites if secrets.compare_digest(one.key_digest, digest)), None)


def people_file(settings: Settings) -> Path:
    """Return where the file is: beside the settings, else in the user's configuration folder."""
    if settings.file is not None:
        return settings.file.parent / FILE_NAME
    import platformdirs

    return platformdirs.user_config_path("shipcalc", appauthor=False) / FILE_NAME


def read_people(file: Path) -> People:
    """Return who is known; nobody where there is no file. Raises WrongInput for a file that cannot be used."""
    try:
        told = json.loads(read_file(file))
        persons = tuple(_known(one) for one in told["persons"])
        sites = tuple(Site(str(one["name"]), str(one["origin"]), str(one["key_digest"])) for one in told["sites"])
    except FileNotFoundError:
        return People()
    except OSError as error:
        raise WrongInput(f"cannot be read ({why(error)})", where=str(file), remedy="check its permissions") from None
    except (ValueError, KeyError, TypeError, RecursionError):
        remedy = "put it back from a backup, or remove it and add the people anew"
        raise WrongInput("is no list of people", where=str(file), remedy=remedy) from None
    return People(persons, sites)


def add_person(file: Path, name: str, role: str, password: str) -> Person:
    """Let somebody sign in, or give them another role or password. Raises WrongInput for what cannot be taken."""
    told = _name(name)
    if role not in ROLES:
        raise WrongInput(f'"{role}" is no role', where=asked("role"), remedy=f"name one of {', '.join(ROLES)}")
    _check_password(password, told)
    with _changed(file) as people:
        others = tuple(one for one in people.value.persons if one.name.casefold() != told.casefold())
        people.value = replace(people.value, persons=(*others, Known(told, role, hashed(password))))
    return Person(told, role)


def remove_person(file: Path, name: str) -> str:
    """Let somebody sign in no more, and return the name. Raises WrongInput where nobody is called so."""
    with _changed(file) as people:
        found = people.value.find(name)
        if found is None:
            raise WrongInput(f'nobody is called "{name}"', remedy="shipcalc people list shows who may sign in")
        people.value = replace(
            people.value, persons=tuple(one for one in people.value.persons if one.name != found.name)
        )
    return found.name


def add_site(file: Path, name: str, origin: str) -> str:
    """Let the pages of a site ask for prices; return its key, which is shown this once. A site of that name gets a new key."""
    told, where = _name(name), _origin(origin)
    key = secrets.token_urlsafe(32)
    with _changed(file) as people:
        others = tuple(one for one in people.value.sites if one.name.casefold() != told.casefold())
        people.value = replace(people.value, sites=(*others, Site(told, where, _digest(key))))
    return key


def remove_site(file: Path, name: str) -> str:
    """Let a site ask no more, and return its name. Raises WrongInput where none is called so."""
    wanted = name.strip().casefold()
    with _changed(file) as people:
        found = next((one for one in people.value.sites if one.name.casefold() == wanted), None)
        if found is None:
            raise WrongInput(f'no site is called "{name}"', remedy="shipcalc people list shows them")
        people.value = replace(people.value, sites=tuple(one for one in people.value.sites if one is not found))
    return found.name


def hashed(password: str) -> str:
    """Return the argon2id hash of a password, with its parameters and salt."""
    from argon2 import PasswordHasher

    return PasswordHasher().hash(password)


def is_password(known: Known | None, password: str) -> bool:
    """Return whether it is theirs. For a name that nobody has it takes as long: nobody learns who may sign in."""
    from argon2 import PasswordHasher
    from argon2.exceptions import InvalidHashError, VerificationError

    try:
        right = PasswordHasher().verify(known.password_hash if known is not None else _nobodys_hash(), password)
    except (VerificationError, InvalidHashError):
        return False
    return bool(right) and known is not None


def _nobodys_hash() -> str:
    if not _NOBODYS:
        _NOBODYS.append(hashed(secrets.token_urlsafe(32)))
    return _NOBODYS[0]


_NOBODYS: list[str] = []


@dataclass(slots=True)
class _Held:
    value: People


@contextmanager
def _changed(file: Path) -> Iterator[_Held]:
    """Give what is known to be changed, and keep it in one step, for its owner's eyes only."""
    held = _Held(read_people(file))
    yield held
    as_data = {
        "persons": [_as_data(one, Known) for one in held.value.persons],
        "sites": [_as_data(one, Site) for one in held.value.sites],
    }
    with whole(file, mode=PRIVATE_MODE) as beside:
        beside.write_text(json.dumps(as_data, indent=2, ensure_ascii=False), "utf-8")


def _as_data(one: object, kind: Any) -> dict[str, str]:
    from shipcalc.records import fields

    return {field.name: getattr(one, field.name) for field in fields(kind)}


def _known(told: Any) -> Known:
    if told["role"] not in ROLES:
        raise ValueError
    return Known(str(told["name"]), told["role"], str(told["password_hash"]))


def _name(text: str) -> str:
    told = " ".join(text.split())
    if not told or len(told) > _MOST_NAME or not told.isprintable():
        raise WrongInput(f'"{told[:_MOST_NAME]}" is no name', remedy=f"write one of 1 to {_MOST_NAME} letters")
    return told


def _check_password(password: str, name: str) -> None:
    if len(password) < LEAST_PASSWORD:
        remedy = f"take at least {LEAST_PASSWORD}; three or four words that nobody would put together will do"
        raise WrongInput(f"the password has {len(password)} characters", remedy=remedy)
    if len(password) > MOST_PASSWORD:
        raise WrongInput("the password is too long", remedy=f"take at most {MOST_PASSWORD} characters")
    if name.casefold() in password.casefold() or len(set(password)) < 5:
        raise WrongInput("the password is easily guessed", remedy="take one without the name, of different characters")


def _origin(text: str) -> str:
    from urllib.parse import urlsplit

    try:
        told = urlsplit(text.strip())
        port = told.port
    except ValueError:
        told, port = urlsplit(""), None
    local = told.hostname in ("127.0.0.1", "localhost")
    if not told.hostname or told.scheme not in ("https", "http") or (told.scheme == "http" and not local):
        remedy = "write it as https://www.dealer.example"
        raise WrongInput(f'"{text}" is not where a site\'s pages come from', where=asked("origin"), remedy=remedy)
    return f"{told.scheme}://{told.hostname}" + (f":{port}" if port else "")


def _digest(key: str) -> str:
    return hashlib.sha256(key.encode()).hexdigest()
