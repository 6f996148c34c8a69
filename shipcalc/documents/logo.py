"""The dealer's logo for papers: small, in a form that a page and a workbook can both show, without what it does not need."""

from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree as ET

from shipcalc.errors import WrongInput, why
from shipcalc.files import read_file

PIXELS = (1200, 400)  # as wide and as high as it may be: some 400 dots an inch where it is shown
LARGEST_BYTES = 5_000_000
_REMEDY = "save it again as PNG, JPEG or SVG, below 5 MB"

Logo = bytes | str


def read_logo(file: Path | None) -> Logo | None:
    """Return a logo as the bytes of a PNG or the text of an SVG, None where none is set.

    Raises WrongInput for a file that cannot be read, is too large, or is no picture.
    """
    if file is None:
        return None
    try:
        content = read_file(file, most=LARGEST_BYTES)
    except OSError as error:
        raise WrongInput(f"cannot be read ({why(error)})", where=f"logo {file}", remedy="name the right file") from None
    if not content:
        raise WrongInput("is empty or larger than 5 MB", where=f"logo {file}", remedy=_REMEDY)
    made = _drawing(content) if file.suffix.casefold() == ".svg" else _pixels(content)
    if made is None:
        raise WrongInput("is not a picture that can be shown", where=f"logo {file}", remedy=_REMEDY)
    return made


def as_png(logo: Logo) -> bytes:
    """Return a logo as a PNG, for workbooks and mails, which show no drawing."""
    if isinstance(logo, bytes):
        return logo
    from shipcalc.typeset.typesetting import pixels

    return pixels(logo)


def size_within(png: bytes, *, width: float, height: float) -> tuple[float, float]:
    """Return how wide and high a picture is, as large as it can be within a space, in the unit of that."""
    from PIL import Image

    with Image.open(BytesIO(png)) as opened:
        wide, high = opened.size
    share = min(width / wide, height / high)
    return wide * share, high * share


def _drawing(content: bytes) -> str | None:
    """Return an SVG as text; None for one that is none, or that leads to something outside it or declares entities."""
    if b"<!ENTITY" in content:
        return None
    try:
        root = ET.fromstring(content)  # noqa: S314 # it declares no entities, so none can grow
        told = content.decode("utf-8-sig")
    except (ET.ParseError, UnicodeDecodeError):
        return None
    leads = (value for one in root.iter() for name, value in one.attrib.items() if name.rpartition("}")[2] == "href")
    inside = all(value.startswith(("#", "data:image/")) for value in leads)
    return told if inside and root.tag.rpartition("}")[2] == "svg" else None


def _pixels(content: bytes) -> bytes | None:
    """Return a picture as a PNG, upright and no larger than it need be; None where it is no picture."""
    from PIL import Image, ImageOps

    try:
        with Image.open(BytesIO(content), formats=("PNG", "JPEG")) as opened:
            upright = ImageOps.exif_transpose(opened).convert("RGBA")
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError):
        return None
    upright.thumbnail(PIXELS)
    bare = Image.new("RGBA", upright.size)
    bare.paste(upright)
    file = BytesIO()
    bare.save(file, "PNG")
    return file.getvalue()
