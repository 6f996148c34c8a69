"""The photograph of a vehicle for a paper: found beside the stock list, upright, small, without what a camera adds."""

from io import BytesIO
from pathlib import Path

from shipcalc.files import read_file
from shipcalc.vehicles.vehicle import Vehicle

PIXELS = (720, 480)  # twice what a screen shows at the size of a stamp on paper: some 250 dots an inch
QUALITY = 82
LARGEST_BYTES = 40_000_000


def photograph(vehicle: Vehicle, folder: Path | None) -> bytes | None:
    """Return the picture that the stock list names, as a JPEG; None where there is none that can be shown.

    It lies in the stock list's folder or below: a name that leads elsewhere finds nothing.
    """
    if not vehicle.photo or folder is None:
        return None
    try:
        file = (folder / vehicle.photo).resolve()
        if not file.is_relative_to(folder.resolve()):
            return None
        content = read_file(file, most=LARGEST_BYTES)
    except (OSError, ValueError, RuntimeError):  # a zero byte in the name, a link that leads to itself
        return None
    return _made_small(content) if content else None


def _made_small(content: bytes) -> bytes | None:
    """Return a picture as a small JPEG without place and hour; None where it is no picture."""
    from PIL import Image, ImageOps

    try:
        with Image.open(BytesIO(content)) as opened:
            upright = ImageOps.exif_transpose(opened).convert("RGB")
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError):
        return None
    upright.thumbnail(PIXELS)
    bare = Image.new("RGB", upright.size)
    bare.paste(upright)
    file = BytesIO()
    bare.save(file, "JPEG", quality=QUALITY)
    return file.getvalue()


def without_photograph(vehicle: Vehicle, folder: Path | None) -> str:
    """Return what to tell of a picture that is named and cannot be shown, "" where all is well."""
    if not vehicle.photo or photograph(vehicle, folder) is not None:
        return ""
    return f"{vehicle.stock_number}: no picture could be read from {vehicle.photo}, so the offer shows none"
