"""The same request through the terminal and through the desk: the same JSON to the byte, and the same no.

`REQUESTS=200 pytest tests/desk/test_terminal_and_desk.py` asks so many of the requests of every kind in `tests/quote/kept_answers.py`.
"""

import os
import random
from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest
from fastapi.testclient import TestClient

from shipcalc.actions.quoting import Order
from shipcalc.cli.main import run
from shipcalc.desk.app import make_desk
from shipcalc.records import fields
from tests.desk.test_desk import AT, DAY, HERE, ROOT, sources_of
from tests.quote.kept_answers import fetched_or_kept, orders

REQUESTS = int(os.environ.get("REQUESTS", "25"))
SEED = 20261128
# Exit status of the terminal, status of the answer (RFC 9110): done, the answer is no, wrong input.
ALIKE = {0: 200, 1: 409, 2: 422}
OPTIONS = {"vehicles": "vehicle", "start": "from"}


@pytest.fixture(scope="module")
def desk() -> Iterator[TestClient]:
    app = make_desk(sources_of, today=lambda: DAY, now=lambda: AT)
    with TestClient(app, base_url=HERE) as client:
        yield client


def asked(order: Order) -> dict[str, Any]:
    """Return what of an order is asked, by the names of its fields."""
    own = {field.name: getattr(order, field.name) for field in fields(Order)}
    return {name: _typed(value) for name, value in own.items() if value}


def _typed(value: object) -> object:
    if isinstance(value, date):
        return value.isoformat()
    return list(value) if isinstance(value, tuple) else value


def typed(told: dict[str, Any]) -> list[str]:
    """Return the same as a command."""
    words: list[str] = []
    for name, value in told.items():
        option = f"--{OPTIONS.get(name, name).replace('_', '-')}"
        for one in value if isinstance(value, list) else [value]:
            words += [option] if one is True else [option, str(one)]
    return words


def test_the_same_request_gets_the_same_answer_on_both(desk: TestClient, capsys, monkeypatch) -> None:
    monkeypatch.chdir(ROOT)
    every = [*orders(), *fetched_or_kept()]
    chosen = random.Random(SEED).sample(every, min(REQUESTS, len(every)))
    answered = 0
    for order in chosen:
        told = asked(order)
        capsys.readouterr()
        status = run(["quote", *typed(told), "--as-of", DAY.isoformat(), "--json"])
        printed = capsys.readouterr().out.strip()
        body = {"from" if name == "start" else name: value for name, value in told.items()}
        answer = desk.post("/api/quote", json=body)
        assert answer.status_code == ALIKE[status], (told, answer.text)
        if status == 0:
            assert answer.text.strip() == printed, told
            answered += 1
    assert answered > len(chosen) / 2, "most requests have an answer, or this holds little"
