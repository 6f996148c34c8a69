"""Places of which some are excepted: "CA (exc. 900-908)" is all ZIPs of California without those, as ranges of ZIPs."""

import re
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from shipcalc.places.gazetteer.pages import all_postal_codes
from shipcalc.places.gazetteer.regions import US_STATES
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.vocabulary import EXCEPTING, any_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_EXCEPT = re.compile(
    rf"(?P<base>.+?)[\s,;–-]*[(\[]?\s*(?<!\w){any_of(EXCEPTING)}(?!\w)[\s:.]*(?P<without>[^()\[\]]+?)\s*[)\]]?",
    re.IGNORECASE,
)
# "ex" is "from" elsewhere: it excepts only where it opens a bracket behind a place.
_EX = re.compile(r"(?<=\w)(\s*[(\[]\s*)ex(?=[\s.:])\.?", re.IGNORECASE)
_OUTSIDE_BRACKETS = re.compile(r"\s*(?:[;/&\n|,]|\band\b)\s*(?![^(\[]*[)\]])")
_LOWER_48 = re.compile(
    r"(?:all (?:of )?)?(?:the )?(?:lower|contiguous|continental)[ -](?:48|us|usa|u\.s\.|united states|states)(?: states)?",
    re.IGNORECASE,
)
LOWER_48 = tuple(End(state, "state") for state in US_STATES if state not in ("AK", "HI"))
MOST_RANGES = 30
WIDEST_GAP = 3


def parted(text: str) -> tuple[str, str] | None:
    """Return the places of a text and those that it excepts, None where it excepts none."""
    found = _EXCEPT.fullmatch(_EX.sub(r"\1except", text))
    return (found["base"].strip(), found["without"].strip()) if found else None


def pieces_with_exceptions(text: str) -> tuple[str, ...]:
    """Return the places of a list, of which one has an exception in brackets of its own; () for another text."""
    pieces = tuple(piece for piece in _OUTSIDE_BRACKETS.split(text) if piece)
    is_own = any(piece.endswith((")", "]")) and parted(piece) for piece in pieces)
    return pieces if len(pieces) > 1 and is_own else ()


def is_lower_48(text: str) -> bool:
    """Return whether a text names the contiguous states."""
    return _LOWER_48.fullmatch(text) is not None


def without(base: Sequence[End], excepted: Sequence[End]) -> tuple[End, ...]:
    """Return places without those that are excepted: states, or the fewest ranges of ZIPs in use. Raises Unclear."""
    if all(end.kind == "state" for end in (*base, *excepted)):
        states = tuple(end for end in base if end.text not in {one.text for one in excepted})
        if len(states) != len(base) - len(excepted) or not states:
            raise Unclear("excepts a state that is not in it")
        return states
    if all(end.kind == "postal" for end in base):
        return _without_abroad(base, excepted)
    if any(end.kind not in ("state", "ZIP") for end in (*base, *excepted)):
        raise Unclear("excepts what is neither ZIPs nor a state")
    inside, out = _mask(base), _mask(excepted)
    if not (inside & out).any():
        raise Unclear("excepts what is not in it")
    ranges = tuple(_ranges(inside & ~out, inside & out))
    if not ranges or len(ranges) > MOST_RANGES:
        raise Unclear("leaves no ZIP" if not ranges else "leaves more ranges of ZIPs than rows are made of")
    return tuple(End(text, "ZIP") for text in ranges)


def _without_abroad(base: Sequence[End], excepted: Sequence[End]) -> tuple[End, ...]:
    """Return postal codes abroad, by their beginnings, without others: 27 without 279 is 270 … 278. Raises Unclear."""
    out = [code for end in excepted for code in end.text.split("; ")]
    if len({end.country for end in (*base, *excepted)}) > 1 or not all(code.isdecimal() for code in out):
        raise Unclear("excepts what are no postal codes of one country")
    left = [code for end in base for code in end.text.split("; ")]
    for one in out:
        if not any(one.startswith(code) or code.startswith(one) for code in left):
            raise Unclear("excepts what is not in it")
        left = [piece for code in left for piece in _pieces(code, one)]
    return (End("; ".join(left), "postal", country=base[0].country),)


def _pieces(code: str, out: str) -> Iterator[str]:
    """Yield the beginnings of what begins with `code` and not with `out`."""
    if code.startswith(out):
        return
    if not out.startswith(code):
        yield code
        return
    for figure in "0123456789":
        yield from _pieces(code + figure, out)


def _mask(ends: Sequence[End]) -> "NDArray[np.bool_]":
    """Return which of all ZIPs lie at some ends."""
    codes = all_postal_codes()
    found: NDArray[np.bool_] = codes.state == ""
    for end in ends:
        first, _, last = end.text.partition("-")
        if end.kind == "state":
            found = found | (codes.state == end.text)
        else:
            found = found | ((codes.codes >= first.ljust(5, "0")) & (codes.codes <= (last or first).ljust(5, "9")))
    return found


def _ranges(wanted: "NDArray[np.bool_]", out: "NDArray[np.bool_]") -> Iterator[str]:
    """Yield runs of ZIPs as they are written: by first three figures where a run holds all that begin so, else by all five.

    Beside what is excepted a run goes on over one or two beginnings that no ZIP in use has: without 900-908 it begins at 909.
    """
    codes = all_postal_codes().codes.tolist()
    for is_wanted, run in groupby(range(len(codes)), lambda at: bool(wanted[at])):
        ats = list(run)
        if not is_wanted:
            continue
        first, last = ats[0], ats[-1]
        before, after = codes[first - 1] if first else "", codes[last + 1] if last + 1 < len(codes) else ""
        if before[:3] == codes[first][:3] or after[:3] == codes[last][:3]:
            low, high = codes[first], codes[last]
        else:
            low, high = codes[first][:3], codes[last][:3]
            if before and out[first - 1] and int(low) - int(before[:3]) <= WIDEST_GAP:
                low = f"{int(before[:3]) + 1:03}"
            if after and out[last + 1] and int(after[:3]) - int(high) <= WIDEST_GAP:
                high = f"{int(after[:3]) - 1:03}"
        yield low if low == high else f"{low}-{high}"
