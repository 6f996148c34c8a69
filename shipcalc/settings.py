"""What the dealer has set: name, yards, files, currency, paper (`shipcalc.toml`).

    stock = "stock.xlsx"            # a path is relative to the folder of this file
    rates = "rates"
    out = "quotes"                  # every quote leaves its files in a folder of its own under this one
    currency = "USD"
    paper = "letter"                # or "a4"
    register = "register.sqlite"    # where quotes are kept: a file, or the URL of a database, postgresql://desk@server/shipcalc
    files = "//server/papers"       # where copies of shipments' files go; needed where the register is on a server
    geocoder = "https://…"          # who looks street addresses up with --online; not set: OpenStreetMap's public server
    languages = "de, es"            # an offer goes out in one of them to a country that writes it; not set: always in English

    [dealer]
    name = "Heron & Vale Motors"    # also: phone, email, address, website, licence, signatory (who signs papers)
    logo = "logo.png"               # PNG, JPEG or SVG
    accent = "#1B4B52"              # the colour of names, titles and rules
    terms = "…"                     # what holds beside the terms of each offer: a text of some lines, or a list of them

    [bank]                          # where buyers pay to; stands on offers with a caution
    holder = "Heron & Vale Motors"  # also: bank, iban, account, bic, routing

    [yards]                         # the yard's name in the stock list → a place
    Bellingham = "Bellingham, WA"

The file in the working folder counts; where there is none, the one in the user's configuration folder.
"""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Literal

from shipcalc.bank_numbers import in_fours, is_bic, is_iban, is_routing_number, without_blanks
from shipcalc.contrast import LEAST, PALE, contrast, is_colour
from shipcalc.errors import WrongInput
from shipcalc.files import read_file
from shipcalc.records import dataclass, fields

FILE_NAME = "shipcalc.toml"
Paper = Literal["letter", "a4"]
PAPERS: tuple[Paper, ...] = ("letter", "a4")
LOGO_ENDINGS = (".png", ".jpg", ".jpeg", ".svg")


@dataclass(frozen=True, slots=True)
class DealerSettings:
    """Who makes the offer, as the papers show it."""

    name: str = ""
    phone: str = ""
    email: str = ""
    address: str = ""
    website: str = ""
    licence: str = ""
    signatory: str = ""
    logo: Path | None = None
    accent: str = ""
    terms: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BankSettings:
    """The account that buyers pay to; numbers without blanks, their check digits right."""

    holder: str = ""
    bank: str = ""
    iban: str = ""
    account: str = ""
    bic: str = ""
    routing: str = ""

    def lines(self) -> tuple[str, ...]:
        """Return what a paper says of it, a line each; nothing where no account is set."""
        if not (self.iban or self.account):
            return ()
        told = (
            ("", self.holder),
            ("", self.bank),
            ("IBAN ", in_fours(self.iban)),
            ("account ", self.account),
            ("BIC ", self.bic),
            ("routing number ", self.routing),
        )
        return tuple(f"{label}{value}" for label, value in told if value)


@dataclass(frozen=True, slots=True)
class Settings:
    """All that can be set. `file` is where it was read (None: nothing was set); `yards` is (name, place text) pairs."""

    file: Path | None = None
    dealer: DealerSettings = DealerSettings()
    bank: BankSettings = BankSettings()
    yards: tuple[tuple[str, str], ...] = ()
    stock: Path | None = None
    rates: Path | None = None
    out: Path | None = None
    currency: str = ""
    paper: Paper = "letter"
    geocoder: str = ""
    register: str = ""
    files: Path | None = None
    languages: tuple[str, ...] = ()

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
    return settings_of(_content(file), file)


def settings_of(content: bytes, file: Path) -> Settings:
    """Return what stands in the content of a settings file; raises as `read_settings` does."""
    table = _parsed(content, file)
    _check_keys(table, _KEYS, file, "")
    currency = _text(table, "currency", file)
    if currency and not (len(currency) == 3 and currency.isascii() and currency.isalpha()):
        raise _wrong(file, "currency", f'"{currency}" is not a currency code', 'write three letters, e.g. "USD"')
    return Settings(
        file=file,
        dealer=_dealer(_table(table, "dealer", file), file),
        bank=_bank(_table(table, "bank", file), file),
        yards=_yards(_table(table, "yards", file), file),
        stock=_path(table, "stock", file),
        rates=_path(table, "rates", file),
        out=_path(table, "out", file),
        currency=currency.upper(),
        paper=_paper(_text(table, "paper", file), file),
        geocoder=_text(table, "geocoder", file),
        register=_register(table, file),
        files=_path(table, "files", file),
        languages=tuple(_text(table, "languages", file).replace(",", " ").split()),
    )


def _is_there(file: Path) -> bool:
    """Return whether there is such a file; a folder that may not be looked into counts as having none."""
    try:
        return file.exists()
    except OSError:
        return False


