"""What a charge of a tariff is for, and the days that a step of storage is for."""

import re

from shipcalc.records import dataclass

A_DAY = "vehicle a day"
_DAILY = re.compile(
    r"\b(?:(?:per|a|each|pro|je|par) (?:calendar |working )?(?:day|tag|jour|dia)|daily|per dag|and day)\b|/ ?day"
)
_PAPER = (
    r"documents?|doc|b ?/? ?l|bill of lading|booking|shipment|declaration|entry|dokument|consignment|set|file|lump ?sum"
)
_BOX = r"containers?|cntr|box|20 ?['′]|40 ?['′](?:hc)?|20ft|40ft|teu|feu"
_CAR = r"vehicles?|units?|cars?|automobiles?|fahrzeug\w*|voertuig\w*|vehicules?|autos?|each|piece"
_PER = (
    ("shipment", re.compile(rf"\b(?:{_PAPER})\b")),
    ("container", re.compile(rf"\b(?:{_BOX})(?![a-z])")),
    ("revenue ton", re.compile(r"w ?/ ?m\b|\bw m\b|\b(?:revenue|freight) tons?\b|\bfrt\b|\br/?t\b")),
    ("vehicle", re.compile(rf"\b(?:{_CAR})\b")),
)
_DAYS = (
    re.compile(r"\b(?:days?|tage?|dag(?:en)?|jours?) (\d{1,3}) ?(?:-|to|bis|t/m|until) ?(?:day )?(\d{1,3})\b"),
    re.compile(r"\b(\d{1,3})(?:st|nd|rd|th)? ?(?:-|to|bis|t/m|until) ?(\d{1,3})(?:st|nd|rd|th)? (?:days?|tage?|dag(?:en)?)\b"),
)  # fmt: skip
_FROM_DAY = re.compile(
    r"\b(?:from|ab|vanaf|as of) (?:day |the )?(\d{1,3})(?:st|nd|rd|th)?(?: day)?\b|\bday (\d{1,3}) ?(?:\+|and|onwards?|on)"
)
_AFTER_DAY = re.compile(r"\b(?:after|over|beyond|nach|na) (?:day )?(\d{1,3})(?: days?)?\b")
_FIRST_DAYS = re.compile(r"\bfirst (\d{1,3}) days?\b|\b(\d{1,3}) (?:free )?days? free\b|\b(\d{1,3}) free days?\b")


@dataclass(frozen=True, slots=True)
class Storage:
    """The title that stands above steps of days, and the days that are free."""

    title: str = ""
    free_days: int = 0


def per_in(text: str) -> str:
    """Return what a text says that an amount is for, as the sheet has it; "" for none of them, and for a container's day."""
    plain = text.casefold().replace("’", "'")
    if _DAILY.search(plain):
        return "" if _PER[1][1].search(plain) or _PER[2][1].search(plain) else A_DAY
    return next((per for per, pattern in _PER if pattern.search(plain)), "")


def days_said(text: str) -> tuple[int, int | None] | None:
    """Return the days that a step of storage is for, the last None where it has no end; None where a text names no days."""
    plain = re.sub(r"\s*[–—]\s*", "-", text).casefold()
    for pattern in _DAYS:
        if found := pattern.search(plain):
            return int(found[1]), int(found[2])
    if found := _FIRST_DAYS.search(plain):
        return 1, int(next(one for one in found.groups() if one))
    if found := _FROM_DAY.search(plain):
        return int(found[1] or found[2]), None
    if found := _AFTER_DAY.search(plain):
        return int(found[1]) + 1, None
    return None


def label_of_step(name: str, storage: Storage) -> str:
    """Return what a step of storage is called: its own words without its days, else the title above it."""
    plain = name
    for pattern in (*_DAYS, _FROM_DAY, _AFTER_DAY, _FIRST_DAYS):
        plain = re.sub(pattern.pattern, " ", re.sub(r"\s*[–—]\s*", "-", plain), flags=re.IGNORECASE)
    words = re.sub(r"\b(?:onwards?|and|free|days?|ab|dem)\b", " ", plain, flags=re.IGNORECASE)
    return " ".join(words.split()).strip(" .:-") or _title_of(storage.title) or "Storage"


def _title_of(text: str) -> str:
    """Return the title above steps without its number and what it is for: "3 Storage per vehicle and day" → Storage."""
    return re.sub(r"^[\d.]+\s+|\s*\b(?:per|in|of|,).*$", "", text).strip(" :")
