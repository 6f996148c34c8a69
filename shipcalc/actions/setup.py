"""The dealer's settings, set by answers: what was in the file stays, comments too, and nothing wrong is ever written."""

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from shipcalc.errors import WrongInput
from shipcalc.files import read_file
from shipcalc.records import dataclass
from shipcalc.settings import FILE_NAME, Settings, find_settings, settings_of

if TYPE_CHECKING:
    from tomlkit.container import Container


@dataclass(frozen=True, slots=True)
class Answer:
    """One thing that can be set: its option, where it stands in the file ("" above all sections), what is asked for.

    What is asked `once` is asked only where it is not set yet. `path`: the answer is a file or folder.
    """

    option: str
    section: str
    key: str
    question: str
    once: bool = False
    path: bool = False


ANSWERS = (
    Answer("name", "dealer", "name", "Name of the firm, as papers show it"),
    Answer("address", "dealer", "address", "Address, in one line"),
    Answer("phone", "dealer", "phone", "Telephone"),
    Answer("email", "dealer", "email", "Mail"),
    Answer("website", "dealer", "website", "Website"),
    Answer("licence", "dealer", "licence", "Licence, as it is to be named"),
    Answer("logo", "dealer", "logo", "Logo, a file (PNG, JPEG or SVG)", path=True),
    Answer("accent", "dealer", "accent", "Colour of names and titles, as #1B4B52"),
    Answer("signatory", "dealer", "signatory", "Who signs papers, and as what"),
    Answer("terms", "dealer", "terms", "Your own terms, beside those of each offer"),
    Answer("holder", "bank", "holder", "Bank account: whose it is"),
    Answer("bank", "bank", "bank", "Name of the bank"),
    Answer("iban", "bank", "iban", "IBAN"),
    Answer("account", "bank", "account", "Account number, where there is no IBAN"),
    Answer("bic", "bank", "bic", "BIC"),
    Answer("routing", "bank", "routing", "Routing number (United States)"),
    Answer("stock", "", "stock", "Stock list, a file", once=True, path=True),
    Answer("rates", "", "rates", "Rate book, a folder", once=True, path=True),
    Answer("currency", "", "currency", "Currency of your prices, as USD", once=True),
    Answer("paper", "", "paper", "Paper, letter or a4", once=True),
)


@dataclass(frozen=True, slots=True)
class Setup:
    """What stands in the settings file, or is going to: its text, and where."""

    file: Path
    text: str

    def shown(self, answer: Answer) -> str:
        """Return what is set, as it would be typed; "" where nothing is."""
        table = self._table()
        within = table.get(answer.section, {}) if answer.section else table
        value = within.get(answer.key, "")
        return "; ".join(value) if isinstance(value, list) else " ".join(str(value).split())

    def yards(self) -> tuple[str, ...]:
        """Return the names of the yards."""
        return tuple(self._table().get("yards", {}))

    def settings(self) -> Settings:
        """Return what it comes to. Raises WrongInput for what cannot be used."""
        return settings_of(self.text.encode(), self.file)

    def _table(self) -> Mapping[str, Any]:
        import tomllib

        return tomllib.loads(self.text)


def find_setup(folder: Path) -> Setup:
    """Return the settings that count in `folder`; none yet are begun there. Raises WrongInput where they are wrong already."""
    file = find_settings(folder).file or folder / FILE_NAME
    return Setup(file, read_file(file).decode("utf-8-sig") if file.exists() else "")


def with_answer(setup: Setup, answer: Answer, typed: str | list[str]) -> Setup:
    """Return the settings with one answer more; an empty one takes the setting away. Raises WrongInput for a wrong answer."""
    value = typed if isinstance(typed, list) else typed.strip()
    if answer.path and isinstance(value, str) and value:
        value = _from_file(setup, value)
    return _checked(_with_value(setup, answer.section, answer.key, value), answer)


def with_yard(setup: Setup, typed: str) -> Setup:
    """Return the settings with a yard more, typed as NAME=PLACE. Raises WrongInput for what is no yard or no known place."""
    from shipcalc.places.gazetteer.find import get_place

    name, equals, place = (part.strip() for part in typed.partition("="))
    if not (name and equals and place):
        raise WrongInput(f'"{typed}" is not a yard', remedy="write NAME=PLACE, e.g. Bellingham=98225")
    get_place(place)
    changed = _with_value(setup, "yards", name, place)
    changed.settings()
    return changed


def save_setup(setup: Setup) -> None:
    """Write the file: beside it first, then renamed; where the register's address in it may hold a password, for its owner alone.

    Raises WrongInput where it cannot be written, or would not be right.
    """
    from shipcalc.sheets.saving import PRIVATE_MODE, USUAL_MODE, save

    has_password = "@" in setup.settings().register
    save(setup.file, setup.text.encode(), mode=PRIVATE_MODE if has_password else USUAL_MODE)


def _with_value(setup: Setup, section: str, key: str, value: str | list[str]) -> Setup:
    """Return the settings with a value more, everything else as it was written; an empty value takes the key away."""
    import tomlkit
    from tomlkit.items import InlineTable, Table

    document = tomlkit.parse(setup.text if setup.text.endswith("\n") or not setup.text else f"{setup.text}\n")
    if section and section not in document:
        if not value:
            return setup
        document[section] = tomlkit.table()
    found = document[section] if section else document
    if isinstance(found, InlineTable) or (section and not isinstance(found, Table)):
        remedy = f"begin it with one line [{section}] and put its keys below"
        raise WrongInput(
            "is written in a way that only a person can change", where=f"{setup.file}, {section}", remedy=remedy
        )
    if value:
        _put(found.value if isinstance(found, Table) else document, key, value)
    else:
        (found if isinstance(found, Table) else document).pop(key, None)
    return Setup(setup.file, tomlkit.dumps(document))


def _put(within: "Container", key: str, value: str | list[str]) -> None:
    """Set a key; a new one goes above the blanks and comments at the end of its section, which belong to what follows."""
    from tomlkit.items import AbstractTable

    if key in within:
        within[key] = value
        return
    body, after = within.body, []
    while body and (body[-1][0] is None or isinstance(body[-1][1], AbstractTable)):
        after.append(body.pop())
    within[key] = value
    body.extend(reversed(after))


def _checked(setup: Setup, answer: Answer) -> Setup:
    settings = setup.settings()
    if answer.key == "logo":
        from shipcalc.documents.logo import read_logo

        read_logo(settings.dealer.logo)
    if answer.key in ("stock", "rates"):
        path: Path | None = getattr(settings, answer.key)
        if path is not None and not path.exists():
            raise WrongInput("is not there", where=str(path), remedy="name a file or folder that is there")
    return setup


def _from_file(setup: Setup, typed: str) -> str:
    """Return a path as the file says it: from its own folder, where it was typed from the folder one works in."""
    path = Path(typed).expanduser()
    if path.is_absolute() or setup.file.parent.resolve() == Path.cwd().resolve():
        return path.as_posix()
    return (Path.cwd() / path).as_posix()
