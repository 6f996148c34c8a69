"""What is mailed: one list of parts, and two renderers of it, as plain text and as HTML for mail programs and telephones.

In HTML every style stands in its element, for mail programs drop style sheets; nothing is fetched and nothing runs.
"""

from base64 import b64encode
from collections.abc import Iterator, Sequence
from html import escape

from shipcalc.one_line import one_line
from shipcalc.quote.model import Dealer
from shipcalc.records import dataclass

_INK, _GREY, _RULE, _TINT = "#1c2733", "#55606b", "#c9d1d8", "#eef3f6"
_FONT = "font-family:Georgia,'Times New Roman',serif;font-size:17px;line-height:1.5"
SUBJECT = " – "  # between what a letter is about and the quote
_CELL = f"padding:8px 6px;border-bottom:1px solid {_RULE};text-align:left;vertical-align:top"


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a table: what heads it, then its figures, the last of them a day; `line` is the same as a line of plain text."""

    head: str
    figures: tuple[str, ...]
    line: str
    best: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of a letter: whole sentences in one paragraph, points beneath them, a table, and what is said after it."""

    title: str = ""
    sentences: tuple[str, ...] = ()
    points: tuple[str, ...] = ()
    header: tuple[str, ...] = ()
    rows: tuple[Row, ...] = ()
    after: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Letter:
    """A whole letter: what it is about, whom it greets, its parts, who signs it; `sender` is the dealer's name."""

    subject: str
    greeting: str
    parts: tuple[Part, ...]
    signature: tuple[str, ...]
    language: str = "en"
    sender: str = ""


def greeting(name: str) -> str:
    """Return how somebody is greeted."""
    return f"Dear {one_line(name)}," if name.strip() else "Good day,"


def signed_by(dealer: Dealer, *more: str) -> tuple[str, ...]:
    """Return the sign-off: who writes, and how to reach them."""
    told = (dealer.signatory, dealer.name, dealer.phone, dealer.email, dealer.website, *more)
    return ("Kind regards,", *(line for line in map(one_line, told) if line))


def as_text(letter: Letter) -> str:
    """Return the letter as plain text, a line a paragraph: mail programs break them as wide as the reader's window."""
    blocks = [letter.greeting, *map(_part_as_text, letter.parts), "\n".join(letter.signature)]
    return "\n\n".join(block for block in blocks if block) + "\n"


def _part_as_text(part: Part) -> str:
    lines = [
        f"{part.title}:" if part.points or part.rows else "",  # a paragraph says by itself what it is about
        _paragraph(part.sentences),
        *(f"  - {one_line(point)}" for point in part.points),
        *(f"  {one_line(row.line)}" for row in part.rows),
        _paragraph(part.after),
    ]
    return "\n".join(line for line in lines if line)


def _paragraph(sentences: Sequence[str]) -> str:
    return " ".join(one_line(sentence) for sentence in sentences if sentence)


def as_html(letter: Letter, *, logo: bytes | str | None = None) -> str:
    """Return the letter as a page of HTML; everything in it is text, whatever anybody is called.

    `logo` stands above it: a PNG that is written into the page itself, or where a mail has it (`cid:…`).
    """
    if isinstance(logo, bytes):
        logo = f"data:image/png;base64,{b64encode(logo).decode()}"
    return "\n".join(_html(letter, logo)) + "\n"


def _html(letter: Letter, logo: str | None) -> Iterator[str]:
    yield f'<!DOCTYPE html>\n<html lang="{escape(letter.language)}">\n<head>\n<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{_told(letter.subject)}</title>\n</head>"
    yield f'<body style="margin:0;padding:16px;background:#ffffff;color:{_INK};{_FONT}">'
    yield '<div style="max-width:620px;margin:0 auto;overflow-wrap:anywhere">'
    if logo is not None:
        name = _told(letter.sender)
        size = 'height="44" style="height:44px;max-width:100%"'
        yield f'<p style="margin:0 0 20px"><img src="{escape(logo)}" alt="{name}" {size}></p>'
    yield f'<p style="margin:0 0 16px">{_told(letter.greeting)}</p>'
    for part in letter.parts:
        yield from _part_as_html(part)
    farewell, *lines = letter.signature
    name, *ways = lines or [""]
    yield f'<p style="margin:24px 0 0">{_told(farewell)}<br><strong>{_told(name)}</strong><br>'
    yield f'<span style="color:{_GREY};font-size:15px">{"<br>".join(map(_told, ways))}</span></p>'
    yield "</div>\n</body>\n</html>"


def _part_as_html(part: Part) -> Iterator[str]:
    if part.title:
        yield f'<h2 style="margin:24px 0 8px;font-size:18px;line-height:1.3">{_told(part.title)}</h2>'
    if part.sentences:
        yield f'<p style="margin:0 0 16px">{_told(_paragraph(part.sentences))}</p>'
    if part.points:
        points = "".join(f'<li style="margin:0 0 6px">{_told(point)}</li>' for point in part.points)
        yield f'<ul style="margin:0 0 16px;padding:0 0 0 22px">{points}</ul>'
    if part.rows:
        yield from _table(part)
    if part.after:
        yield f'<p style="margin:12px 0 16px">{_told(_paragraph(part.after))}</p>'


def _table(part: Part) -> Iterator[str]:
    """Yield a table that is read aloud rightly too: its columns and rows have heads, and it is called what its part is."""
    yield (
        f'<table aria-label="{_told(part.title)}" style="width:100%;border-collapse:collapse;margin:0 0 8px;font-size:15px;'
        'line-height:1.35">'
    )
    heads = (
        f'<th scope="col" style="{_CELL};color:{_GREY};font-weight:normal">{_told(one)}</th>' for one in part.header
    )
    yield f"<thead><tr>{''.join(heads)}</tr></thead>\n<tbody>"
    for row in part.rows:
        tint, weight = (f";background:{_TINT}", "bold") if row.best else ("", "normal")
        head = f'<th scope="row" style="{_CELL};font-weight:{weight}">{_told(row.head)}</th>'
        *first, last = (_told(figure) for figure in row.figures)
        figures = "".join(f'<td style="{_CELL}">{figure}</td>' for figure in first)
        figures += f'<td style="{_CELL};white-space:nowrap">{last}</td>'
        yield f'<tr style="{tint.lstrip(";")}">{head}{figures}</tr>'
    yield "</tbody></table>"


def _told(text: str) -> str:
    return escape(one_line(text))
