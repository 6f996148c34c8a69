"""What somebody said of a mail: in a terminal, in a small TOML file, or the last time that this sender's mail came.

carrier = "Marrow Lake Hauling"
fuel = "included"                 # or "not included"

[columns]
"Rate A" = "flat, open"           # read as if that were the header
"Old" = "leave out"
"""

import tomllib
from collections.abc import Mapping
from pathlib import Path

from shipcalc.errors import WrongInput
from shipcalc.files import read_file
from shipcalc.records import dataclass, field, replace

LEAVE_OUT = "leave out"
INCLUDED, NOT_INCLUDED = "included", "not included"
DEAREST = "the dearest"
EVERY = "every kind"
TAKE = "take"
# Of a bare number under the header of a surcharge.
PERCENT, MONEY = "percent of the freight", "money"
# What can be answered, and with what; () is any text.
KEYS: Mapping[str, tuple[str, ...]] = {
    "carrier": (),
    "sheet": (),
    "trailer": ("open", "enclosed", EVERY),
    "fuel": (INCLUDED, NOT_INCLUDED),
    "currency": (),
    "unit": ("whole trip", "mile", "kilometre"),
    "from": (),
    "to": (),
    "country": (),
    "port": (),
    "reference": (),
    "issued": (),
    "dates": ("month first", "day first"),
    "decimals": ("point", "comma"),
    "matrix": ("rows are from", "rows are to"),
    "zips": ("range", "from and to"),
    "which": (),
    "mode": ("roro", "container", "shared container"),
    "basis": (),
    "marked": (TAKE, LEAVE_OUT),
}


@dataclass(frozen=True, slots=True)
class Answers:
    """Answers by key, and for headers the words that they should have been."""

    given: Mapping[str, str] = field(default_factory=dict)
    columns: Mapping[str, str] = field(default_factory=dict)

    def get(self, key: str) -> str:
        """Return the answer of a key, "" where there is none."""
        assert key in KEYS, key
        return self.given.get(key, "")

    def answer(self, key: str) -> str:
        """Return the answer of a question's key, of a header (`columns.X`) too."""
        head, _, column = key.partition(".")
        return self.columns.get(column, "") if head == "columns" else self.get(head)

    def with_answer(self, key: str, text: str) -> "Answers":
        """Return these answers with one more; a key `columns.X` says what the header X means."""
        head, _, column = key.partition(".")
        if head == "columns":
            return replace(self, columns={**self.columns, column: text})
        return replace(self, given={**self.given, key: text})

    def over(self, other: "Answers") -> "Answers":
        """Return these answers, with the other's where these say nothing."""
        return Answers({**other.given, **self.given}, {**other.columns, **self.columns})


def read_answers(path: Path) -> Answers:
    """Read a file of answers. Raises WrongInput where it cannot be used as it is."""
    try:
        read = tomllib.loads(read_file(path).decode("utf-8-sig"))
    except FileNotFoundError:
        raise WrongInput("there is no such file", where=str(path), remedy="check the name and the folder") from None
    except (OSError, UnicodeDecodeError) as error:
        raise WrongInput(f"cannot be read ({error})", where=str(path), remedy="save it as UTF-8 text") from None
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise WrongInput(
            f"is not TOML ({error})", where=str(path), remedy='write lines such as fuel = "included"'
        ) from None
    return answers_of(read, str(path))


def answers_of(read: Mapping[str, object], where: str) -> Answers:
    """Return answers as they were read. Raises WrongInput for a key or a word that is not known."""
    given: dict[str, str] = {}
    for key, value in read.items():
        if key == "columns":
            continue
        if key not in KEYS:
            raise WrongInput(
                f"{key} is nothing that can be answered",
                where=where,
                remedy=f"it can be {', '.join(KEYS)} or [columns]",
            )
        text = str(value).strip()
        if KEYS[key] and text not in KEYS[key]:
            raise WrongInput(f'{key} cannot be "{text}"', where=where, remedy=f"write {' or '.join(KEYS[key])}")
        given[key] = text
    columns = read.get("columns", {})
    if not isinstance(columns, dict) or not all(isinstance(text, str) for text in columns.values()):
        raise WrongInput(
            "[columns] is not a table of texts", where=where, remedy='write lines such as "Rate A" = "flat, open"'
        )
    return Answers(given, {str(header): str(text) for header, text in columns.items()})


def as_toml(answers: Answers, *, about: str = "") -> str:
    """Return answers as the text of a file."""
    from msgspec import json

    quoted = {key: json.encode(value).decode() for key, value in answers.given.items()}
    lines = [f"# {about}"] if about else []
    lines += [f"{key} = {quoted[key]}" for key in KEYS if key in quoted]
    if answers.columns:
        lines += ["", "[columns]"]
        lines += [
            f"{json.encode(header).decode()} = {json.encode(text).decode()}" for header, text in answers.columns.items()
        ]
    return "\n".join(lines) + "\n"
