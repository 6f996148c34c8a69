"""A letter said again in the language of whoever reads it: part by part, sentence by sentence."""

from typing import TYPE_CHECKING

from shipcalc.documents.letter import SUBJECT, Letter, Part, Row
from shipcalc.records import replace

if TYPE_CHECKING:
    from shipcalc.languages.reader import Reader


def letter_said(letter: Letter, reader: "Reader") -> Letter:
    """Return a letter in a reader's language; who signs it, and how to reach them, stays as it is.

    Its subject and its last line name the quote.
    """
    farewell, *signed, quote = letter.signature
    return replace(
        letter,
        subject=SUBJECT.join(map(reader.say, letter.subject.rsplit(SUBJECT, 1))),
        greeting=reader.say(letter.greeting),
        parts=tuple(_part(part, reader) for part in letter.parts),
        signature=(reader.say(farewell), *signed, reader.say(quote)),
        language=reader.language,
    )


def _part(part: Part, reader: "Reader") -> Part:
    return replace(
        part,
        title=part.title and reader.say(part.title),
        sentences=tuple(map(reader.say, part.sentences)),
        points=tuple(map(reader.say, part.points)),
        header=tuple(map(reader.say, part.header)),
        rows=tuple(_row(row, reader) for row in part.rows),
        after=tuple(map(reader.say, part.after)),
    )


def _row(row: Row, reader: "Reader") -> Row:
    return replace(
        row,
        head=reader.say(row.head),
        figures=tuple(map(reader.say, row.figures)),
        line=reader.say(row.line),
    )
