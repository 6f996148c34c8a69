"""Whatever is asked of the interface is answered as its description says: a documented status, JSON, and never a mistake of the program.

The requests are made from the description itself (OpenAPI 3.1) by schemathesis, an independent reader of it; in half of them
some fields are things that people type, so that what lies behind the reading is reached too. Without a number a small sample is
run, always the same; `CALLS=2000 pytest tests/desk/test_any_request.py` asks so often.
"""

import os
import sys
from collections import Counter
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from fastapi.testclient import TestClient
from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from shipcalc.actions.sources import find_sources
from shipcalc.desk.app import make_desk
from shipcalc.register.opening import url_of_file

ROOT = Path(__file__).parents[2]
HERE = "http://127.0.0.1:8720"
CALLS = int(os.environ.get("CALLS", "0"))
TYPED: dict[str, tuple[Any, ...]] = {
    "vehicles": (
        ["HV-1042"],
        ["1027"],
        ["HV-1042, HV-1027"],
        ["1961 roadster, 153 in x 60 in x 49 in, 2030 lb, $38,000"],
    ),
    "to": (
        "59715",
        "Bozeman, MT",
        "Bremen, Germany",
        "98250",
        "Toronto",
        "Portland",
        "Maui",
        "48.2, 16.4",
        "Tehran",
        "1,1",
    ),
    "from": ("", "Savannah, GA", "Bremen, Germany"),
    "ready": ("", "2027-02-28", "dec 15", "christmas", "3/4", "9999-12-31", "0001-01-01"),
    "by": ("", "2027-12-24", "tomorrow", "9999-12-31"),
    "as_of": ("", "2026-12-01", "2024-02-29", "2030-01-01", "9999-12-31", "0001-01-01"),
    "keep_until": ("", "2027-04-01", "9999-12-31"),
    "sailing": ("", "2027-01-09"),
    "trailer": ("", "open", "enclosed"),
    "ocean": ("", "roro", "container"),
    "term": ("", "EXW", "DDP", "cif"),
    "cover": ("", "A", "C"),
    "insure_for": ("", "90000", "1e400", "-5", "0.001"),
    "currency": ("", "EUR", "JPY", "KWD", "XXX"),
    "spot": ([], ["Tern Haulage, 1,250, until friday"], ["x, 99999999999999999999"]),
    "released_by": ("", "Ida"),
    "buyer_is": ("", "dealer"),
    "buyer": ("", "Perpetua\r\nLindqvist", "=1+1", "x" * 500),
    "text": ("", "59715", "minow", "Portland", "\x00", "%00"),
    "number": ("1", "Q-2026-0001", "Q-2026-9999", "-1", "99999999999999999999"),
    "vehicle": (["HV-1042"], ["HV-1042", "1027"], [""]),
}
TYPED["to_kind"] = ("states",)


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SHIPCALC_REGISTER", url_of_file(tmp_path_factory.mktemp("kept") / "register.sqlite"))
        made = make_desk(
            lambda day: find_sources(folder=ROOT, as_of=day),
            today=lambda: date(2026, 12, 1),
            now=lambda: "2026-12-01T16:20:05Z",
        )
        with TestClient(made, base_url=HERE, raise_server_exceptions=False) as client:
            yield client


def like_people(draw: Any, told: Any) -> Any:
    """Return an object in which some of the fields are what people type."""
    if not isinstance(told, dict):
        return told
    for name in draw(st.lists(st.sampled_from(sorted(TYPED)), unique=True, max_size=6)):
        if name in told or draw(st.booleans()):
            told[name] = draw(st.sampled_from(TYPED[name]))
    return told


def request_of(draw: Any, case: Any) -> dict[str, Any]:
    """Return a request: as the description has it, or with things that people type in it."""
    if draw(st.booleans()):
        if case.method == "POST":
            told = {"vehicles": TYPED["vehicles"][0], "to": draw(st.sampled_from(TYPED["to"]))}
            case.body = like_people(draw, told)
            for foreign in set(case.body) & {"text", "number", "vehicle", "to_kind"}:
                del case.body[foreign]
        elif "{number}" in case.path:
            case.path_parameters = {"number": draw(st.sampled_from(TYPED["number"]))}
        elif "lanes" in case.path:
            case.query = {"to": "states", "vehicle": draw(st.sampled_from(TYPED["vehicle"]))}
        elif "health" not in case.path:
            case.query = {"text": draw(st.sampled_from(TYPED["text"] + TYPED["to"]))}
    sent = case.as_transport_kwargs(base_url=HERE)
    return {name: value for name, value in sent.items() if value is not None and name != "cookies"}


def check(answer: Any, sent: dict[str, Any], documented: set[str]) -> None:
    """Hold an answer to the description and to RFC 9457."""
    assert str(int(answer.status_code)) in documented, (sent, answer.status_code, answer.text[:400])
    if answer.status_code >= 400:
        assert answer.headers["content-type"] == "application/problem+json"
        assert answer.json()["detail"]
        assert "‹" not in answer.json()["detail"]
    elif answer.status_code != 304:
        assert answer.headers["content-type"] == "application/json"


def ask_often(desk: TestClient, operation: Any, documented: set[str], times: int) -> Counter[int]:
    """Ask for an operation so often, and return how often there was which status."""
    told: Counter[int] = Counter()

    @seed(20261201)
    @settings(
        max_examples=times,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(case=operation.as_strategy(), data=st.data())
    def asked(case: Any, data: Any) -> None:
        sent = request_of(data.draw, case)
        answer = desk.request(**sent)
        told[int(answer.status_code)] += 1
        check(answer, sent, documented)

    asked()
    return told


def test_no_request_is_a_mistake_of_the_program(desk: TestClient) -> None:
    description = desk.get("/api/openapi.json").json()
    operations = [found.ok() for found in schemathesis.openapi.from_dict(description).get_all_operations()]
    told: Counter[int] = Counter()
    for operation in operations:
        documented = set(description["paths"][operation.path][operation.method]["responses"])
        told += ask_often(desk, operation, documented, CALLS // len(operations) or 12)
    if CALLS:
        sys.stdout.write(f"{dict(told)}\n")
    assert told[200] + told[201] > sum(told.values()) // 10
