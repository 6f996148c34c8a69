"""What is large is kept small: text and workbooks as bytes under zlib."""

import io
import zipfile
import zlib
from collections.abc import Mapping
from pathlib import Path

# A quote overseas, 386 KB: 2 ms of processor to 98 KB, where level 6 takes 7 ms to 77 KB.
LEVEL = 1
# A zip remembers when each file was last changed: the same files are to give the same bytes.
_NO_DAY = (1980, 1, 1, 0, 0, 0)


def packed(text: str) -> bytes:
    """Return a text as it is kept."""
    return zlib.compress(text.encode(), LEVEL)


def unpacked(kept: bytes) -> str:
    """Return the text that `packed` was given."""
    return zlib.decompress(kept).decode()


def bundled(files: Mapping[str, bytes]) -> bytes:
    """Return files by name as one bundle: the same files give the same bytes."""
    bundle = io.BytesIO()
    with zipfile.ZipFile(bundle, "w", zipfile.ZIP_DEFLATED) as archive:
        for name in sorted(files):
            archive.writestr(zipfile.ZipInfo(name, _NO_DAY), files[name], zipfile.ZIP_DEFLATED)
    return bundle.getvalue()


def unbundle(kept: bytes, folder: Path) -> None:
    """Write the files of a bundle into a folder."""
    with zipfile.ZipFile(io.BytesIO(kept)) as archive:
        for name in archive.namelist():
            (folder / Path(name).name).write_bytes(archive.read(name))
