"""A quote as JSON: how it is laid out, and what does not belong is refused. What holds for every way: `test_every_way.py`."""

import json
import random
from collections.abc import Iterator

import pytest
from pydantic import TypeAdapter, ValidationError

from shipcalc.errors import WrongInput
from shipcalc.quote.as_data import quote_from_json, quote_to_json
from shipcalc.quote.model import Quote
from shipcalc.records import fields, is_dataclass, replace


def test_it_is_laid_out_as_the_standard_library_lays_it_out(some_quotes) -> None:
    """With every sign that JSON escapes, and some that it does not."""
    odd = "".join(map(chr, range(0x20))) + '"\\/ é – 漢 \u2028 \U0001f600'
    for quote in some_quotes:
        written = quote_to_json(replace(quote, buyer=odd))
        assert json.dumps(json.loads(written), ensure_ascii=False, indent=2) == written


def test_from_is_called_from(some_quotes) -> None:
    data = json.loads(quote_to_json(some_quotes[0]))
    assert data["from"]["name"] == "Bellingham"
    assert "from_" not in data


@pytest.mark.parametrize(
    ("change", "spot"),
    [
        (lambda data: data | {"horoscope": "good"}, "horoscope"),
        (lambda data: {key: value for key, value in data.items() if key != "valid_until"}, "valid_until"),
        (lambda data: data | {"ready": "next Tuesday"}, "ready"),
        (lambda data: data | {"options": [{}]}, "options.0"),
        (lambda data: data | {"recommended": "the blue one"}, "recommended"),
    ],
)
def test_what_does_not_belong_is_refused_in_a_sentence_that_names_it(some_quotes, change, spot: str) -> None:
    changed = json.dumps(change(json.loads(quote_to_json(some_quotes[0]))))
    with pytest.raises(WrongInput) as told:
        quote_from_json(changed, where="lindqvist/office/quote.json")
    said = str(told.value)
    assert said.startswith(f"lindqvist/office/quote.json: is not a whole quote ({spot}")
    assert "— name the quote.json" in said
    assert "\n" not in said


@pytest.mark.parametrize("path", ["dealer", "wishes", "rate_book"])
def test_an_extra_word_in_a_part_is_refused_as_well(some_quotes, path: str) -> None:
    data = json.loads(quote_to_json(some_quotes[0]))
    data[path]["horoscope"] = "good"
    with pytest.raises(WrongInput, match=f"{path}.horoscope"):
        quote_from_json(json.dumps(data))


def test_an_extra_word_in_a_charge_a_place_or_a_vehicle_is_refused(some_quotes) -> None:
    spots = (("options", 0, "charges", 0), ("options", 0, "charges", 0, "cost"), ("to",), ("vehicles", 0), ("options", 0, "dates"))  # fmt: skip
    for spot in spots:
        data = json.loads(quote_to_json(some_quotes[0]))
        part = data
        for step in spot:
            part = part[step]
        part["horoscope"] = "good"
        with pytest.raises(WrongInput, match="horoscope"):
            quote_from_json(json.dumps(data))


@pytest.mark.parametrize("content", ["", "{", "[]", "null", "Dear Perpetua,"])
def test_what_is_no_quote_at_all_is_refused(content: str) -> None:
    with pytest.raises(WrongInput, match="not a whole quote"):
        quote_from_json(content)


def test_a_number_is_kept(some_quotes) -> None:
    numbered = replace(some_quotes[0], number="Q-7")
    assert quote_from_json(quote_to_json(numbered)).number == "Q-7"


def plain(part: object) -> object:
    """Return a part of a quote as dictionaries and tuples of what stands in it."""
    if is_dataclass(part):
        return {field.name.rstrip("_"): plain(getattr(part, field.name)) for field in fields(part)}
    return tuple(map(plain, part)) if isinstance(part, tuple) else part


def test_what_is_written_is_what_pydantic_would_write(some_quotes) -> None:
    """Two writers of the same data: msgspec, which is quick to start, and pydantic."""
    for quote in some_quotes:
        assert quote_to_json(quote) == TypeAdapter(object).dump_json(plain(quote), indent=2).decode()


def spots_in(data: object, *path: str | int) -> Iterator[tuple[str | int, ...]]:
    """Yield the way to everything that stands in data."""
    yield path
    inner = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for step, value in inner:
        yield from spots_in(value, *path, step)


ODD = (None, "", " ", "x", "7", 7, 7.5, 1e30, -1, "1e5", " 1 ", "1_000", "NaN", "-Infinity", "sNaN12", True, [], {}, [None], "open", "2026-02-30", "2026-11-28", "2026-11-28T10:00:00", "Bozeman\u0000")  # fmt: skip


def test_both_readers_read_the_same_and_refuse_the_same(some_quotes, dealer_quote) -> None:
    """What msgspec reads at once is what pydantic would have read, wherever something odd stands or is missing."""
    chance = random.Random(13)
    refused = 0
    reader = TypeAdapter(Quote)
    for quote in (some_quotes[0], some_quotes[4], dealer_quote("HV-1042", to="Bremen, Germany", currency="EUR")):
        whole = quote_to_json(quote)
        spots = list(spots_in(json.loads(whole)))[1:]
        for spot in chance.sample(spots, 60):
            data = json.loads(whole)
            part = data
            for step in spot[:-1]:
                part = part[step]
            if chance.random() < 0.2:
                del part[spot[-1]]
            else:
                part[spot[-1]] = chance.choice(ODD)
            odd = json.dumps(data)
            try:
                expected = reader.validate_json(odd)
            except ValidationError:
                refused += 1
                with pytest.raises(WrongInput):
                    quote_from_json(odd)
            else:
                assert repr(quote_from_json(odd)) == repr(expected), spot  # what is not a number equals nothing
    assert refused > 50  # else little would have been refused by either
