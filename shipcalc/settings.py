"""What the dealer has set: name, yards, files, currency, paper (`shipcalc.toml`).

    stock = "stock.xlsx"            # a path is relative to the folder of this file
    rates = "rates"
    out = "quotes"                  # every quote leaves its files in a folder of its own under this one
    currency = "USD"
    paper = "letter"                # or "a4"
    register = "register.sqlite"    # where quotes are kept: a file, or the URL of a database, postgresql://desk@server/shipcalc
    files = "//server/papers"       # where copies of shipments' files go; needed where the register is on a server
    geocoder = "https://…"          # who looks street addresses up with --online; not set: OpenStreetMap's public server

    [dealer]
    name = "Heron & Vale Motors"    # also: phone, email, address, website, licence

    [yards]                         # the yard's name in the stock list → a place
    Bellingham = "Bellingham, WA"

The file in the working folder counts; where there is none, the one in the user's configuration folder.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal

from shipcalc.errors import WrongInput
from shipcalc.records import dataclass, fields

FILE_NAME = "shipcalc.toml"
Paper = Literal["letter", "a4"]
PAPERS: tuple[Paper, ...] = ("letter", "a4")


@dataclass(frozen=True, slots=True)
class DealerSettings:
    """Who makes the offer, as the papers show it."""

    name: str = ""
    phone: str = ""
    email: str = ""
    address: str = ""
    website: str = ""
    licence: str = ""


@dataclass(frozen=True, slots=True)
class Settings:
    """All that can be set. `file` is where it was read (None: nothing was set); `yards` is (name, place text) pairs."""

    file: Path | None = None
    dealer: DealerSettings = DealerSettings()
    yards: tuple[tuple[str, str], ...] = ()
    stock: Path | None = None
    rates: Path | None = None
    out: Path | None = None
    currency: str = ""
    paper: Paper = "letter"
    geocoder: str = ""
    register: str = ""
    files: Path | None = None

    def find_yard(self, name: str) -> str | None:
        """Return the place text of a yard, without regard to case, or None."""
        wanted = name.strip().casefold()
        return next((place for yard, place in self.yards if yard.casefold() == wanted), None)


def find_settings(folder: Path, *, user_folder: Path | None = None) -> Settings:
    """Return the settings of `folder`, else of the user's configuration folder, else the defaults.

    `user_folder` is the system's own place for shipcalc's configuration unless given. Raises WrongInput for a file that
    cannot be used as it is.
    """
    in_folder = folder / FILE_NAME
    if _is_there(in_folder):
        return read_settings(in_folder)
    if user_folder is None:
        import platformdirs

        user_folder = platformdirs.user_config_path("shipcalc", appauthor=False)
    of_user = user_folder / FILE_NAME
    return read_settings(of_user) if _is_there(of_user) else Settings()


def read_settings(file: Path) -> Settings:
    """Read one settings file. Raises WrongInput that names the file, the key and the remedy."""
    table = _parsed(file)
    _check_keys(table, _KEYS, file, "")
    currency = _text(table, "currency", file)
    if currency and not (len(currency) == 3 and currency.isascii() and currency.isalpha()):
        raise _wrong(file, "currency", f'"{currency}" is not a currency code', 'write three letters, e.g. "USD"')
    return Settings(
        file=file,
        dealer=_dealer(_table(table, "dealer", file), file),
        yards=_yards(_table(table, "yards", file), file),
        stock=_path(table, "stock", file),
        rates=_path(table, "rates", file),
        out=_path(table, "out", file),
        currency=currency.upper(),
        paper=_paper(_text(table, "paper", file), file),
        geocoder=_text(table, "geocoder", file),
        register=_register(table, file),
        files=_path(table, "files", file),
    )


def _is_there(file: Path) -> bool:
    """Return whether there is such a file; a folder that may not be looked into counts as having none."""
    try:
        return file.exists()
    except OSError:
        return False


def _parsed(file: Path) -> dict[str, Any]:
    import tomllib

    try:
        return tomllib.loads(file.read_bytes().decode("utf-8-sig"))
    except tomllib.TOMLDecodeError as error:
        remedy = 'put every text between double quotes, e.g. currency = "USD", and write / in paths'
        raise WrongInput(f"cannot be understood ({_lower(str(error))})", where=str(file), remedy=remedy) from None
    except UnicodeDecodeError:
        raise WrongInput("is not text in UTF-8", where=str(file), remedy="save it again as UTF-8") from None
    except OSError as error:
        why = _lower(error.strerror or str(error))
        raise WrongInput(f"cannot be read ({why})", where=str(file), remedy="check its permissions") from None


def _dealer(table: Mapping[str, Any], file: Path) -> DealerSettings:
    names = tuple(field.name for field in fields(DealerSettings))
    _check_keys(table, names, file, "dealer.")
    return DealerSettings(**{name: _text(table, name, file, "dealer.") for name in names})


def _yards(table: Mapping[str, Any], file: Path) -> tuple[tuple[str, str], ...]:
    for name in table:
        if name in _KEYS:
            raise _wrong(file, f"yards.{name}", "is a setting and not a yard", _MOVE_UP)
        if not _text(table, name, file, "yards."):
            raise _wrong(file, f"yards.{name}", "has no place", f'write {name} = "City, ST" or a ZIP between quotes')
    return tuple((name.strip(), place.strip()) for name, place in table.items())


def _paper(text: str, file: Path) -> Paper:
    wanted = text.casefold() or "letter"
    for paper in PAPERS:
        if paper == wanted:
            return paper
    raise _wrong(file, "paper", f'"{text}" is not a paper size shipcalc knows', 'write "letter" or "a4"')


def _path(table: Mapping[str, Any], key: str, file: Path) -> Path | None:
    text = _text(table, key, file)
    try:
        # An absolute or ~ path stands for itself: `folder / absolute` is the absolute one.
        return file.parent / Path(text).expanduser() if text else None
    except RuntimeError:  # ~somebody, of whom the system knows no home
        raise _wrong(file, key, f'"{text}" leads to no home folder', "write the whole path") from None


def _register(table: Mapping[str, Any], file: Path) -> str:
    """Return where quotes are kept: an URL as it stands, a path as one from this file's folder."""
    text = _text(table, "register", file)
    return text if "://" in text else str(_path(table, "register", file) or "")


