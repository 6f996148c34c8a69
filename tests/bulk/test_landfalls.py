"""Where places abroad are arrived at, and what of a rate book that hangs on."""

from shipcalc.bulk.destinations import find_destinations
from shipcalc.bulk.landfalls import ASKED, landfalls
from shipcalc.ratebook.rows.tables import SHEETS
from shipcalc.records import replace


class Watched:
    """A rate book that remembers what of it was asked for."""

    def __init__(self, book):
        self.book, self.asked = book, set()

    def __getattr__(self, name):
        self.asked.add(name)
        return getattr(self.book, name)


def test_landfalls_ask_no_sheet_but_those_that_make_them_anew(books, make_plan):
    """Otherwise the landfalls of one day would serve another, on which the rows of that sheet are others."""
    watched = Watched(books.rates)
    plan = replace(make_plan(find_destinations("countries", None, books.rates), vehicles=[0]), book=watched)
    landfalls(plan, range(len(plan.destinations)))
    assert watched.asked & {sheet.rows for sheet in SHEETS} == set(ASKED)


def test_a_day_on_which_prices_change_has_the_same_landfalls_and_one_on_which_ports_change_has_others(books, make_plan):
    plan = make_plan(find_destinations("countries", None, books.rates), vehicles=[0])
    some = range(20)
    dearer = replace(plan, book=replace(books.rates, ocean=books.rates.ocean[1:]))
    fewer = replace(plan, book=replace(books.rates, ports=books.rates.ports[1:]))
    assert landfalls(dearer, some) is landfalls(plan, some)
    assert landfalls(fewer, some) is not landfalls(plan, some)
