"""Made-up mails against what a careful person takes from each of them (`tests/ratebook/mails`): nothing is taken wrong unseen."""

import json
import re
from decimal import Decimal
from pathlib import Path

import pytest

from shipcalc.places.gazetteer.find import find_place
from shipcalc.places.sea.ports import find_port
from shipcalc.ratebook.taking.answers import Answers
from shipcalc.ratebook.taking.around import Known
from shipcalc.ratebook.taking.page import read_mail
from shipcalc.ratebook.taking.understanding import understand

MAILS = Path(__file__).parents[1] / "mails"
TRUTHS = sorted(MAILS.glob("*.truth.json"))
MOST_QUESTIONS = 2
TARGETS = {"Ocean quotes": "Ocean quotations"}
PER = {"W/M": "revenue ton", "container 40": "container", "document": "shipment", "vehicle and day": "vehicle a day"}
BASES = {"container 20": "per 20′", "container 40": "per 40′", "container 40HC": "per 40′HC"}
ANSWERS = {"fuel": "not included", "which": "the dearest", "columns.BAF": "percent of the freight"}


def taken(truth):
    told = json.loads(truth.read_text(encoding="utf-8"))
    mail = read_mail(MAILS / told["mail"])
    carrier = told["sender"].get("carrier") or told["sender"].get("forwarder") or told["sender"].get("agent")
    asked = []
    answers = Answers()
    while True:
        understood = understand(mail, answers, Known(), carrier=carrier)
        if not understood.questions:
            return told, understood, asked
        question = understood.questions[0]
        asked.append(question)
        assert len(asked) <= MOST_QUESTIONS, [one.text for one in asked]
        answers = answers.with_answer(question.key, ANSWERS[question.key])


def all_ids(path):
    return path.name.split("_")[0]


def same_place(said, end):
    kind, _, text = said.partition(":")
    if kind == "port":
        return end.text == text or find_port(end.text).name == find_place(text).place.name
    if kind == "city":
        return find_place(end.text).place == find_place(text).place
    return end.text == text


def same_codes(told, zone, end):
    """Whether beginnings of postal codes are those of all codes of a zone: each number of four or two figures is tried."""
    (said,) = [one["values"] for one in told["take"] if one["target"] == "Zones" and one["values"]["zone"] == zone]
    spans = [part.split("-") for part in said["place"].removeprefix("zip:").split(",")]
    figures = len(spans[0][0])
    within = {f"{n:0{figures}}" for span in spans for n in range(int(span[0]), int(span[-1]) + 1)}
    begun = {code for n in range(10**figures) if (code := f"{n:0{figures}}").startswith(tuple(end.text.split("; ")))}
    return begun == within and f"country:{end.country}" == said["country"]


def number(value):
    return Decimal(str(value))


def at(where):
    sheet, _, cell = where.rpartition("!")
    return sheet, cell, int(re.sub(r"\D", "", cell))


def truth_of(rate, told):
    sheet, cell, row = at(rate.where)
    for one in (one for one in told["take"] if one["target"] != "Zones"):
        source = one["source"]
        if source["sheet"] in ("", sheet) and source["row"] == row and source.get("cell", cell) == cell:
            return one
    return None


@pytest.mark.parametrize("truth", TRUTHS, ids=all_ids)
def test_each_price_that_is_taken_is_what_a_careful_person_takes(truth):
    told, understood, _ = taken(truth)

    named = {at(item.where)[::2] for item in understood.left_out}
    for rate in understood.rates:
        one = truth_of(rate, told)
        assert one is not None or at(rate.where)[::2] in named, rate
        if one is None:  # a surcharge, or a cell that is named with the price
            continue
        values = one["values"]
        assert TARGETS.get(one["target"], one["target"]) == rate.target
        said = {"flat": rate.flat, "amount": rate.flat, "per_mile": rate.per_mile, "minimum": rate.minimum}
        said["percent"] = rate.percent
        for field, value in said.items():
            if field in values:
                assert number(values[field]) == value, (rate, field)
        assert values.get("trailer", rate.trailer) == rate.trailer
        assert values["currency"] == rate.currency
        assert same_place(values.get("from") or values.get("from_port") or values["port"], rate.start)
        if "zone" in values:
            assert same_codes(told, values["zone"].removeprefix("zone:"), rate.end)
        elif one["target"] == "Port charges":
            assert PER.get(values["basis"], values["basis"]) == rate.basis
            assert values["label"] == rate.label
            if "from_day" in values:  # the sheet counts its days after the free ones
                assert values["from_day"] == values["free_days"] + (rate.from_day or 1)
        else:
            assert same_place(values.get("to") or values["to_port"], rate.end)
        for field in ("valid_from", "valid_to"):
            day = getattr(rate, field)
            assert values.get(field) == (day.isoformat() if day else None), (rate, field)
        if "fuel_included" in values:
            assert values["fuel_included"] == rate.fuel_included, rate
        if rate.target == "Ocean quotations":
            assert BASES.get(values["basis"], values["basis"]) == rate.basis
            assert values.get("label", rate.label) == rate.label
            assert rate.mode == values["mode"] or (values["mode"], rate.mode) == ("container", "shared container")
            assert values.get("free_days", rate.free_days) == rate.free_days
        assert values.get("reference", values.get("quotation", rate.reference)) == rate.reference


@pytest.mark.parametrize("truth", TRUTHS, ids=all_ids)
def test_what_must_not_be_taken_is_not(truth):
    told, understood, _ = taken(truth)

    for one in told.get("refuse", []):
        for rate in understood.rates:
            sheet, _, row = at(rate.where)
            assert not (one["sheet"] in ("", sheet) and row in one["rows"]), rate


@pytest.mark.parametrize("truth", TRUTHS, ids=all_ids)
def test_what_no_column_takes_is_named(truth):
    told, understood, asked = taken(truth)

    seen = " ".join((*(f"{item.where} {item.why}" for item in understood.left_out), *(one.text for one in asked)))
    for one in told.get("name", []):
        row = re.sub(r"\D", "", one["cell"])
        if (told["mail"], one["cell"]) in READ_AND_NOT_NAMED:
            continue
        sheet = re.escape(one["sheet"]) if one["sheet"] else ""
        pattern = rf"{sheet}!?\b[A-Z]{{1,2}}{row}\b" if sheet else rf"\b[A-Z]{{1,2}}{row}\b"
        assert re.search(pattern, seen) or f"row {row}" in seen, one


# Days whose order is learnt from the mail itself are read, and shown above the table.
READ_AND_NOT_NAMED = {("m08_port_agents_tariff.xlsx", "A2")}
# How many of the prices of each mail are taken; surcharges on all freights are rows of their own. Of m10 the zone that is "the
# rest" is not.
TAKEN = {
    "m01": 11,
    "m02": 3,
    "m03": 21,
    "m04": 6,
    "m05": 29,
    "m06": 7,
    "m07": 4,
    "m08": 8,
    "m09": 5,
    "m10": 8,
    "m11": 10,
    "m12": 6,
}


@pytest.mark.parametrize("truth", TRUTHS, ids=all_ids)
def test_so_many_prices_are_taken(truth):
    _, understood, _ = taken(truth)

    assert len(understood.rates) == TAKEN[all_ids(truth)]
