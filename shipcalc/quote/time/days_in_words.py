"""A day as it stands in a sentence that a buyer reads."""

from datetime import date

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def day_in_words(when: date) -> str:
    """Return `8 Dec 2026`, whatever the language of the machine."""
    return f"{when.day} {MONTHS[when.month - 1]} {when.year}"
