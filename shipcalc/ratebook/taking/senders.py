"""Who sends a mail, as its first lines name a company."""

import re
from collections.abc import Iterable

from shipcalc.ratebook.taking.letter import Line

LONGEST_NAME = 60
_SENDER_WORD = re.compile(
    r"\b(?:llc|inc|corp|ltd|limited|gmbh|bv|b\.v|nv|ag|sa|srl|sarl|spa|co|kg|oy|ab|aps|"
    r"transport\w*|haul\w*|freight\w*|carriage|carriers?|logistic\w*|lines?|forward\w*|spedition|"
    r"shipping|brokers?|"
    r"motor\w*|trucking|express|auto|vehicle|movers?|cartage|agency|havenagentuur|rederij|"
    r"reederei|transit|cargo|ocean|maritime|marine|agents?)\b",
    re.IGNORECASE,
)
_LEGAL = re.compile(
    r",?\s*\b(?:l\.?l\.?c|inc|corp|ltd|limited|gmbh(?: & co\.? kg)?|b\.?v|n\.?v|s\.?a|s\.?r\.?l|s\.?a\.?r\.?l|"
    r"plc|co|ag|kg|s\.?p\.?a|oy|aps)\b\.?\s*$",
    re.IGNORECASE,
)
_NO_NAME = re.compile(
    r"\b(?:dear|hello|hi|please|thank|attached|find|rates? (?:are|valid)|valid|all prices|regards|"
    r"page|subject|sehr geehrte)\b|@|\d{5}",
    re.IGNORECASE,
)
_TITLE = re.compile(r"\s*(?::|\s[-–—|]\s).*$")
_RATE_WORDS = re.compile(
    r"\b(?:rates?|rate ?sheet|price ?list|prices|tariff|quotation|quote|pricing|offer|"
    r"transport rates|lane rates?|rate card|spot board|tarief|preisliste|angebot)\b",
    re.IGNORECASE,
)


def sender_in(lines: Iterable[Line]) -> tuple[str, str]:
    """Return the company that the first lines of a mail name, and where; "" where none is surely one."""
    for line in list(lines)[:6]:
        name = _TITLE.sub("", line.text).strip(" ,")
        name = re.sub(r"^(?:from|carrier|company|by|forwarder|agent)\s*:?\s+", "", name, flags=re.IGNORECASE)
        if _RATE_WORDS.search(name):
            name = _RATE_WORDS.split(name)[0].strip(" ,-–:") if _SENDER_WORD.search(_RATE_WORDS.split(name)[0]) else ""
        if (
            name
            and len(name) <= LONGEST_NAME
            and _SENDER_WORD.search(name)
            and not _NO_NAME.search(line.text.partition(":")[0])
        ):
            return _as_name(next(part for part in name.split(",") if _SENDER_WORD.search(part)).strip()), line.where
    return "", ""


def _as_name(name: str) -> str:
    bare = _LEGAL.sub("", name).strip(" ,.") or name
    return bare.title() if bare.isupper() else bare
