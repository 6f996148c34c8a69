"""A price as it stands in a cell: "$1,250", "EUR 1.250,00", "1.85/mi min 450", 1250 shown as euros; or why it is no price.

One number, its currency, per mile or not, fuel in or not, a least sum. Whatever else stands in the cell makes it doubtful.
"""

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import Literal

from shipcalc.ratebook.taking.currencies import DOLLAR, currencies_in, currency_in
from shipcalc.ratebook.taking.stated import limits_in, without_limits
from shipcalc.ratebook.taking.traits import NO_TRAITS, Traits, traits_in
from shipcalc.records import dataclass, replace
from shipcalc.sheets.numbers import NotANumber, TwoReadings, exact, number_from_text, plain_text
from shipcalc.sheets.reading import CellValue

Mark = Literal[".", ",", ""]
"""What divides decimals in a mail's texts; "" where none of them tells."""
LARGEST = Decimal(1_000_000)
_NOTHING = frozenset(
    (
        "",
        "-",
        "--",
        "---",
        "–",
        "—",
        "x",
        "n/a",
        "na",
        "n.a.",
        "none",
        "nil",
        "no service",
        "not served",
        "not available",
        "no rate",
        "./.",
        "//",
        "no bid",
        "/",
        ".",
    )
)
_ON_ASKING = re.compile(
    r"\b(?:call|on request|upon request|o/r|tbd|tba|tbc|poa|por|p\.o\.a\.?|ask|spot|quote|inquire|"
    r"enquire|contact|by request|to be advised|case by case)\b"
)
_INCLUDED = re.compile(r"(?:is |are )?(?:incl(?:uded|usive|\.)?|nil|free|waived|none|0|no charge|n/c|in rate)\.?")
_NUMBER = re.compile(r"[0-9][0-9 .,'’]*[0-9]|[0-9]")
_MINIMUM = re.compile(
    r"[,;(]?\s*(?:with )?(?:a )?\bmin(?:imum)?\.?(?: charge)?(?: of)?:?\s*([^0-9]{0,5}[0-9][0-9 .,']*[0-9]|"
    r"[^0-9]{0,5}[0-9])\)?"
)
_MARKS = re.compile(r"(?<=[0-9])\s*(\*+|†+|‡+|[¹²³]|\((?:[a-e1-9]|i+)\)|#)\s*$|^\s*(\*+)")
_DASH = re.compile(r"[.,][-–—]")
_QUIET = re.compile(r"\b(?:p u|flat|only|net|total|rate|price|lump sum)\b")
_ONE_MARK = re.compile(r"([0-9]{1,3})([.,])([0-9]{3})")
_EUROPEAN = re.compile(
    r"[0-9]\.[0-9]{3},[0-9]|^[0-9]{1,3}(?:\.[0-9]{3}){2,}$|^[0-9]+,[0-9]{1,2}$|"
    r"^[0-9 ']+,[0-9]{2}$|^0,[0-9]+$|^[0-9]{1,3},[0-9]{4,}$"
)
_AMERICAN = re.compile(
    r"[0-9],[0-9]{3}\.[0-9]|^[0-9]{1,3}(?:,[0-9]{3}){2,}$|^[0-9]+\.[0-9]{1,2}$|"
    r"^[0-9 ']+\.[0-9]{2}$|^0\.[0-9]+$|^[0-9]{1,3}\.[0-9]{4,}$"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A price. `mark` is a sign that refers to a note (`*`); `percent` says that the number is a percentage,
    `is_money` that it is written as only money is: 80.-"""

    number: Decimal
    traits: Traits = NO_TRAITS
    minimum: Decimal | None = None
    mark: str = ""
    percent: bool = False
    is_money: bool = False


@dataclass(frozen=True, slots=True)
class NoFigure:
    """There is no price. `why` is "" where the cell says that plainly (blank, n/a), else what is to be named."""

    why: str = ""
    on_asking: bool = False


def decimal_mark(texts: Iterable[str]) -> Mark | None:
    """Return what divides decimals in the figures of these texts: "" where nothing tells, None where they contradict."""
    european = american = False
    for text in texts:
        european = european or re.search(r"[0-9],[-–—]", text) is not None
        for figure in _NUMBER.findall(plain_text(text)):
            bare = figure.strip()
            european = european or _EUROPEAN.search(bare) is not None
            american = american or _AMERICAN.search(bare) is not None
    if european and american:
        return None
    return "," if european else "." if american else ""


def figure_in(value: CellValue, number_format: str, mark: Mark, *, finer: bool = False) -> Figure | NoFigure:
    """Return the price in a cell, or that there is none. `finer`: a rate per mile or ton, for which three decimals are usual."""
    if isinstance(value, bool):
        return NoFigure("is neither a price nor blank")
    if isinstance(value, (int, float)):
        found = _from_number(exact(float(value)), number_format)
        return found if isinstance(found, NoFigure) else _checked(found)
    if not isinstance(value, str):
        return NoFigure() if value is None else NoFigure("is a date, not a price")
    return _from_text(plain_text(value), mark, finer=finer)


def is_included(text: str) -> bool:
    """Return whether a cell of a surcharge says that it is in the price or not asked for."""
    return _INCLUDED.fullmatch(plain_text(text).casefold()) is not None


def looks_like_price(value: CellValue) -> bool:
    """Return whether a cell may hold a price: a number, or a text that begins or ends with one beside a currency."""
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return True
    return isinstance(value, str) and isinstance(_from_text(plain_text(value), "", finer=False), Figure)


def _from_number(number: Decimal, number_format: str) -> Figure | NoFigure:
    shown = number_format.split(";", maxsplit=1)[0]
    if re.search(r"[0#],+(?![0#])", shown):
        return NoFigure("is shown in thousands")
    if "%" in shown:
        return Figure(number=number * 100, percent=True)
    return Figure(number=number, traits=_said_by_format(shown))


def _said_by_format(shown: str) -> Traits:
    """Return the currency and unit that a number format shows: `[$€-407] #,##0.00`, `"USD" 0`, `$0.00"/mi"`."""
    words = re.sub(r"\[\$([^\]-]*)(?:-[^\]]*)?\]", r" \1 ", shown)
    words = re.sub(r"\[[^\]]*\]|_.|\*.|\\", " ", words).replace('"', " ")
    traits, _ = traits_in(re.sub(r"[#0?.,]+", " ", words))
    return traits


def _from_text(text: str, mark: Mark, *, finer: bool) -> Figure | NoFigure:
    if (limits := limits_in(text)) and any(sign.isdigit() for sign in without_limits(text)):
        found = _from_text(re.sub(r"\(\s*;?\s*\)", " ", without_limits(text)).strip(" ;,"), mark, finer=finer)
        return replace(found, traits=replace(found.traits, limits=limits)) if isinstance(found, Figure) else found
    lower = text.casefold()
    if lower in _NOTHING:
        return NoFigure()
    if not any(sign.isdigit() for sign in text):
        return NoFigure(
            "has no price" if _ON_ASKING.search(lower) else "is no price", on_asking=bool(_ON_ASKING.search(lower))
        )
    least = _MINIMUM.search(lower)
    noted = _MARKS.search(text)
    if noted is not None:
        text = f"{text[: noted.start()]} {text[noted.end() :]}"
    minimum = None
    if least is not None and lower[: least.start()].strip():
        read = _number(currency_in(least[1])[1].strip(), mark, finer=False)
        if isinstance(read, NoFigure):
            return read
        minimum, text = read, f"{text[: least.start()]} {text[least.end() :]}"
    beside = _said_beside(text)
    if isinstance(beside, NoFigure):
        return beside
    traits, percent, rest = beside
    number = _number(rest, mark, finer=finer or bool(traits.unit) or percent)
    if isinstance(number, NoFigure):
        return number
    sign = next((found for found in noted.groups() if found), "") if noted else ""
    is_money = re.search(r"[0-9][.,][-–—]", text) is not None
    found = Figure(number=number, traits=traits, minimum=minimum, mark=sign, percent=percent, is_money=is_money)
    return _checked(found)


_MORE = NoFigure("holds more than one price, or more than a price")


def _said_beside(text: str) -> tuple[Traits, bool, str] | NoFigure:
    """Return what a cell says beside its number, whether that is a percentage, and the number; or that it says more than that."""
    numbers = _NUMBER.findall(text)
    if len(numbers) != 1:
        return _MORE
    before, _, after = text.partition(numbers[0])
    number = numbers[0].strip()
    if _DASH.match(after):
        after, number = after[2:], re.sub(r"[., ']", "", number)
    before, after = before.strip(), after.strip()
    if before.endswith("+"):
        return NoFigure("is an addition to another price")
    if before.endswith("-") or after == "-" or (before.endswith("(") and after.startswith(")")):
        return NoFigure("is less than nothing")
    if len(currencies_in(f"{before} {after}") - {DOLLAR}) > 1:
        return NoFigure("names two currencies")
    traits, others = traits_in(f"{before} {after.replace('%', ' ')}")
    others = _QUIET.sub(" ", others)
    return (traits, "%" in text, number) if not re.search(r"[^\s()\[\]:=/.,-]", others) else _MORE


def _number(text: str, mark: Mark, *, finer: bool) -> Decimal | NoFigure:
    """Return the number that a text is, its decimals divided as the whole mail does it; no amount of money has three decimals."""
    one = _ONE_MARK.fullmatch(text)
    if one is not None:
        thousands, decimal = Decimal(one[1] + one[3]), Decimal(f"{one[1]}.{one[3]}")
        if one[1] == "0":
            return decimal
        if (mark and one[2] != mark) or (not mark and one[2] == "," and not finer):
            return thousands
        if mark and finer:
            return decimal
        return NoFigure(f"can be read as {thousands:,} or as {decimal}")
    try:
        return number_from_text(text, decimals=4 if finer else 2)
    except TwoReadings as two:
        return NoFigure("can be read as {} or as {}".format(*two.readings))
    except NotANumber:
        return NoFigure("is not a number")


def _checked(figure: Figure) -> Figure | NoFigure:
    if figure.number < 0:
        return NoFigure("is less than nothing")
    if figure.number >= LARGEST:
        return NoFigure("is too large for a price")
    if figure.traits.unit == "cents a mile":
        return NoFigure("is in cents")
    return figure
