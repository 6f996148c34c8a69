"""Prices of one and the same lane: the same is taken once; of two that differ it is asked which counts, or none is taken."""

from collections.abc import Iterator, Sequence

from shipcalc.ratebook.taking.answers import DEAREST, LEAVE_OUT, Answers
from shipcalc.ratebook.taking.lines import MOST_CONDITIONS
from shipcalc.ratebook.taking.rate import LeftOut, Question, Rate
from shipcalc.records import replace


def without_doubles(
    rates: Sequence[Rate], *, dearest: bool = False, currency: str = ""
) -> tuple[tuple[Rate, ...], tuple[LeftOut, ...]]:
    """Return the rates of which there is one, and what stands twice: the same price is taken once, of two prices none."""
    by_key: dict[tuple[object, ...], list[Rate]] = {}
    for rate in rates:
        by_key.setdefault(rate.key, []).append(rate)
    kept: list[Rate] = []
    left: list[LeftOut] = []
    for same in by_key.values():
        if dearest and len({rate.condition for rate in same}) == len(same):
            same.sort(key=lambda rate: -(rate.flat or rate.per_mile or 0))
            kept.append(same[0])
            left += [
                LeftOut(rate.where, _price(rate), f"is less than {same[0].where}, which is taken") for rate in same[1:]
            ]
        elif (chosen := _in_one_currency(same, currency)) is not None:
            kept.append(chosen)
            why = f"is the price in another currency than {chosen.where}, which is taken"
            left += [LeftOut(rate.where, f"{_price(rate)} {rate.currency}", why) for rate in same if rate is not chosen]
        elif len({rate.price for rate in same}) == 1:
            is_for_all = len({rate.condition for rate in same}) > 1
            kept.append(replace(same[0], condition="") if is_for_all else same[0])
            left += [
                LeftOut(rate.where, _price(rate), f"is the same as {same[0].where}", is_taken=True) for rate in same[1:]
            ]
        else:
            others = {rate.where: ", ".join(other.where for other in same if other is not rate) for rate in same}
            conditions = _own_parts([rate.condition for rate in same])
            why = "has another price in {}" + (
                ": they differ by " + " / ".join(dict.fromkeys(conditions)) if len(set(conditions)) == len(same) else ""
            )
            left += [LeftOut(rate.where, _price(rate), why.format(others[rate.where])) for rate in same]
    places = {rate.where: at for at, rate in reversed(list(enumerate(rates)))}
    kept.sort(key=lambda rate: places[rate.where])
    return tuple(kept), tuple(left)


def _in_one_currency(same: Sequence[Rate], currency: str) -> Rate | None:
    """Return the one price in the currency that was answered, where each of several is in a currency of its own."""
    by_currency = {rate.currency: rate for rate in same}
    return by_currency.get(currency) if len(by_currency) == len(same) > 1 else None


def currency_question(doubled: Sequence[LeftOut], rates: Sequence[Rate], answers: Answers) -> Iterator[Question]:
    """Yield the question in which of two currencies prices are to be taken that stand side by side for the same lanes."""
    cells = {item.where for item in doubled if not item.is_taken}
    by_key: dict[tuple[object, ...], dict[str, str]] = {}
    for rate in rates:
        if rate.where in cells and rate.currency:
            by_key.setdefault((rate.key, rate.condition), {})[rate.currency] = rate.where
    found = next((told for told in by_key.values() if len(told) > 1), None)
    if found and not answers.get("currency"):
        cells_told = ", ".join(found.values())
        text = (
            f"Prices of the same lanes stand in {' and in '.join(found)} ({cells_told}). In which are they to be taken?"
        )
        yield Question("currency", text, tuple(found), next(iter(found.values())))


def which_question(doubled: Sequence[LeftOut], rates: Sequence[Rate], answers: Answers) -> Iterator[Question]:
    """Yield the question which prices count where two of one lane differ by the vehicles that they are for."""
    cells = {item.where for item in doubled if not item.is_taken}
    said = list(dict.fromkeys(rate.condition for rate in rates if rate.where in cells and rate.condition))
    conditions = tuple(dict.fromkeys(_own_parts(said)))
    if len(conditions) > 1 and not answers.get("which"):
        where = next(rate.where for rate in rates if rate.where in cells and rate.condition)
        text = f"Prices of the same lane differ by the vehicles that they are for ({where}). Which are to be taken?"
        yield Question("which", text, (*conditions[:MOST_CONDITIONS], DEAREST, LEAVE_OUT), where)


def _own_parts(conditions: Sequence[str]) -> list[str]:
    """Return conditions without what all of them say: "up to 5 m; max 2 t" beside "over 5 m; max 2 t" is "up to 5 m"."""
    parts = [condition.split("; ") for condition in conditions]
    common = set.intersection(*(set(one) for one in parts)) if parts else set()
    return ["; ".join(part for part in one if part not in common) for one in parts]


def _price(rate: Rate) -> str:
    number = rate.flat if rate.flat is not None else rate.per_mile
    return f"{number:f}" if number is not None else ""
