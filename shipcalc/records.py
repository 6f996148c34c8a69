"""`dataclass` for the classes of this program: written like the standard one, made as a `Struct` of msgspec.

The standard one writes and compiles six functions for every frozen class, forty times as long as a Struct takes, and its objects
are made ten times as slowly. A type checker sees the standard library, and what it says of a dataclass holds here, except that
all fields are given when an object is made, compared and shown (`field` knows only a default and `metadata`), that `asdict` goes
one level deep, and that what refuses to be changed raises AttributeError. What inherits from a record is decorated as well.
"""

from typing import TYPE_CHECKING, Any

__all__ = ["MISSING", "asdict", "dataclass", "field", "fields", "is_dataclass", "json_name", "put", "replace"]


def json_name(field: str) -> str:
    """Return a field's name in JSON, which says "from" where Python must say `from_`."""
    return field.rstrip("_")


if TYPE_CHECKING:
    from dataclasses import MISSING, asdict, dataclass, field, fields, is_dataclass, replace

    def put(record: object, name: str, value: object, /) -> None:
        """Fill a field of a frozen record, in its `__post_init__`."""
else:
    from functools import partial

    from msgspec import NODEFAULT as MISSING
    from msgspec import Struct, StructMeta
    from msgspec import field as _struct_field
    from msgspec.structs import asdict
    from msgspec.structs import force_setattr as put
    from msgspec.structs import replace as _replace

    class _Field(Struct, frozen=True):
        """What is said of a field in the body of its class, and what `fields` says of it."""

        name: str
        default: Any
        default_factory: Any
        metadata: Any

    class _RecordType(StructMeta):
        """The type of all records; it keeps the bases for `dataclass` where a class statement inherits from a record."""

        def __new__(cls, name, bases, body, /, **wishes):
            if not wishes:
                return type(name, (), body | {"__inherited__": bases})
            return super().__new__(cls, name, bases, body, rename=json_name, forbid_unknown_fields=True, **wishes)

    def _for_pydantic(cls, source, handler):
        """Return how pydantic reads a record: an object of JSON with the names of its fields, and no others."""
        from typing import get_type_hints

        from pydantic_core import core_schema

        types = get_type_hints(cls)
        read = {
            one.name: core_schema.typed_dict_field(
                handler.generate_schema(types[one.name]),
                required=one.default is MISSING and one.default_factory is MISSING,
                validation_alias=json_name(one.name),
            )
            for one in fields(cls)
        }
        parts = core_schema.typed_dict_schema(read, extra_behavior="forbid")
        return core_schema.no_info_after_validator_function(lambda told: cls(**told), parts)

    _SHARED = {"__get_pydantic_core_schema__": classmethod(_for_pydantic)}
    _RECORD = _RecordType("Record", (Struct,), _SHARED, frozen=True)
    _CHANGING = _RecordType("ChangingRecord", (Struct,), {}, frozen=False)

    def field(*, default=MISSING, default_factory=MISSING, metadata=None):
        """Return what is said of a field."""
        return _Field("", default, default_factory, metadata or {})

    def dataclass(cls=None, /, *, frozen=False, eq=True, order=False, slots=False, kw_only=False):
        """Return the class as a record."""
        if cls is None:
            return partial(dataclass, frozen=frozen, eq=eq, order=order, slots=slots, kw_only=kw_only)
        body = {name: value for name, value in vars(cls).items() if name not in ("__dict__", "__weakref__")}
        own = tuple(base for base in cls.__bases__ if base is not object)
        bases = body.pop("__inherited__", None) or (_RECORD if frozen else _CHANGING, *own)
        said = {name: value for name, value in body.items() if value.__class__ is _Field}
        body |= {
            name: _struct_field(default=one.default, default_factory=one.default_factory) for name, one in said.items()
        }
        body |= {"__qualname__": cls.__qualname__, "__said__": said}
        wishes = {"frozen": frozen, "eq": eq, "order": order, "kw_only": kw_only, "dict": not slots}
        return _RecordType(cls.__name__, bases, body, **wishes)

    def replace(record, /, **changes):
        """Return the record with other values in some fields."""
        try:
            return _replace(record, **changes)
        except AttributeError:  # a field that is made when it is asked for
            return record.__class__(**{name: getattr(record, name) for name in record.__struct_fields__} | changes)

    def fields(record):
        """Return the fields of a record, or of a class of records."""
        kind = record if isinstance(record, type) else type(record)
        said = {name: one for base in reversed(kind.__mro__) for name, one in vars(base).get("__said__", {}).items()}
        given = kind.__struct_defaults__
        given = (MISSING,) * (len(kind.__struct_fields__) - len(given)) + given
        return tuple(
            _replace(said.get(name) or field(default=default), name=name)
            for name, default in zip(kind.__struct_fields__, given, strict=True)
        )

    def is_dataclass(record):
        """Return whether something is a record or a class of records."""
        return isinstance(record, (Struct, StructMeta))
