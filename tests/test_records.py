"""Records are dataclasses in all but what they cost: each kind here is made in both ways and asked the same."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from collections.abc import Callable
from dataclasses import FrozenInstanceError, field, fields, is_dataclass, replace
from typing import Any, Generic, TypeVar

import pytest

from booklet.kit.records import frozen, slotted

T = TypeVar("T")


def both(kind: type, ours: Callable[[Any], Any], **options: bool) -> tuple[Any, Any]:
    """A kind as we make it, and as a dataclass."""
    theirs = dataclasses.dataclass(**{"slots": True, **options})
    return ours(kind), theirs(type(kind.__name__, kind.__bases__, dict(vars(kind))))


class Plain:
    """Two values, one of them given by default."""

    wide: int
    long: float = 2.5


class Rich:
    """Every kind of field."""

    name: str
    seen: int = field(default=0, compare=False)
    hidden: str = field(default="h", repr=False)
    parts: list[int] = field(default_factory=list)
    last: int = field(default=9, kw_only=True)
    twice: str = field(init=False, compare=False, default="")

    def __post_init__(self) -> None:
        object.__setattr__(self, "twice", self.name * 2)


def test_values_are_told_apart_and_shown_as_those_of_a_dataclass():
    mine, theirs = both(Plain, frozen, frozen=True)
    for values in ((1,), (1, 3.0), (2, 2.5)):
        one, other = mine(*values), theirs(*values)
        assert repr(one) == repr(other)
        assert hash(one) == hash(other)
        assert one == mine(*values) and one != mine(7) and one != other
    assert mine(1) == mine(wide=1, long=2.5)
    assert repr(mine(1)) == "Plain(wide=1, long=2.5)"


def test_every_kind_of_field_is_as_in_a_dataclass():
    mine, theirs = both(Rich, frozen, frozen=True)
    one, other = mine("a", 3, last=4), theirs("a", 3, last=4)
    assert repr(one) == repr(other) == "Rich(name='a', seen=3, parts=[], last=4, twice='aa')"
    assert one == mine("a", 5, last=4)  # `seen` is not compared
    assert one != mine("a", 3, last=5)
    assert mine("a").parts is not mine("a").parts
    for kind in (mine, theirs):
        with pytest.raises(
            TypeError, match=r"__init__\(\) missing 1 required positional argument: 'name'"
        ):
            kind()
        with pytest.raises(TypeError, match="unexpected keyword argument 'twice'"):
            kind("a", twice="b")
    told = [(f.name, f.default, f.init, f.repr, f.compare, f.kw_only) for f in fields(mine)]
    assert told == [
        (f.name, f.default, f.init, f.repr, f.compare, f.kw_only) for f in fields(theirs)
    ]


def test_the_functions_of_dataclasses_take_records_for_their_own():
    mine, _ = both(Plain, frozen, frozen=True)
    assert is_dataclass(mine) and is_dataclass(mine(1))
    assert replace(mine(1), long=7.0) == mine(1, 7.0)
    assert dataclasses.asdict(mine(1)) == {"wide": 1, "long": 2.5}
    with pytest.raises(TypeError):
        replace(mine(1), high=3)


def test_frozen_records_stay_as_they_are():
    mine, _ = both(Plain, frozen, frozen=True)
    for change in (
        lambda r: setattr(r, "wide", 2),
        lambda r: delattr(r, "wide"),
        lambda r: setattr(r, "new", 2),
    ):
        with pytest.raises(FrozenInstanceError):
            change(mine(1))
    assert not hasattr(mine(1), "__dict__")


def test_slotted_records_change_and_have_no_hash():
    mine, _ = both(Plain, slotted)
    one = mine(1)
    one.wide = 4
    assert one == mine(4)
    with pytest.raises(TypeError):
        hash(one)
    with pytest.raises(AttributeError):
        one.new = 1


def test_ordered_records_follow_their_fields():
    mine = frozen(order=True)(Plain)
    assert sorted([mine(2, 1.0), mine(1, 3.0), mine(1, 2.0)]) == [
        mine(1, 2.0),
        mine(1, 3.0),
        mine(2, 1.0),
    ]
    assert mine(1) <= mine(1) < mine(2) and mine(3) > mine(2) >= mine(2)


def test_methods_of_its_own_are_kept():
    @frozen
    class Own:
        """By its size only."""

        size: int
        name: str

        def __eq__(self, other: object) -> bool:
            return isinstance(other, Own) and self.size == other.size

        def __repr__(self) -> str:
            return f"<{self.name}>"

    assert Own(1, "a") == Own(1, "b") and repr(Own(1, "a")) == "<a>"
    assert hash(Own(1, "a")) == hash((1, "a"))  # as a dataclass does


@frozen(kw_only=True)
class Base(Generic[T]):
    """What grows."""

    one: T


@frozen(kw_only=True)
class Grown(Base[int]):
    """It, and one field more."""

    two: int = 2


def test_a_record_grows_from_another():
    made = Grown(one=1)
    assert [f.name for f in fields(Grown)] == ["one", "two"]
    assert Grown.__slots__ == ("two",)
    assert repr(made) == "Grown(one=1, two=2)" and made == Grown(one=1, two=2) != Base(one=1)
    with pytest.raises(TypeError):
        Grown(1)


def test_records_are_copied():
    made = Grown(one=1, two=5)
    assert copy.copy(made) == copy.deepcopy(made) == pickle.loads(pickle.dumps(made)) == made


def test_a_record_made_past_its_beginning_is_whole():
    """Made anew by `made_of`, or out of a pickle, before any was made in the usual way."""

    @frozen
    class Late:
        """Nothing of it was made yet."""

        one: int
        two: int

    from booklet.kit.records import made_of

    made = made_of(Late, (1, 2))
    assert repr(made).endswith("Late(one=1, two=2)") and made == Late(1, 2)
