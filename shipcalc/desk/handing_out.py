"""Files that the desk makes and hands out: written into a folder of their own, read, and gone."""

import tempfile
import zipfile
from collections.abc import Callable, Sequence
from io import BytesIO
from pathlib import Path

from fastapi import Response

from shipcalc.desk.clerk import Clerk
from shipcalc.desk.uploads import safe_name
from shipcalc.errors import WrongInput, why
from shipcalc.files import read_file

WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
CALENDAR, PDF, ZIP = "text/calendar", "application/pdf", "application/zip"
# What a browser may take a kept file for; anything else is bytes.
_KEPT = {".pdf": PDF, ".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".png": "image/png", ".webp": "image/webp"}


async def handed_out(clerk: Clerk, name: str, media_type: str, write: Callable[[Path], object]) -> Response:
    """Return the file that `write` makes, for the browser to keep under a name."""

    def made() -> bytes:
        with tempfile.TemporaryDirectory(prefix="shipcalc-") as folder:
            file = Path(folder) / name
            write(file)
            return file.read_bytes()

    return as_file(name, media_type, await clerk.do(made))


def as_file(name: str, media_type: str, content: bytes) -> Response:
    """Return a file for the browser to keep. The name is one of ours, plain letters."""
    return Response(content, media_type=media_type, headers={"Content-Disposition": f'attachment; filename="{name}"'})


def kept_file(path: Path) -> tuple[str, str, bytes]:
    """Return a kept file's name, media type and content. Raises WrongInput where it cannot be read."""
    try:
        content = read_file(path)
    except OSError as error:
        raise WrongInput(f"cannot be read ({why(error)})", where=path.name, remedy="send it again") from None
    name = safe_name(path.name).encode("ascii", "replace").decode().replace("?", "_")
    return name, _KEPT.get(path.suffix.casefold(), "application/octet-stream"), content


def zipped(files: Sequence[Path]) -> bytes:
    """Return files as one archive."""
    told = BytesIO()
    with zipfile.ZipFile(told, "w", zipfile.ZIP_DEFLATED) as archive:
        for file in files:
            archive.write(file, file.name)
    return told.getvalue()
