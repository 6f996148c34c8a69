"""Headers of places: a side (from, to) and a part (city, ZIP), or either alone."""

from collections.abc import Iterable

from shipcalc.ratebook.taking.vocabulary import FILLERS, FROM, HIGH, LOW, PARTS, TO


def place_field(words: str) -> str:
    """Return the field of a header made of a side (from, to) and a part (city, ZIP): "dest zip" → to_zip."""
    if words in LOW or words in HIGH:
        return "zip_low" if words in LOW else "zip_high"
    bare = without(words, FILLERS)
    side, rest = _side(bare)
    for name, known in (("zip_low", _LOWER), ("zip_high", _HIGHER)):
        tokens = rest.split()
        if side and len(tokens) > 1 and tokens[-1] in known and " ".join(tokens[:-1]) in PARTS["zip"]:
            return f"{side}{name}"
    both = _side(rest)[0] if side else ""
    if side and both and both != side:
        return "lane"
    if not side and not rest:
        return ""
    if rest in LOW or rest in HIGH:
        return ("zip_low" if rest in LOW else "zip_high") if side != "from_" else ""
    if not rest:
        return f"{side}place"
    part = next((name for name, known in PARTS.items() if rest in known), "")
    if not part:
        tokens = rest.split()
        parts = [name for token in tokens for name, known in PARTS.items() if token in known]
        part = "city" if len(parts) == len(tokens) and set(parts) == {"city", "state"} else ""
        part = part or ("zip" if len(parts) == len(tokens) and "zip" in parts else "")
    if part == "port" and side:
        return "pol" if side == "from_" else "pod"
    return f"{side}{part}" if part else ""


_LOWER = frozenset(("lo", "low", "min", "start", "begin", "first", "beg", "from", "von", "van", "de", "da"))
_HIGHER = frozenset(("hi", "high", "max", "end", "last", "thru", "to", "through", "until", "bis", "tot", "a"))


def _side(words: str) -> tuple[str, str]:
    """Return which side a header's words name, and the words without it, taken from either end."""
    tokens = words.split()
    for length in (2, 1):
        for first, last in ((0, length), (len(tokens) - length, len(tokens))):
            if first < 0 or last > len(tokens) or len(tokens) < length:
                continue
            words_here = " ".join(tokens[first:last])
            rest = " ".join((*tokens[:first], *tokens[last:]))
            if words_here in ("o", "d", "st", "pick", "load", "ex", "into") and not rest:
                continue
            if words_here in FROM:
                return "from_", rest
            if words_here in TO:
                return "to_", rest
    return "", words


def without(words: str, taken: Iterable[str]) -> str:
    """Return words without those that are taken out."""
    left = set(taken)
    return " ".join(word for word in words.split() if word not in left)
