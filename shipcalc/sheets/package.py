"""The parts of a file that is a zip (.xlsx, .xlsm, .xlsb, .ods), taken out once: each held to its sum, none without end.

A zip of some megabytes can hold gigabytes, and may say of itself that it holds little: so what is read is only what it says
that it holds, and that only where it is no more than a workbook needs.
"""

import io
import zlib
from struct import error as StructError  # noqa: N812 - a class under a small name
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo

LARGEST_UNPACKED_BYTES = 300_000_000
MOST_PARTS = 10_000
_HOW = (ZIP_STORED, ZIP_DEFLATED)  # what a workbook's parts may be packed by (ECMA-376 part 2, annex B)
_ENCRYPTED = 0x1  # bit 0 of the general purpose flag (APPNOTE 4.4.4)
# What the standard library raises on the way through a zip that somebody or something has damaged.
_DAMAGE = (
    BadZipFile,
    zlib.error,
    StructError,
    NotImplementedError,
    RuntimeError,
    EOFError,
    OSError,
    ValueError,
    LookupError,
)

Package = dict[str, bytes]


class Damaged(Exception):
    """The zip is not as it was written."""


class Locked(Exception):
    """The parts are there, under a password."""


class TooLarge(Exception):
    """The zip holds more than any workbook needs."""


def unpacked(content: bytes) -> Package:
    """Return the parts of a zip by name; raises Damaged, Locked or TooLarge."""
    try:
        with ZipFile(io.BytesIO(content)) as archive:
            told = archive.infolist()
            if any(part.flag_bits & _ENCRYPTED for part in told):
                raise Locked
            if any(part.compress_type not in _HOW or not part.filename for part in told):
                raise Damaged
            if len(told) > MOST_PARTS or sum(part.file_size for part in told) > LARGEST_UNPACKED_BYTES:
                raise TooLarge
            return {part.filename: _content(archive, part) for part in told if not part.is_dir()}
    except _DAMAGE:
        raise Damaged from None


def _content(archive: ZipFile, part: ZipInfo) -> bytes:
    """Return a part, asking for no more than it says it has: `ZipFile.read` takes out all there is, and then throws it away."""
    with archive.open(part) as opened:
        return opened.read(part.file_size + 1)


def repacked(parts: Package) -> bytes:
    """Return the parts as a zip that holds just these, as they are: whoever reads it cannot find more in it."""
    file = io.BytesIO()
    with ZipFile(file, "w", ZIP_STORED) as archive:
        for name, part in parts.items():
            archive.writestr(ZipInfo(name), part)
    return file.getvalue()