def _content(file: Path) -> bytes:
    try:
        return read_file(file)
    except OSError as error:
        told = _lower(error.strerror or str(error))
        raise WrongInput(f"cannot be read ({told})", where=str(file), remedy="check its permissions") from None


def _parsed(content: bytes, file: Path) -> dict[str, Any]:
    import tomllib

    try:
        return tomllib.loads(content.decode("utf-8-sig"))
    except tomllib.TOMLDecodeError as error:
        remedy = 'put every text between double quotes, e.g. currency = "USD", and write / in paths'
        raise WrongInput(f"cannot be understood ({_lower(str(error))})", where=str(file), remedy=remedy) from None
    except RecursionError:
        remedy = "take the brackets out"
        raise WrongInput("cannot be understood (lists within lists)", where=str(file), remedy=remedy) from None
    except UnicodeDecodeError:
        raise WrongInput("is not text in UTF-8", where=str(file), remedy="save it again as UTF-8") from None


def _dealer(table: Mapping[str, Any], file: Path) -> DealerSettings:
    names = tuple(field.name for field in fields(DealerSettings))
    _check_keys(table, names, file, "dealer.")
    told = {name: _text(table, name, file, "dealer.") for name in names if name not in ("logo", "accent", "terms")}
    return DealerSettings(
        **told,
        logo=_logo(table, file),
        accent=_accent(_text(table, "accent", file, "dealer."), file),
        terms=_lines(table, "terms", file, "dealer."),
    )


def _logo(table: Mapping[str, Any], file: Path) -> Path | None:
    """Return where the logo is. What is in it is looked at when it is shown: not every command needs it."""
    path = _path(table, "logo", file, "dealer.")
    if path is not None and path.suffix.casefold() not in LOGO_ENDINGS:
        raise _wrong(file, "dealer.logo", f"{path.name} is no picture that papers can show", "give a PNG, JPEG or SVG")
    return path


def _accent(text: str, file: Path) -> str:
    colour = text.upper()
    if not colour:
        return ""
    if not is_colour(colour):
        raise _wrong(file, "dealer.accent", f'"{text}" is not a colour', 'write it as #RRGGBB, e.g. "#1B4B52"')
    found = contrast(colour, PALE)
    if found < LEAST:
        raise _wrong(
            file,
            "dealer.accent",
            f"{colour} is too pale to be read: its contrast with the papers' ground is {found:.1f} to 1",
            f"take a darker one, of {LEAST} to 1 or more (WCAG 2.1)",
        )
    return colour


def _bank(table: Mapping[str, Any], file: Path) -> BankSettings:
    names = tuple(field.name for field in fields(BankSettings))
    _check_keys(table, names, file, "bank.")
    told = {name: _text(table, name, file, "bank.") for name in names}
    for name, (is_right, what, remedy) in _BANK_CHECKS.items():
        typed, told[name] = told[name], without_blanks(told[name])
        if typed and not is_right(told[name]):
            raise _wrong(file, f"bank.{name}", f'"{typed}" {what}', remedy)
    return BankSettings(**told)


def _lines(table: Mapping[str, Any], key: str, file: Path, prefix: str) -> tuple[str, ...]:
    """Return a text line by line, or a list of texts; without empty ones."""
    value = table.get(key, "")
    if isinstance(value, str):
        value = value.splitlines()
    if not (isinstance(value, list) and all(isinstance(one, str) for one in value)):
        raise _wrong(
            file, prefix + key, f"{value!r} is not text", "write a text between double quotes, or a list of texts"
        )
    return tuple(line for one in value if (line := " ".join(one.split())))


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


def _path(table: Mapping[str, Any], key: str, file: Path, prefix: str = "") -> Path | None:
    text = _text(table, key, file, prefix)
    try:
        # An absolute or ~ path stands for itself: `folder / absolute` is the absolute one.
        return file.parent / Path(text).expanduser() if text else None
    except RuntimeError:  # ~somebody, of whom the system knows no home
        raise _wrong(file, prefix + key, f'"{text}" leads to no home folder', "write the whole path") from None


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
_KEYS = (
    "dealer",
    "yards",
    "stock",
    "rates",
    "out",
    "currency",
    "paper",
    "geocoder",
    "register",
    "files",
    "bank",
    "languages",
)
# Numbers whose form or check digits are looked at: what is right, what is told otherwise, the remedy.
_BANK_CHECKS: Mapping[str, tuple[Callable[[str], bool], str, str]] = {
    "iban": (is_iban, "is not an IBAN: its check digits do not fit", "copy it from the bank's own letter"),
    "bic": (is_bic, "is not a BIC", "write the bank's 8 or 11 letters and digits"),
    "routing": (
        is_routing_number,
        "is not a routing number: its check digit does not fit",
        "write the nine digits of a check",
    ),
}
