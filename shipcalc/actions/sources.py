"""Where the stock list, the rate book and the dealer's settings come from.

In this order: what was named on the command line; `shipcalc.toml`; `./demo` and `./rates`; the invented ones that come
with shipcalc. What was not named is said (`Sources.notes`), and an invented rate book is an assumption of the quote.
"""

from datetime import date
from pathlib import Path

from shipcalc.errors import WrongInput, asked
from shipcalc.records import dataclass, replace
from shipcalc.settings import FILE_NAME, Settings, find_settings, read_settings

STOCK_NAMES = ("stock.xlsx", "stock.csv")


@dataclass(frozen=True, slots=True)
class Found:
    """A file or folder, how it was come by, and whether it is the invented one inside shipcalc."""

    path: Path
    how: str = ""
    invented: bool = False


@dataclass(frozen=True, slots=True)
class Sources:
    """Where everything comes from. `stock` is None where there is no stock list to be found."""

    settings: Settings
    stock: Found | None
    rates: Found

    @property
    def notes(self) -> tuple[str, ...]:
        """Return what must be said about files that nobody named: `prices: the invented rate book inside shipcalc`."""
        named = (("stock list", self.stock), ("prices", self.rates))
        notes = [f"{what}: {found.how}" for what, found in named if found is not None and found.how]
        if not self.settings.dealer.name:
            notes.append(f"dealer: nobody yet; name yours under [dealer] in {FILE_NAME}")
        return tuple(notes)

    @property
    def photos(self) -> Path | None:
        """Return the folder in which the pictures are that the stock list names."""
        return None if self.stock is None else self.stock.path.parent

    def get_stock(self) -> Path:
        """Return the stock list's path. Raises WrongInput where there is none."""
        if self.stock is None:
            raise WrongInput(
                "no stock list was found", remedy=f"name one with {asked('stock')}, or set stock in {FILE_NAME}"
            )
        return self.stock.path


def find_sources(
    *, folder: Path, stock: Path | None = None, rates: Path | None = None, as_of: date | None = None
) -> Sources:
    """Return the sources for somebody who works in `folder`, with what was named on the command line, if anything.

    With `as_of`, the rate book is the edition that counts on that day: one that waits for its day lies in the book's folder.
    """
    settings = find_settings(folder)
    found_stock = _stock(folder, stock, settings)
    if settings.file is None and found_stock is not None:
        settings = _settings_beside(found_stock, named=stock is not None)
    return Sources(settings=settings, stock=found_stock, rates=_of_day(_rates(folder, rates, settings), as_of))


def own_rates(*, folder: Path, rates: Path | None = None) -> Path:
    """Return the folder of the dealer's own rate book: the one that quotes use; where that is the invented one, `rates` in
    the working folder, which they use as soon as there are workbooks in it."""
    found = find_sources(folder=folder, rates=rates).rates
    return folder / "rates" if found.invented else found.path


def get_own_rates(*, folder: Path, rates: Path | None = None) -> Path:
    """Return the folder of the rate book that is to be written into. Raises WrongInput where there is only the invented one."""
    found = find_sources(folder=folder, rates=rates).rates
    if found.invented:
        remedy = f"begin one with shipcalc rates new my-rates, and name it with {asked('into')}"
        raise WrongInput(
            "there is no rate book of your own here, and the invented one is not written into", remedy=remedy
        )
    return found.path


def invented_sources() -> Sources:
    """Return the invented dealer that comes with shipcalc: its stock list, its rate book, its settings."""
    stock = _stock_in(invented_folder("demo"))
    if stock is None:
        raise WrongInput("the invented dealer is missing", where="shipcalc", remedy="install shipcalc again")
    found = Found(stock, _INVENTED_STOCK, invented=True)
    settings = _settings_beside(found, named=False)
    return Sources(settings, found, Found(invented_folder("rates"), _INVENTED_RATES, invented=True))


def invented_folder(name: str) -> Path:
    """Return the folder `demo` or `rates` that comes with shipcalc: in the installed package, else in the checkout."""
    package = Path(__file__).parent.parent
    bundled = package / "bundled" / name
    return bundled if bundled.is_dir() else package.parent / name


def _stock(folder: Path, named: Path | None, settings: Settings) -> Found | None:
    if named is not None:
        return Found(named)
    if settings.stock is not None:
        return Found(settings.stock, f"{settings.stock.name}, as {FILE_NAME} says")
    here = _stock_in(folder / "demo")
    if here is not None:
        return Found(here, f"demo/{here.name} in this folder")
    invented = _stock_in(invented_folder("demo"))
    return Found(invented, _INVENTED_STOCK, invented=True) if invented is not None else None


def _rates(folder: Path, named: Path | None, settings: Settings) -> Found:
    if named is not None:
        return Found(named)
    if settings.rates is not None:
        return Found(settings.rates, f"{settings.rates.name}, as {FILE_NAME} says")
    here = folder / "rates"
    if _has_workbooks(here):
        return Found(here, "the folder rates in this folder")
    return Found(invented_folder("rates"), _INVENTED_RATES, invented=True)


def _of_day(rates: Found, day: date | None) -> Found:
    if day is None or not _is_file(rates.path / "kept" / "history.json"):
        return rates
    from shipcalc.ratebook.editions import folder_of_day

    return replace(rates, path=folder_of_day(rates.path, day))


def _stock_in(folder: Path) -> Path | None:
    return next((folder / name for name in STOCK_NAMES if _is_file(folder / name)), None)


def _has_workbooks(folder: Path) -> bool:
    try:
        return any(path.suffix.lower() == ".xlsx" for path in folder.iterdir())
    except OSError:  # there is no such folder, or it may not be looked into
        return False


def _is_file(path: Path) -> bool:
    """Return whether there is such a file; a folder that may not be looked into counts as having none."""
    try:
        return path.is_file()
    except OSError:
        return False


def _settings_beside(stock: Found, *, named: bool) -> Settings:
    """Return the settings that stand beside a demo's stock list: they name its dealer and its yards.

    A list that the user named brings no settings along: theirs are in the working folder. The files are known already.
    """
    beside = stock.path.parent / FILE_NAME
    if named or not _is_file(beside):
        return Settings()
    return replace(read_settings(beside), stock=None, rates=None, out=None)


_INVENTED_STOCK = "the invented dealer inside shipcalc"
_INVENTED_RATES = "the invented rate book inside shipcalc"
