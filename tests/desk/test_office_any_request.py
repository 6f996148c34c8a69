"""Whatever is sent to the office's pages, the answer is a page, a refusal with its sentence, and never a mistake of the program."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shipcalc.desk.app import make_desk
from shipcalc.register.opening import url_of_file
from tests.desk.conftest import AT, DAY
from tests.desk.test_office_page import CALGARY, HERE, sources_of

numbers = st.sampled_from((CALGARY, "13", "Q-2026-0011", "Q-2026-0099", "0", "-1", "Q-", "é", "9" * 30, "%2e%2e"))
texts = st.one_of(
    st.sampled_from(("", "1", "60", "x", "photographs", "balance", "\0", "=1+1", "a:b", "<b>", "🚚", "9" * 400)),
    st.text(max_size=12),
)
days = st.one_of(
    st.none(),
    st.sampled_from(("", "2026-12-01", "2026-11-20", "0001-01-01", "9999-12-31", "2026-02-30", "soon")),
    st.dates().map(lambda day: day.isoformat()),
)
counts = st.one_of(st.none(), st.integers(-(10**12), 10**12), st.sampled_from(("", "2", "x")))
stages = st.sampled_from(
    ("ready", "pickup", "port", "cut-off", "sailing", "arrival", "release", "delivery", "agreed", "", "x")
)


def told(**fields: st.SearchStrategy) -> st.SearchStrategy[dict]:
    return st.fixed_dictionaries({}, optional={**fields, "who": texts})


SENT = {
    "tick": told(line=texts, seen=counts, on=days, state=st.sampled_from(("done", "open", "not needed", "perhaps"))),
    "assign": told(line=texts, seen=counts, to=texts),
    "note": told(line=texts, seen=counts, text=texts),
    "due": told(line=texts, seen=counts, due=days),
    "move": told(stage=stages, to=days, days=counts, look=st.booleans(), seen=st.lists(texts, max_size=2)),
    "references": told(
        references=st.dictionaries(st.sampled_from(("booking", "container", "itn", "seal", "x", "")), texts, max_size=3)
    ),
    "news": told(
        pickup=days, arrival=days, sailing=days, delivery=days, container=texts, vessel=texts, look=st.booleans()
    ),
    "bills": told(carrier=texts, kind=texts, amount=texts, currency=texts, day=days, reference=texts),
    "bills/remove": told(bill=counts),
    "contacts": told(role=st.sampled_from(("buyer", "carrier", "x", "")), name=texts, known=st.booleans(), mail=texts),
}
DECIDED = {
    "accept": told(choice=counts, on=days, by=texts),
    "decline": told(why=texts, on=days, by=texts),
    "extend": told(until=days),
    "revise": told(),
}
ASKED = st.one_of(
    *(st.tuples(st.just("/office/{}/" + path), numbers, body) for path, body in SENT.items()),
    *(st.tuples(st.just("/office/quotes/{}/" + path), numbers, body) for path, body in DECIDED.items()),
)
READ = (
    "/office/{}",
    "/office/{}/parts",
    "/office/{}/booking",
    "/office/{}/papers/{}",
    "/office/{}/files/{}",
    "/office/quotes/{}",
)


@pytest.fixture(scope="module")
def client(filled: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    file = tmp_path_factory.mktemp("any") / "register.sqlite"
    shutil.copyfile(filled, file)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SHIPCALC_REGISTER", url_of_file(file))
        desk = make_desk(sources_of, today=lambda: DAY, now=lambda: AT)
        with TestClient(desk, base_url=HERE, raise_server_exceptions=False) as client:
            yield client


@given(asked=ASKED)
@settings(max_examples=120, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_whatever_is_sent_is_done_or_refused(client: TestClient, asked: tuple[str, str, dict]) -> None:
    path, number, body = asked
    answer = client.post(path.format(number), json=body)
    assert answer.status_code in (200, 404, 409, 422), (asked, answer.text)
    if answer.status_code != 200:
        assert answer.json()["detail"]


@given(path=st.sampled_from(READ), number=numbers, text=texts)
@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_whatever_is_asked_for_is_shown_or_refused(client: TestClient, path: str, number: str, text: str) -> None:
    from urllib.parse import quote

    address = path.format(number, quote(text, safe=""))
    assert client.get(address).status_code in (200, 404, 405, 409, 422), address
    day = client.get("/office/day", params={"text": text, "person": text, "stage": text, "more": text})
    assert day.status_code == (200 if len(text) <= 200 else 422), text
