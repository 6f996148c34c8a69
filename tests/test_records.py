"""Records behave as the standard library's frozen dataclasses do: each check asks both."""

import copy
import dataclasses
import inspect
import pickle
from collections.abc import Callable
from typing import Any

import pytest

from shipcalc import records

Decorator = Callable[..., Any]
DECORATORS: tuple[Decorator, Decorator] = (records.dataclass, dataclasses.dataclass)


def made_by(decorator: Decorator) -> Any:
    """Return one class with everything that the program's own classes use."""

    @decorator(frozen=True, slots=True, kw_only=True)
    class Base:
        """Something that stands somewhere."""

        at: str = "nowhere"

    @decorator(frozen=True, slots=True)
    class Parcel(Base):
        """Something that is sent."""

        to: str
        miles: int = 7
        stops: list[str] = dataclasses.field(default_factory=list)
        note: str = dataclasses.field(default="", compare=False, repr=False)
        far: bool = dataclasses.field(init=False)

        def __post_init__(self) -> None:
            object.__setattr__(self, "far", self.miles > 100)

    return Parcel


@pytest.fixture(params=DECORATORS, ids=["records", "standard"])
def parcel(request: pytest.FixtureRequest) -> Any:
    return made_by(request.param)


def test_defaults_and_what_is_worked_out(parcel: Any) -> None:
    one = parcel("Bremen", 400, at="hall")
    assert (one.to, one.miles, one.stops, one.note, one.far, one.at) == ("Bremen", 400, [], "", True, "hall")
    assert parcel("Bremen").stops is not parcel("Bremen").stops
    assert (parcel("Bremen").miles, parcel("Bremen").at) == (7, "nowhere")


@pytest.mark.parametrize(
    ("places", "named"), [((), {}), (("a", 1, [], "", True), {}), (("a",), {"size": 1}), (("a",), {"to": "b"})]
)
def test_wrong_arguments(parcel: Any, places: tuple[Any, ...], named: dict[str, Any]) -> None:
    with pytest.raises(TypeError):
        parcel(*places, **named)


def test_equal_where_what_is_compared_is(parcel: Any) -> None:
    assert parcel("Bremen", note="x") == parcel("Bremen", note="y")
    assert parcel("Bremen") != parcel("Bremen", 8)
    assert parcel("Bremen") != ("Bremen", 7, [], "")
    assert made_by(records.dataclass)("Bremen") != made_by(records.dataclass)("Bremen"), "another class, another thing"


def test_hash_goes_by_what_is_compared(parcel: Any) -> None:
    assert hash(parcel("Bremen", 7, (), "x")) == hash(parcel("Bremen", 7, (), "y"))
    with pytest.raises(TypeError, match="unhashable"):
        hash(parcel("Bremen"))


def test_nothing_can_be_changed(parcel: Any) -> None:
    one = parcel("Bremen")
    for change in (lambda: setattr(one, "miles", 8), lambda: delattr(one, "miles"), lambda: setattr(one, "weight", 8)):
        with pytest.raises((dataclasses.FrozenInstanceError, TypeError)):
            change()
    assert one.miles == 7


def test_copies_and_pickles(parcel: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    one = parcel("Bremen", 400, ["Hoya"])
    monkeypatch.setitem(globals(), "Parcel", parcel)
    parcel.__qualname__ = "Parcel"
    for other in (copy.copy(one), copy.deepcopy(one), pickle.loads(pickle.dumps(one))):
        assert other == one
        assert other.far
    assert dataclasses.replace(one, miles=8) == parcel("Bremen", 8, ["Hoya"])
    assert dataclasses.asdict(one) == {
        "at": "nowhere",
        "to": "Bremen",
        "miles": 400,
        "stops": ["Hoya"],
        "note": "",
        "far": True,
    }


def test_both_look_alike() -> None:
    quick, standard = (made_by(decorator) for decorator in DECORATORS)
    assert repr(quick("Bremen", note="x")) == repr(standard("Bremen", note="x"))
    arguments = [
        [(one.name, one.kind, one.annotation) for one in inspect.signature(made).parameters.values()]
        for made in (quick, standard)
    ]
    assert arguments[0] == arguments[1]
    assert quick.__match_args__ == standard.__match_args__
    assert quick.__slots__ == standard.__slots__
    assert [field.name for field in dataclasses.fields(quick)] == [field.name for field in dataclasses.fields(standard)]


@pytest.mark.parametrize("decorator", DECORATORS)
def test_own_methods_stay_and_identity_where_asked_for(decorator: Decorator) -> None:
    @decorator(frozen=True, slots=True, eq=False)
    class Once:
        """Equal to itself alone."""

        name: str

        def __repr__(self) -> str:
            return "once"

    one, other = Once("a"), Once("a")
    assert one != other
    assert len({one, other}) == 2
    assert repr(one) == "once"


@pytest.mark.parametrize("decorator", DECORATORS)
def test_without_slots_of_its_own(decorator: Decorator) -> None:
    @decorator(frozen=True, slots=True)
    class Sheet:
        """A sheet."""

        name: str

    @decorator(frozen=True, kw_only=True)
    class Kept(Sheet):
        """A sheet that was kept."""

        days: int = 3

    assert dataclasses.asdict(Kept(name="Fuel")) == {"name": "Fuel", "days": 3}
    assert dataclasses.asdict(Kept("Fuel", days=4)) == {"name": "Fuel", "days": 4}
    assert copy.copy(Kept("Fuel", days=4)) == Kept("Fuel", days=4)
    with pytest.raises(dataclasses.FrozenInstanceError):
        Kept("Fuel").days = 5
