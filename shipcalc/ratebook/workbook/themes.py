"""Among which columns one stands in a new workbook: what belongs together stands together, and is coloured alike."""

from enum import Enum


class Theme(Enum):
    """What a column is about, in the order of a sheet; its value is how the front sheet tells it."""

    NAME = "what the row is called"
    PRICE = "what it costs: change it where the price changes"
    DETAIL = "what goes with it"
    DAYS = "days and times"
    LIMIT = "which vehicles it takes"
    WHEN = "when the row holds: blank is always true"
    VALID = "from which day to which"
    SOURCE = "where it is from, and notes of your own"
