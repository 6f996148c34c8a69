"""Seasons that return every year: of their first and last day only day and month count, and they may run over New Year."""

from datetime import date, timedelta


def is_in_yearly(day: date, first: date, last: date) -> bool:
    """Return whether a day is in the season that returns every year from the day and month of `first` to those of `last`."""
    begins, ends, this = ((at.month, at.day) for at in (first, last, day))
    return begins <= this <= ends if begins <= ends else this >= begins or this <= ends


def touches_yearly(window: tuple[date, date], first: date, last: date) -> bool:
    """Return whether a window, first and last day included, has a day in such a season."""
    days = range(min((window[1] - window[0]).days, 366) + 1)
    return any(is_in_yearly(window[0] + timedelta(days=number), first, last) for number in days)
