"""Floor 0: records: values with named fields, and how they grow from stage to stage.

`frozen` and `slotted` make a kind of them as `dataclass` with slots does, so that `fields`, `replace` and the rest of
`dataclasses` take it for their own. They differ in what they cost: there are hundreds of kinds, and to write out and
compile six methods for each would take a third of the time in which the program starts. Here all methods are closures,
but for `__init__`, of which one is compiled for all kinds with so many fields, when the first value is made.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
from functools import cache
from inspect import get_annotations
from operator import attrgetter, ge, gt, le, lt
from reprlib import recursive_repr
from types import CodeType, FunctionType
from typing import Any, TypeVar, cast, dataclass_transform, overload

T = TypeVar("T")
_Fields = dict[str, Field[Any]]

_FIELDS = "__dataclass_fields__"  # by these the functions of `dataclasses` know what they are given


@dataclass
class _Sample:
    """A dataclass with a field such as those of records."""

    one: object


_KIND = cast(
    "Any", fields(_Sample)[0]
)._field_type  # neither a field of the class nor one of `__init__` alone


@overload
@dataclass_transform(frozen_default=True, field_specifiers=(field, Field))
def frozen(kind: type[T], /) -> type[T]: ...


@overload
@dataclass_transform(frozen_default=True, field_specifiers=(field, Field))
def frozen(
    *, kw_only: bool = False, order: bool = False, eq: bool = True, repr: bool = True
) -> Callable[[type[T]], type[T]]: ...


def frozen(
    kind: type[T] | None = None,
    /,
    *,
    kw_only: bool = False,
    order: bool = False,
    eq: bool = True,
    repr: bool = True,
) -> type[T] | Callable[[type[T]], type[T]]:
    """A class as a kind of frozen records with slots. `kw_only`, `order`, `eq` and `repr` mean what they mean to
    `dataclass`, and `field` says the same of a field; there are no `ClassVar` and no `InitVar`."""

    def made(kind: type[T]) -> type[T]:
        return _made(kind, True, kw_only, order, eq, repr)

    return made if kind is None else made(kind)


@overload
@dataclass_transform(field_specifiers=(field, Field))
def slotted(kind: type[T], /) -> type[T]: ...


@overload
@dataclass_transform(field_specifiers=(field, Field))
def slotted(*, kw_only: bool = False) -> Callable[[type[T]], type[T]]: ...


def slotted(
    kind: type[T] | None = None, /, *, kw_only: bool = False
) -> type[T] | Callable[[type[T]], type[T]]:
    """A class as a kind of records with slots that may be set anew."""

    def made(kind: type[T]) -> type[T]:
        return _made(kind, False, kw_only)

    return made if kind is None else made(kind)


def _made(
    kind: type[T],
    frozen: bool,
    kw_only: bool,
    order: bool = False,
    eq: bool = True,
    shown: bool = True,
) -> type[T]:
    """The kind, made anew with slots and methods; those that it has itself are kept."""
    own = {name: _field(kind, name, said, kw_only) for name, said in get_annotations(kind).items()}
    known = _inherited(kind)
    members = {name: value for name, value in vars(kind).items() if name not in own}
    members.pop("__dict__", None)
    members.pop("__weakref__", None)
    if members.get("__hash__", MISSING) is None:
        del members["__hash__"]  # put there by Python beside an `__eq__`
    whole = {
        **_methods({**known, **own}, frozen=frozen, order=order, eq=eq, shown=shown),
        **members,
        "__slots__": tuple(name for name in own if name not in known),
        _FIELDS: {**known, **own},
    }
    new = cast("Any", type(kind))(kind.__name__, kind.__bases__, whole)
    new.__qualname__ = kind.__qualname__
    if "__init__" not in members:
        new.__init__ = _init_to_be(new)
    return cast("type[T]", new)


def _inherited(kind: type) -> _Fields:
    """The fields of the records of which a kind is one."""
    found: _Fields = {}
    for base in reversed(kind.__mro__[1:]):
        found.update(vars(base).get(_FIELDS, {}))
    return found


def _field(kind: type, name: str, said: Any, kw_only: bool) -> Field[Any]:
    """A field as it is declared: by `field`, by its default, or by nothing."""
    default = vars(kind).get(name, MISSING)
    made: Any = default if isinstance(default, Field) else field(default=default)
    made.name, made.type = name, said
    made._field_type = _KIND
    if made.kw_only is MISSING:
        made.kw_only = kw_only
    return cast("Field[Any]", made)


def _methods(
    own: _Fields, *, frozen: bool, order: bool, eq: bool, shown: bool
) -> dict[str, Callable[..., Any] | None]:
    """The methods of a kind, but for `__init__`."""
    compared = attributes(tuple(name for name, each in own.items() if each.compare))
    methods: dict[str, Callable[..., Any] | None] = {}
    if eq:
        methods["__eq__"] = _equal(compared)
        methods["__hash__"] = (lambda self: hash(compared(self))) if frozen else None
    if frozen:
        methods |= {"__setattr__": _refused, "__delattr__": _not_deleted}
        methods |= {"__getstate__": parts_of, "__setstate__": _set_state}
    if order:
        methods |= {f"__{by.__name__}__": _compared(compared, by) for by in (lt, le, gt, ge)}
    if shown:
        methods["__repr__"] = _shown
    return methods


_Read = Callable[[Any], tuple[Any, ...]]


def _equal(compared: _Read) -> Callable[[Any, Any], bool]:
    def __eq__(self: Any, other: Any) -> bool:
        if other.__class__ is self.__class__:
            return compared(self) == compared(other)
        return NotImplemented

    return __eq__


def _compared(compared: _Read, by: Callable[[Any, Any], bool]) -> Callable[[Any, Any], bool]:
    def method(self: Any, other: Any) -> bool:
        if other.__class__ is self.__class__:
            return bool(by(compared(self), compared(other)))
        return NotImplemented  # type: ignore[no-any-return]

    return method


@recursive_repr()
def _shown(self: Any) -> str:
    said = ", ".join(
        f"{each.name}={getattr(self, each.name)!r}" for each in fields(self) if each.repr
    )
    return f"{self.__class__.__qualname__}({said})"


def _refused(self: object, name: str, value: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _not_deleted(self: object, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")


def _set_state(self: object, state: Sequence[object]) -> None:
    for name, value in zip(_fields(cast("Any", type(self)))[0], state, strict=True):
        object.__setattr__(self, name, value)


def _init_to_be(kind: Any) -> Callable[..., None]:
    """The `__init__` that a kind has until the first of its values is made: it makes the right one and calls it."""

    def __init__(self: Any, *values: object, **named: object) -> None:
        kind.__init__ = _init(kind)
        kind.__init__(self, *values, **named)

    return __init__


def _init(kind: Any) -> Callable[..., None]:
    """The `__init__` of a kind: what is compiled for all kinds with so many fields, with the names of these."""
    own: Sequence[Field[Any]] = fields(kind)
    placed = [each for each in own if each.init and not each.kw_only]
    named = [each for each in own if each.init and each.kw_only]
    fixed = [each for each in own if not each.init and _default(each) is not MISSING]
    given = (*placed, *named)
    has_more = hasattr(kind, "__post_init__")
    code = _compiled(tuple(map(_is_made, given)), tuple(map(_is_made, fixed)), has_more).replace(
        co_argcount=1 + len(placed),
        co_kwonlyargcount=len(named),
        co_varnames=("self", *(each.name for each in given)),
        co_qualname=f"{kind.__qualname__}.__init__",
    )
    known: dict[str, Any] = {"LEFT_OUT": _LEFT_OUT}
    for n, each in enumerate((*given, *fixed)):
        known[f"set{n}"] = getattr(kind, each.name).__set__
        known[f"make{n}"], known[f"is{n}"] = each.default_factory, each.default
    made = FunctionType(code, known)
    made.__defaults__ = tuple(d for each in placed if (d := _default(each)) is not MISSING)
    made.__kwdefaults__ = {e.name: d for e in named if (d := _default(e)) is not MISSING}
    return made


_LEFT_OUT: Any = object()  # where a value is made when none is given


def _is_made(each: Field[Any]) -> bool:
    return each.default_factory is not MISSING


def _default(each: Field[Any]) -> Any:
    """What a field is where nothing is given for it, MISSING where something must be."""
    return _LEFT_OUT if _is_made(each) else each.default


@cache
def _compiled(given: tuple[bool, ...], fixed: tuple[bool, ...], has_more: bool) -> CodeType:
    """An `__init__` for so many fields, and so many that are never given; for each tells whether it is made anew by
    default. Each is set through its slot, which takes two thirds of the time of `object.__setattr__`."""
    lines = [
        f"set{n}(self, make{n}() if a{n} is LEFT_OUT else a{n})" if made else f"set{n}(self, a{n})"
        for n, made in enumerate(given)
    ]
    lines += [
        f"set{n}(self, make{n}())" if made else f"set{n}(self, is{n})"
        for n, made in enumerate(fixed, len(given))
    ]
    lines += ["self.__post_init__()"] * has_more
    head = ", ".join(["self", *(f"a{n}" for n in range(len(given)))])
    found: dict[str, Any] = {}
    exec(f"def __init__({head}):\n " + "\n ".join(lines or ["pass"]), found)
    code: CodeType = found["__init__"].__code__
    return code


def grown(kind: type[T], record: Any, **more: object) -> T:
    """A record of a kind that has the fields of `record`, and `more`."""
    kept = {field.name: getattr(record, field.name) for field in fields(record) if field.init}
    return kind(**{**kept, **more})


def parts_of(record: Any) -> tuple[Any, ...]:
    """The values of all fields of a record."""
    kind: Any = type(record)
    return _fields(kind)[1](record)


def made_of(kind: type[T], parts: Sequence[Any]) -> T:
    """A record made of the values of all its fields, also of those that it works out itself."""
    made, known = object.__new__(kind), cast("Any", kind)
    for name, part in zip(_fields(known)[0], parts, strict=True):
        object.__setattr__(made, name, part)
    return made


@cache
def _fields(kind: Any) -> tuple[tuple[str, ...], Callable[[Any], tuple[Any, ...]]]:
    names = tuple(field.name for field in fields(kind))
    return names, attributes(names)


def attributes(names: tuple[str, ...]) -> Callable[[Any], tuple[Any, ...]]:
    """What reads some attributes of a value."""
    if len(names) < 2:  # a getter of one gives no tuple
        return lambda value: tuple(getattr(value, name) for name in names)
    return attrgetter(*names)
