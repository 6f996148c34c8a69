"""A lane in one cell ("Seattle – Reno"), and the end that a title between rows names."""

import re

from shipcalc.ratebook.taking.around import Around
from shipcalc.ratebook.taking.ends import End, Unclear
from shipcalc.ratebook.taking.port_names import port_in
from shipcalc.ratebook.taking.spots import ends_in

_LANE = re.compile(r"\s*(?:→|⇒|->|=>|>|»|\bto\b|\s[-–—]\s|–|—|\bnach\b|\bnaar\b|/)\s*")
_PAIR = re.compile(r"\s*(?:↔|<->|<>|⇄|\bv\.?v\.?)\s*")
_SIDE_WORDS = re.compile(
    r"^(?:from|origin|ex|pick ?-?up(?: (?:in|at|from))?|to|destination|delivery(?: to)?|"
    r"deliver to|outbound from|inbound to|shipping from|loading)\b\s*:?\s*",
    re.IGNORECASE,
)


def ends_of_ports(text: str) -> tuple[tuple[End, ...], tuple[End, ...], bool]:
    """Return both ports of a way by sea in one cell, and whether it holds both ways. Raises Unclear."""
    both = _PAIR.search(text) is not None
    parts = [part for part in (_PAIR if both else _LANE).split(text) if part]
    if len(parts) != 2:
        raise Unclear("does not name two ports")
    return (port_in(parts[0]),), (port_in(parts[1]),), both


def ends_of_lane(text: str, around: Around) -> tuple[tuple[End, ...], tuple[End, ...], bool]:
    """Return both ends of a lane in one cell, and whether it holds both ways. Raises Unclear."""
    both = _PAIR.search(text) is not None
    parts = [part for part in (_PAIR if both else _LANE).split(text) if part]
    if len(parts) != 2:
        strong = [part for part in re.split(r"\s*(?:→|->|=>|>|\bto\b|\s[-–—]\s)\s*", text) if part]
        parts = strong if len(strong) == 2 else parts
    if len(parts) != 2:
        raise Unclear("does not name two places")
    names = around.known.names
    return ends_in(parts[0], names), ends_in(parts[1], names), both


def end_in_title(text: str, around: Around) -> tuple[str, tuple[End, ...]]:
    """Return the side ("from", "to" or "") and the ends that a title between the rows names; () where it names none."""
    found = _SIDE_WORDS.match(text)
    word = found[0].casefold() if found else ""
    side = "to" if word.startswith(("to", "dest", "deliver", "inbound")) else "from" if word else ""
    rest = text[found.end() :] if found else text
    try:
        return side, ends_in(rest, around.known.names)
    except Unclear:
        return "", ()
