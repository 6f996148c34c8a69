"""Answers that were given to a sender's mail, kept in the user's data folder by its shape: its next one needs no question.

The shape is its letter head without figures and months, and the headers of its tables: next month's mail has it too.
"""

import hashlib
import re
from collections.abc import Sequence
from pathlib import Path

from shipcalc.ratebook.taking.answers import Answers, as_toml, read_answers
from shipcalc.ratebook.taking.days import MONTHS
from shipcalc.records import replace
from shipcalc.sheets.saving import save

# What the next mail of the same shape says anew.
OF_ONE_MAIL = frozenset(("issued",))
_WORD = re.compile(r"[^\W\d_]{3,}")


def shape_of(head: Sequence[str], headers: Sequence[str], carrier: str) -> str:
    """Return what two mails of one sender have in common, as a name for a file."""
    words = [word for text in head for word in _WORD.findall(text.casefold()) if word not in MONTHS]
    told = "\n".join((carrier.casefold(), " ".join(words), *(header.casefold() for header in headers)))
    return hashlib.sha256(told.encode()).hexdigest()[:16]


def kept_answers(shape: str) -> Answers:
    """Return what was answered the last time; nothing where nothing was."""
    file = _file(shape)
    return read_answers(file) if file.is_file() else Answers()


def keep_answers(shape: str, answers: Answers, *, about: str) -> Path | None:
    """Keep answers for the sender's next mail, and return where; None where there was none to give."""
    answers = replace(answers, given={key: text for key, text in answers.given.items() if key not in OF_ONE_MAIL})
    if not answers.given and not answers.columns:
        return None
    save(_file(shape), as_toml(answers, about=about).encode())
    return _file(shape)


def _file(shape: str) -> Path:
    import platformdirs

    return Path(platformdirs.user_data_path("shipcalc", appauthor=False)) / "mails" / f"{shape}.toml"
