"""Prices that are good for so many days: the end is counted from the day of the letter, or from the day that somebody answers."""

from collections.abc import Iterator, Sequence
from datetime import timedelta

from shipcalc.ratebook.taking.answers import Answers
from shipcalc.ratebook.taking.days import Order, day_in
from shipcalc.ratebook.taking.letter import Facts
from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate
from shipcalc.records import replace


def ended(facts: Facts, answers: Answers, order: Order) -> Facts:
    """Return facts with the day on which prices end that are good for so many days; the first day is not counted."""
    day = facts.issued or facts.valid_from or day_in(answers.get("issued"), order)
    if facts.good_for is None or facts.valid_to is not None or day is None or isinstance(day, tuple):
        return facts
    return replace(facts, issued=day, valid_to=day + timedelta(days=facts.good_for))


def told_ends(facts: Sequence[Facts], rates: Sequence[Rate]) -> Iterator[LeftOut]:
    """Yield the ends that were counted, with the lines that say for how many days."""
    for one in facts:
        if one.good_for and one.issued and one.valid_to in {rate.valid_to for rate in rates}:
            where = dict(one.where).get("good_for", "")
            if one.valid_to != one.issued + timedelta(days=one.good_for):
                continue
            why = f"is taken as until {one.valid_to}: {one.good_for} days from {one.issued}"
            yield LeftOut(where, f"{one.good_for} days", why, is_taken=True)


def day_questions(facts: Sequence[Facts], rates: Sequence[Rate]) -> Iterator[Question]:
    """Yield the question from which day prices are good, where no day of the letter says it."""
    for one in facts:
        if (
            one.good_for
            and one.issued is None
            and one.valid_to is None
            and any(rate.valid_to is None for rate in rates)
        ):
            where = dict(one.where).get("good_for", "")
            text = f"These prices are good for {one.good_for} days ({where}): from which day, as year-month-day?"
            yield Question("issued", text, (), where)
