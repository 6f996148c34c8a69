"""The user's cache folder: what took long to work out is kept there by its content, and is safe to delete.

JSON, never a pickle from a place that others can write; whatever is amiss with a file (deleted, half of another version, no
rights) counts as not kept. Two programs that keep the same thing at once write the same bytes, each in one move.
"""

from contextlib import suppress
from pathlib import Path

from shipcalc.errors import WrongInput


def kept_in(name: str) -> Path:
    """Return the folder of one kind of things that are kept."""
    import platformdirs

    return Path(platformdirs.user_cache_path("shipcalc", appauthor=False)) / name


def keep_file(file: Path, content: bytes, *, most: int) -> None:
    """Keep a file and forget the oldest of its kind beyond `most`; where that is not possible, nothing happens."""
    from shipcalc.sheets.saving import save

    with suppress(WrongInput, OSError):
        save(file, content)
        kept = sorted(file.parent.glob("[!.]*"), key=lambda path: path.stat().st_mtime)
        for path in kept[:-most]:
            path.unlink(missing_ok=True)
