"""Records behave as the standard library's frozen dataclasses do: each check asks both."""

import copy
import dataclasses
import inspect
import pickle
from typing import Any, Generic, TypeVar

import msgspec
import pytest

from shipcalc import records

MODULES = (records, dataclasses)
T = TypeVar("T")


def made_by(module: Any) -> Any:
    """Return one class with everything that the program's own classes use."""

    @module.dataclass(frozen=True, slots=True, kw_only=True)
    class Base:
        """Something that stands somewhere."""

        at: str = "nowhere"

    @module.dataclass(frozen=True, slots=True)
    class Parcel(Base):
        """Something that is sent."""

        to: str
        miles: int = 7
        stops: list[str] = module.field(default_factory=list)
        note: str = module.field(default="", metadata={"told": "the buyer"})

        @property
        def is_far(self) -> bool:
            return self.miles > 100

    return Parcel


@pytest.fixture(params=MODULES, ids=["records", "standard"])
def module(request: pytest.FixtureRequest) -> Any:
    return request.param


@pytest.fixture
def parcel(module: Any) -> Any:
    return made_by(module)


def test_defaults(parcel: Any) -> None:
    one = parcel("Bremen", 400, at="hall")
    assert (one.to, one.miles, one.stops, one.note, one.is_far, one.at) == ("Bremen", 400, [], "", True, "hall")
    assert parcel("Bremen").stops is not parcel("Bremen").stops
    assert (parcel("Bremen").miles, parcel("Bremen").at) == (7, "nowhere")


@pytest.mark.parametrize(
    ("places", "named"), [((), {}), (("a", 1, [], "", True), {}), (("a",), {"size": 1}), (("a",), {"to": "b"})]
)
def test_wrong_arguments(parcel: Any, places: tuple[Any, ...], named: dict[str, Any]) -> None:
    with pytest.raises(TypeError):
        parcel(*places, **named)


def test_equal_where_all_fields_are(parcel: Any) -> None:
    assert parcel("Bremen") == parcel("Bremen")
    assert parcel("Bremen") != parcel("Bremen", 8)
    assert parcel("Bremen") != ("nowhere", "Bremen", 7, [], "")


@pytest.mark.parametrize("module", MODULES)
def test_another_class_another_thing(module: Any) -> None:
    assert made_by(module)("Bremen") != made_by(module)("Bremen")


def test_hash_goes_by_the_fields(parcel: Any) -> None:
    assert hash(parcel("Bremen", 7, ())) == hash(parcel("Bremen", 7, ()))
    with pytest.raises(TypeError, match="unhashable"):
        hash(parcel("Bremen"))


def test_nothing_can_be_changed(parcel: Any) -> None:
    one = parcel("Bremen")
    for change in (lambda: setattr(one, "miles", 8), lambda: delattr(one, "miles"), lambda: setattr(one, "weight", 8)):
        with pytest.raises((AttributeError, TypeError)):
            change()
    assert one.miles == 7


def test_copies_and_pickles(module: Any, parcel: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    one = parcel("Bremen", 400, ["Hoya"])
    monkeypatch.setitem(globals(), "Parcel", parcel)
    parcel.__qualname__ = parcel.__name__ = "Parcel"
    for other in (copy.copy(one), copy.deepcopy(one), pickle.loads(pickle.dumps(one))):
        assert other == one
    assert module.replace(one, miles=8) == parcel("Bremen", 8, ["Hoya"])
    with pytest.raises(TypeError):
        module.replace(one, weight=8)
    assert module.asdict(one) == {"at": "nowhere", "to": "Bremen", "miles": 400, "stops": ["Hoya"], "note": ""}
    assert module.is_dataclass(one)
    assert module.is_dataclass(parcel)
    assert not module.is_dataclass("Bremen")


def test_both_look_alike() -> None:
    quick, standard = (made_by(module) for module in MODULES)
    assert repr(quick("Bremen")) == "Parcel(to='Bremen', miles=7, stops=[], note='', at='nowhere')"
    arguments = [
        [(one.name, one.kind) for one in inspect.signature(made).parameters.values()] for made in (quick, standard)
    ]
    assert arguments[0] == arguments[1]
    assert quick.__match_args__ == standard.__match_args__
    assert (quick.__module__, quick.__qualname__, quick.__doc__) == (__name__, standard.__qualname__, standard.__doc__)


def test_fields_are_told_of(module: Any, parcel: Any) -> None:
    told = {field.name: field for field in module.fields(parcel)}
    assert sorted(told) == ["at", "miles", "note", "stops", "to"]
    assert told["to"].default is told["stops"].default is module.MISSING
    assert (told["miles"].default, told["at"].default, told["note"].default) == (7, "nowhere", "")
    assert told["stops"].default_factory is list
    assert told["note"].metadata["told"] == "the buyer"
    assert not told["miles"].metadata
    assert [field.name for field in module.fields(parcel("Bremen"))] == list(told)


def test_own_methods_stay_and_identity_where_asked_for(module: Any) -> None:
    @module.dataclass(frozen=True, slots=True, eq=False)
    class Once:
        """Equal to itself alone."""

        name: str

        def __repr__(self) -> str:
            return "once"

    one, other = Once("a"), Once("a")
    assert one != other
    assert len({one, other}) == 2
    assert repr(one) == "once"


def test_without_slots_and_what_is_worked_out(module: Any) -> None:
    @module.dataclass(frozen=True, slots=True)
    class Sheet:
        """A sheet."""

        name: str

    @module.dataclass(frozen=True, kw_only=True)
    class Kept(Sheet):
        """A sheet that was kept."""

        days: int = 3

        def __post_init__(self) -> None:
            put = object.__setattr__ if module is dataclasses else records.put
            put(self, "days", self.days + 1)

    assert module.asdict(Kept(name="Fuel")) == {"name": "Fuel", "days": 4}
    assert copy.copy(Kept("Fuel", days=4)).name == "Fuel"
    Kept("Fuel").__dict__["remembered"] = 1


def test_what_may_change_has_no_hash(module: Any) -> None:
    @module.dataclass(slots=True)
    class Tally:
        """What is added up."""

        sum: int = 0

    one = Tally()
    one.sum += 5
    assert one == Tally(5)
    with pytest.raises(TypeError, match="unhashable"):
        hash(one)


def test_of_a_type_that_is_named_later(module: Any) -> None:
    @module.dataclass(frozen=True, slots=True)
    class Box(Generic[T]):
        """Something around something."""

        inside: T

    assert Box(5) == Box(5)
    assert Box[int].__origin__ is Box


def test_in_json_a_field_is_called_what_it_is_called() -> None:
    @records.dataclass(frozen=True, slots=True, kw_only=True)
    class Trip:
        """From somewhere to somewhere."""

        from_: str
        to: str

    trip = Trip(from_="Hoya", to="Bremen")
    assert msgspec.json.encode(trip) == b'{"from":"Hoya","to":"Bremen"}'
    assert msgspec.json.decode(msgspec.json.encode(trip), type=Trip) == trip
    with pytest.raises(msgspec.ValidationError, match="unknown field"):
        msgspec.json.decode(b'{"from":"Hoya","to":"Bremen","over":"Verden"}', type=Trip)
