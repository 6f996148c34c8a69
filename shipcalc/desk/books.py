"""The stock list and the rate book of a desk that stays open: read again as soon as one of their files is another."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from shipcalc.actions.quoting import Books, open_books
from shipcalc.actions.sources import Sources
from shipcalc.records import dataclass

SourcesOf = Callable[[date], Sources]
_Seen = tuple[tuple[str, int, int], ...]


@dataclass(slots=True)
class OpenBooks:
    """What quotes are made from. Asked by one thread at a time."""

    sources_of: SourcesOf
    _seen: _Seen | None = None
    _books: Books | None = None

    def at(self, day: date) -> tuple[Sources, Books]:
        """Return sources and books as they are now. Raises WrongInput where one cannot be used."""
        sources = self.sources_of(day)
        seen = _seen(sources)
        if self._books is None or seen != self._seen:
            self._books, self._seen = open_books(sources), seen
        return sources, self._books

    def marks(self, day: date) -> _Seen:
        """Return what tells whether one of the files was written."""
        return _seen(self.sources_of(day))


def _seen(sources: Sources) -> _Seen:
    """Return what tells that a file was written: its name, size and moment of change."""
    stock = [sources.stock.path] if sources.stock is not None else []
    workbooks = sorted(sources.rates.path.glob("*.xlsx")) if sources.rates.path.is_dir() else []
    return tuple(_mark(file) for file in (*stock, *workbooks))


def _mark(file: Path) -> tuple[str, int, int]:
    try:
        told = file.stat()
    except OSError:
        return str(file), 0, 0
    return str(file), told.st_mtime_ns, told.st_size
