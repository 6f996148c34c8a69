"""A file that somebody named, read whole: only an ordinary one, and none without end.

A pipe or a device would hang the program, or never end; a name with a sign that no system allows is no file.
"""

import errno
import os
from pathlib import Path
from stat import S_ISDIR, S_ISREG

# What is larger is nothing that a dealer keeps, and would take minutes to read.
LARGEST_FILE_BYTES = 40_000_000
# Opening a pipe waits for somebody to write into it unless it is told not to; Windows has no such pipes and no such word.
_WITHOUT_WAITING = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0)


def read_file(path: Path, *, most: int = LARGEST_FILE_BYTES) -> bytes:
    """Return the bytes of an ordinary file of at most `most` bytes. Raises OSError where it is none, whatever the reason."""
    try:
        handle = os.open(path, os.O_RDONLY | _WITHOUT_WAITING)
    except ValueError:  # a zero byte in the name
        raise OSError(errno.EINVAL, "no file can have this name", str(path)) from None
    with os.fdopen(handle, "rb") as file:
        told = os.fstat(handle)
        if S_ISDIR(told.st_mode):
            raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(path))
        if not S_ISREG(told.st_mode):
            raise OSError(errno.EINVAL, "it is a pipe or a device, not a file", str(path))
        content = file.read(most + 1)
    if len(content) > most:
        raise OSError(errno.EFBIG, f"it is larger than {most // 1_000_000} MB", str(path))
    return content
