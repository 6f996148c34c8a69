"""The numbers and names that the trade knows a shipment by: what each is called, and what it must look like."""

import re
from collections.abc import Callable
from datetime import date

from shipcalc.errors import WrongInput
from shipcalc.records import dataclass
from shipcalc.vehicles.container_number import container_number

LONGEST = 120
# `AES X20060914000001` in the answer “What is the Internal Transaction Number?” of the U.S. Census Bureau (ask.census.gov, FAQ
# 849, read in an archive of 2012): X, the day on which the filing was accepted, six digits.
_ITN = re.compile(r"(?:AES\s*)?X(\d{4})(\d{2})(\d{2})(\d{6})", re.IGNORECASE)
_LINK = re.compile(r"https?://[^\s/]+\.[^\s]+", re.IGNORECASE)
_SEAL = re.compile(r"[A-Z0-9][A-Z0-9 ./-]{1,23}", re.IGNORECASE)
_MANY = re.compile(r"\s*[,;]\s*")


def containers(text: str) -> str:
    """Return container numbers as on the doors, divided by commas. Raises WrongInput for one that is mistyped (ISO 6346)."""
    return ", ".join(container_number(part) for part in _MANY.split(text.strip(" ,;")))


def internal_transaction_number(text: str) -> str:
    """Return the number of an export filing, `X20060914000001`. Raises WrongInput for what is none (15 CFR 30.7 cites it)."""
    found = _ITN.fullmatch(text.strip())
    remedy = "write X and 14 digits, of which the first eight are a day: X20261214012345"
    if found is None:
        raise WrongInput(f'"{text}" is not an ITN', remedy=remedy)
    try:
        date(*map(int, found.groups()[:3]))
    except ValueError:
        raise WrongInput(f'"{text}" is not an ITN: its first eight digits are no day', remedy=remedy) from None
    return f"X{''.join(found.groups())}"


def link(text: str) -> str:
    """Return the address of a page. Raises WrongInput for what a browser would not open."""
    if not _LINK.fullmatch(text.strip()):
        raise WrongInput(f'"{text}" is not a link', remedy="copy it from the browser, with https:// in front")
    return text.strip()


def seals(text: str) -> str:
    """Return seal numbers, divided by commas: letters, digits, blanks and dashes (common practice, no source)."""
    parts = _MANY.split(text.strip(" ,;"))
    for part in parts:
        if not _SEAL.fullmatch(part):
            raise WrongInput(
                f'"{part}" is not the number of a seal', remedy="write its letters and digits, as on the seal"
            )
    return ", ".join(part.upper() for part in parts)


def one_line(text: str) -> str:
    """Return a text without needless blanks. Raises WrongInput for one that fits no line."""
    plain = " ".join(text.split())
    if len(plain) > LONGEST:
        raise WrongInput(f"{len(plain)} letters are too many", remedy=f"use at most {LONGEST}")
    return plain


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """One kind of reference: its `name` where it is typed, its label on papers, and who sees it. `role` is that of a contact."""

    name: str
    label: str
    reading: Callable[[str], str] = one_line
    role: str = ""
    for_buyer: bool = False


REFERENCES = (
    Reference(name="carrier", label="Carrier", role="carrier"),
    Reference(name="driver", label="Driver"),
    Reference(name="forwarder", label="Forwarder", role="forwarder"),
    Reference(name="booking", label="Booking"),
    Reference(name="container", label="Container", reading=containers, for_buyer=True),
    Reference(name="seal", label="Seal", reading=seals, for_buyer=True),
    Reference(name="vessel", label="Vessel", for_buyer=True),
    Reference(name="voyage", label="Voyage", for_buyer=True),
    Reference(name="itn", label="Export filing (ITN)", reading=internal_transaction_number),
    Reference(name="bill", label="Bill of lading", for_buyer=True),
    Reference(name="agent", label="Agent at the port", role="port agent"),
    Reference(name="release", label="Release"),
    Reference(name="entry", label="Customs entry"),
    Reference(name="broker", label="Customs broker", role="customs broker"),
    Reference(name="tracking", label="Tracking", reading=link, for_buyer=True),
    Reference(name="consignee", label="Consignee", role="buyer"),
    Reference(name="notify", label="Notify party"),
    Reference(name="title", label="Title: number and state"),
    Reference(name="commodity", label="Commodity code"),
    Reference(name="odometer", label="Odometer"),
)
BY_NAME = {one.name: one for one in REFERENCES}


def reference_in(text: str) -> tuple[str, str]:
    """Return name and value of `booking=ABC 123`; an empty value takes it away. Raises WrongInput for what is not understood."""
    name, sign, value = text.partition("=")
    known = BY_NAME.get(name.strip().casefold())
    if not sign or known is None:
        raise WrongInput(f'"{text}" sets nothing', remedy=f"write name=value; the names are {', '.join(BY_NAME)}")
    if not value.strip():
        return known.name, ""
    try:
        return known.name, known.reading(value)
    except WrongInput as wrong:
        raise WrongInput(wrong.what, where=known.label, remedy=wrong.remedy) from None


def in_words(references: "dict[str, str]", *, for_buyer: bool = False) -> tuple[tuple[str, str], ...]:
    """Return (label, value) of what is known, in the order of the trade; `for_buyer` without what is the office's alone."""
    shown = [one for one in REFERENCES if one.for_buyer or not for_buyer]
    return tuple((one.label, references[one.name]) for one in shown if references.get(one.name))
