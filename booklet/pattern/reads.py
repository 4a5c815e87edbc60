"""Floor 1: what a question reads of a pattern: the same records, all else left out.

What is left out cannot be read by mistake: to do so is an error, told at once (`Unread`). So an answer never depends on
anything but what its question was handed, and what it was not handed may change without a new answer.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, NoReturn, TypeVar

from booklet.kit.records import Record, field_names, replace
from booklet.pattern import Block, Fabric, Pattern, PressHabit, Quilt, Sewing, Size


class Unread(Record):
    """Stands where a value was left out."""

    def _read(self, *others: object) -> NoReturn:
        raise TypeError("a question reads what it was not handed")

    __str__ = __format__ = __bool__ = __len__ = __iter__ = __contains__ = __getitem__ = _read
    __lt__ = __add__ = __float__ = __getattr__ = _read


T = TypeVar("T")
UNREAD: Any = Unread()


def drawn(block: Block) -> Block:
    """A block as geometry reads it: nothing of its title and of how it is sewn."""
    return replace(block, title=UNREAD, steps=UNREAD, sew_span=UNREAD, dealt=UNREAD)


def sewn(block: Block) -> Block:
    """A block as sewing reads it, beside its tiling: its steps."""
    return replace(
        block,
        title=UNREAD,
        pieces=UNREAD,
        outline=UNREAD,
        outline_span=UNREAD,
        dealt=UNREAD,
        applied=UNREAD,
    )


def written(pattern: Pattern) -> Pattern:
    """A pattern as its quilts and cuts read it: the allowance, the units, the drawn blocks, whether all of it was read."""
    blocks = tuple(map(drawn, pattern.blocks))
    return _only(
        Pattern, units=pattern.units, allowance=pattern.allowance, blocks=blocks,
        complete=pattern.complete,
    )  # fmt: skip


def told(pattern: Pattern) -> Pattern:
    """A pattern as the words of its plan read it: language, units, allowance, the names of its blocks."""
    blocks = tuple(_only(Block, id=block.id, title=block.title) for block in pattern.blocks)
    return replace(
        written(pattern), language=pattern.language, address=pattern.address, blocks=blocks
    )


def filling(size: Size) -> Size:
    """A size as the filling of its rim reads it: its lattice, and the directions of its prints."""
    quilt = size.quilt and _only(
        Quilt, set=size.quilt.set, arrange=size.quilt.arrange, lattice=size.quilt.lattice,
        rim=size.quilt.rim, rim_wish=size.quilt.rim_wish, span=size.quilt.span,
    )  # fmt: skip
    return _only(
        Size, id=size.id, unit=size.unit, across=size.across, down=size.down, quilt=quilt,
        fabrics=prints(size.fabrics),
    )  # fmt: skip


def meeting(size: Size) -> Size:
    """A size as pressing reads it: which blocks meet, and the colours and directions of their cloth."""
    quilt = size.quilt and replace(
        size.quilt, borders=UNREAD, setting_fabric=UNREAD, binding=UNREAD, backing=UNREAD,
        batting=UNREAD, sleeve=UNREAD, envelope=UNREAD,
    )  # fmt: skip
    fabrics = {id: _coloured(fabric) for id, fabric in size.fabrics.items()}
    return replace(
        size, title=UNREAD, fabrics=MappingProxyType(fabrics), quilt=quilt,
        sewing=_only(Sewing, press=size.sewing.press), cutting=UNREAD, bed=UNREAD,
    )  # fmt: skip


def plain(size: Size) -> Size:
    """A size as its quilt and its cuts read it: nothing of titles, looks of cloth and sewing."""
    fabrics = {
        id: replace(fabric, name=UNREAD, colour=UNREAD, picture=UNREAD)
        for id, fabric in size.fabrics.items()
    }
    return replace(
        size,
        title=UNREAD,
        fabrics=MappingProxyType(fabrics),
        sewing=_only(
            Sewing, papers=size.sewing.papers, foundation=size.sewing.foundation,
            foundation_margin=size.sewing.foundation_margin,
        ),
    )  # fmt: skip


def uncoloured(size: Size) -> Size:
    """A size as its plan reads it: nothing of its title and of the looks of cloth."""
    fabrics = {id: replace(f, colour=UNREAD, picture=UNREAD) for id, f in size.fabrics.items()}
    return replace(size, title=UNREAD, fabrics=MappingProxyType(fabrics))


def worded(size: Size) -> Size:
    """A size as the words on a block read it: the names and directions of its prints, the kind of set, what is sewn
    over papers, how many layers are marked."""
    fabrics = {id: replace(_printed(f), name=f.name) for id, f in size.fabrics.items()}
    quilt = size.quilt and _only(Quilt, set=size.quilt.set)
    sewing = _only(
        Sewing,
        papers=size.sewing.papers,
        layers=size.sewing.layers,
        thread=size.sewing.thread,
        foundation=size.sewing.foundation,
    )
    return _only(Size, fabrics=MappingProxyType(fabrics), quilt=quilt, sewing=sewing)


def rules(sewing: Sewing) -> Sewing:
    """The rules of sewing as an order reads them: nothing of the pace and of what is marked in pictures."""
    fan = PressHabit.FAN if sewing.press is PressHabit.FAN else PressHabit.AUTO
    return replace(
        sewing, press=fan, pace=UNREAD, layers=UNREAD, foundation=UNREAD, foundation_margin=UNREAD
    )


def prints(fabrics: Mapping[str, Fabric]) -> Mapping[str, Fabric]:
    """Fabrics as an order reads them: the direction of their prints."""
    return MappingProxyType({id: _printed(fabric) for id, fabric in fabrics.items()})


def _printed(fabric: Fabric) -> Fabric:
    return _only(Fabric, id=fabric.id, direction=fabric.direction)


def _coloured(fabric: Fabric) -> Fabric:
    return replace(_printed(fabric), colour=fabric.colour)


def _only(kind: type[T], **read: Any) -> T:
    """A record of a kind of which only these fields are read."""
    return kind(**dict.fromkeys(field_names(kind), UNREAD) | read)