def _text(table: Mapping[str, Any], key: str, file: Path, prefix: str = "") -> str:
    value = table.get(key, "")
    if not isinstance(value, str):
        raise _wrong(file, prefix + key, f"{value!r} is not text", "put the value between double quotes")
    return value.strip()


def _table(table: Mapping[str, Any], key: str, file: Path) -> Mapping[str, Any]:
    value = table.get(key, {})
    if not isinstance(value, dict):
        raise _wrong(file, key, "is a single value", f"begin a section with a line [{key}] and put its keys below")
    return value


def _check_keys(table: Mapping[str, Any], known: tuple[str, ...], file: Path, prefix: str) -> None:
    """Every key is a known one, or what the dealer set would silently not count."""
    for key in table:
        if key not in known:
            raise _wrong(file, prefix + key, "is not a setting", _nearest(key, known))


def _nearest(key: str, known: tuple[str, ...]) -> str:
    import difflib

    if key in _KEYS:
        return _MOVE_UP
    near = difflib.get_close_matches(key.casefold(), known, n=1, cutoff=0.6)
    return f"did you mean {near[0]}?" if near else "the settings are " + ", ".join(known)


def _wrong(file: Path, key: str, what: str, remedy: str) -> WrongInput:
    return WrongInput(what, where=f"{file}, {key}", remedy=remedy)


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


_MOVE_UP = "move it above the first line in square brackets"
_KEYS = ("dealer", "yards", "stock", "rates", "out", "currency", "paper", "geocoder", "register", "files")
