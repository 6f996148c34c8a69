"""The one door to typst: a template and its data → the bytes of a PDF.

Templates are `.typ` files anywhere in the package, named from its root (`documents/buyer/quote.typ`); they begin with
`#import "/typeset/house.typ": *`, which has the look of all papers and `data`. What people typed only ever comes as data, so
it is never read as markup. Only the shipped fonts count, those of the system never: the same bytes everywhere.
"""

from collections.abc import Mapping, Sequence
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any

from shipcalc.settings import Paper
from shipcalc.typeset.characters import FONTS, printable

if TYPE_CHECKING:
    from typst import Compiler, PDFStandard

ROOT = Path(__file__).parents[1]
STANDARDS: "list[PDFStandard]" = ["ua-1", "a-2a"]
# The compiler may not be asked by two threads at once; it uses all cores for one paper by itself.
_ONE_AT_A_TIME = Lock()
_SIZES: Mapping[Paper, str] = {"letter": "us-letter", "a4": "a4"}


def typeset(template: str, data: Mapping[str, Any], *, paper: Paper, language: str, day: date) -> bytes:
    """Return a paper as a tagged PDF (PDF/UA-1, PDF/A-2a) of `language` (BCP 47: "en", "pt-BR"), made on `day`.

    `data` holds what JSON holds, and pictures: an SVG as text or a PNG or JPEG as bytes, which a template shows by
    `picture(…)`. The same arguments give the same bytes. A template that cannot be set is a programmer's mistake.
    """
    import msgspec

    told = {
        "data": msgspec.json.encode(_plain(data)).decode(),
        "paper": _SIZES[paper],
        "language": language,
        "day": day.isoformat(),
    }
    made = datetime(day.year, day.month, day.day, tzinfo=UTC)
    import typst

    try:
        with _ONE_AT_A_TIME:
            pdf = _compiler().compile(
                input=str(ROOT / template), format="pdf", sys_inputs=told, pdf_standards=STANDARDS, timestamp=made
            )
    except typst.TypstError as error:
        raise AssertionError(error.diagnostic) from None
    assert isinstance(pdf, bytes), "a PDF is one file"
    return pdf


def pixels(svg: str) -> bytes:
    """Return a drawing as a PNG, for what shows no SVG: 160 pixels high, clear where it is empty."""
    import msgspec
    import typst

    told = {"data": msgspec.json.encode({"svg": svg}).decode()}
    try:
        with _ONE_AT_A_TIME:
            png = _compiler().compile(input=str(ROOT / "typeset/picture.typ"), format="png", sys_inputs=told, ppi=288)
    except typst.TypstError as error:
        raise AssertionError(error.diagnostic) from None
    assert isinstance(png, bytes), "one page is one picture"
    return png


@cache
def _compiler() -> "Compiler":
    """Return the compiler, which keeps its fonts and what it has read of the templates from one paper to the next."""
    import typst

    fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=True, font_paths=[FONTS])
    return typst.Compiler(root=ROOT, font_paths=fonts, ignore_system_fonts=True)


def _plain(value: Any) -> Any:
    """Return data as JSON has it: every text printable, the bytes of a picture as numbers."""
    if isinstance(value, str):
        return printable(value)
    if isinstance(value, bytes):
        return list(value)
    if isinstance(value, Mapping):
        return {name: _plain(one) for name, one in value.items()}
    if isinstance(value, Sequence):
        return [_plain(one) for one in value]
    return value
