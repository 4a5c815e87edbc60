"""Floor 2: `colourways` and `layouts`: the pattern in other cloths, and its blocks set otherwise.

An alternative says only what differs. Its keys are laid over those of the pattern and of each size, and the sizes are read
again: all that holds for a size holds for it. A colourway says nothing but cloths and a layout none, so that both together
are the sizes of the layout in the cloths of the colourway.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence

from booklet.kit.bounds import MOST_ALTERNATIVES, MOST_SIZES
from booklet.kit.diagnostic import Span
from booklet.kit.records import replace
from booklet.pattern import (
    BETWEEN,
    SINGLE_KINDS,
    Alternative,
    AlternativeKind,
    OwnPicture,
    Size,
    taken_together,
)
from booklet.source.sizes.fabrics import COLOUR, MIX, PICTURE
from booklet.source.sizes.size_keys import BLOCKS, FABRICS, QUILT, Common, read_sizes
from booklet.source.tree.node import Map, Node, Text, merged
from booklet.source.values.fields import Fields, Key, Table, open_fields
from booklet.source.values.groups import group, named
from booklet.source.values.kinds import Reading, text, yes_no
from booklet.source.values.names import file_part, named_entries
from booklet.source.values.own_pictures import COVER_BOX, PICTURE_TEXT, own_picture
from booklet.source.values.wordings import wording

TITLE = Key("title", wording("a title", longest=80), "What the booklet calls it.")
COVER_PICTURE = Key(
    "picture",
    text("the name of a picture", longest=200),
    "A photograph (PNG or JPEG) or a drawing (SVG) in the folder, on its cover in place of the quilt as it is drawn.",
)
CLOTHS = Key(
    "fabrics",
    named("fabric", "fabric", may_be_empty=True),
    "Keys of `fabrics` that this colourway has of its own. A cloth of another colour has no `picture` of the pattern's.",
)
COMPLETE = Key(
    "complete",
    yes_no(),
    "Whether it names every fabric, so that you are told of one that is left out.",
    default="no",
)
COLOURWAY = Table(
    "colourway",
    "The pattern in other cloths.",
    (TITLE, CLOTHS, COMPLETE, COVER_PICTURE, PICTURE_TEXT),
)
ITS_QUILT = Key("quilt", group("quilt"), "Keys of `quilt` that this layout has of its own.")
ITS_BLOCKS = replace(BLOCKS, doc="Blocks across x down in this layout; as in the size if left out.")
OF_SIZE = Table("setting", "A size in another layout.", (ITS_BLOCKS, ITS_QUILT))
ITS_SIZES = Key(
    "sizes",
    named("setting", "size"),
    "What sizes have of their own in this layout: other blocks across x down, other keys of `quilt`.",
)
LAYOUT = Table(
    "layout",
    "The same blocks set otherwise.",
    (TITLE, ITS_QUILT, ITS_SIZES, COVER_PICTURE, PICTURE_TEXT),
)

Written = dict[AlternativeKind, Map | None]
Sized = Callable[[Common, Map | None], tuple[Size, ...]]


def read_alternatives(
    written: Written,
    sizes: Map | None,
    common: Common,
    sound: Callable[[Size], Size],
    reading: Reading,
) -> tuple[Alternative, ...]:
    """The colourways and layouts in order, of each kind the pattern as it is first; none of a kind that is not written.
    `sound` makes a size such as later floors rely on."""
    _refuse_same_names(written, reading)
    if not _few_enough(written, sizes, reading):
        return ()

    def sized(with_these: Common, of: Map | None) -> tuple[Size, ...]:
        return tuple(map(sound, read_sizes(of, with_these, reading)))

    colourways = _read(
        AlternativeKind.COLOURWAY, COLOURWAY, (CLOTHS,), written, reading,
        lambda fields: _in_cloths(fields, sizes, common, sized),
    )  # fmt: skip
    layouts = _read(
        AlternativeKind.LAYOUT, LAYOUT, (ITS_QUILT, ITS_SIZES), written, reading,
        lambda fields: sized(common, _set_otherwise(fields, sizes, common)),
    )  # fmt: skip
    return (*colourways, *layouts)


def with_both(
    found: tuple[Alternative, ...], names: Iterable[str], sizes: int, reading: Reading
) -> tuple[Alternative, ...]:
    """The alternatives, and each colourway with each layout that `names` name together, of a pattern of so many sizes. One
    that is the pattern as it is adds nothing to the other."""
    known = {one.id: one for one in found if not one.is_own}
    pairs = (tuple(name.split(BETWEEN)) for name in dict.fromkeys(names))
    both = tuple(
        taken_together(known[pair[0]], known[pair[1]])
        for pair in pairs
        if len(pair) == 2 and all(name in known for name in pair)
    )
    ways = 1 + sum(bool(one.id) for one in found)
    if not both or not _within(sizes, ways + len(both), both[0].span, reading):
        return found
    for one in both:
        _refuse_name_of_both(one, found, reading)
    return (*found, *both)


def _refuse_name_of_both(one: Alternative, others: Sequence[Alternative], reading: Reading) -> None:
    """Note a colourway or layout whose files would have the name of those of another with a layout."""
    name = "-".join(map(file_part, one.id.split(BETWEEN)))
    for other in others:
        if other.id and file_part(other.id) == name:
            message = f"files in {other.kind.value} `{other.id}` would have the names of those in `{one.id}`"
            hint = "give it another name; its `title` may stay"
            reading.faults.add("duplicate-name", message, other.span, hint)


def _few_enough(written: Written, sizes: Map | None, reading: Reading) -> bool:
    """Whether all sizes in all colourways and layouts are no more than a pattern may have sizes; notes a fault if not."""
    there = [node for node in written.values() if node is not None]
    count = len(sizes.entries) if sizes else 0
    many = 1 + sum(len(node.entries) for node in there)
    return not there or _within(count, many, there[0].span, reading)


def _within(sizes: int, ways: int, span: Span, reading: Reading) -> bool:
    """Whether so many sizes, each in so many ways, are no more than a pattern may have sizes; notes a fault if not."""
    if sizes * ways <= MOST_SIZES:
        return True
    message = (
        f"{sizes} sizes, each as it is and in all colourways and layouts, are {sizes * ways} to work out; "
        f"at most {MOST_SIZES} can be worked with"
    )
    reading.faults.add("too-large", message, span, "take some of them away")
    return False


def _read(
    kind: AlternativeKind,
    table: Table,
    differing: tuple[Key[Map], ...],
    written: Written,
    reading: Reading,
    sizes: Callable[[Fields], tuple[Size, ...]],
) -> Iterator[Alternative]:
    """The alternatives of a kind; one without any of the `differing` keys is the pattern as it is."""
    node = written[kind]
    if node is None:
        return
    if len(node.entries) > MOST_ALTERNATIVES:
        message = f"there are {len(node.entries)} {kind.value}s; at most {MOST_ALTERNATIVES} can be worked with"
        reading.faults.add("too-large", message, node.span, "take some away")
        return
    own, others = None, []
    for key, value in named_entries(node, kind.value, reading):
        if isinstance(value, Text) and value.is_empty:
            value = Map((), key.span)
        fields = open_fields(value, table, f"{kind.value} `{key.value}`", key.span, reading)
        if fields is None:
            continue
        found = Alternative(
            kind=kind,
            id=key.value,
            title=fields.get(TITLE) or key.value,
            span=key.span,
            picture=own_picture(fields, COVER_PICTURE, COVER_BOX),
        )
        if any(fields.has(each) for each in differing):
            others.append(replace(found, sizes=sizes(fields)))
        elif own is None:
            own = replace(found, is_own=True)
        else:
            _like_the_pattern(found, own, differing[0], reading)
    nameless = Alternative(kind=kind, id="", title="", span=node.span, is_own=True)
    yield own or nameless
    yield from others


def _like_the_pattern(
    found: Alternative, own: Alternative, differing: Key[Map], reading: Reading
) -> None:
    """Note a second alternative that says nothing."""
    reading.faults.add(
        "alternatives",
        f"{found.kind.value}s `{own.id}` and `{found.id}` are both the pattern as it is",
        found.span,
        f"say in one of them what differs, under `{differing.name}`, or take it out",
    )


def _refuse_same_names(written: Written, reading: Reading) -> None:
    """Note a layout that has the name of a colourway: their files would have the same names."""
    colourways, layouts = (written[kind] for kind in SINGLE_KINDS)
    taken = {key.value for key, _ in colourways.entries} if colourways else set()
    for key, _ in layouts.entries if layouts else ():
        if key.value in taken:
            message = f"`{key.value}` is the name of a colourway and of a layout, so their files would have the same name"
            hint = "give one of them another name; its `title` may stay"
            reading.faults.add("duplicate-name", message, key.span, hint)


def _in_cloths(fields: Fields, sizes: Map | None, common: Common, sized: Sized) -> tuple[Size, ...]:
    """The sizes in the cloths of a colourway, which stand above those of the pattern and of a size."""
    cloths = _known_cloths(fields, common)
    if fields.get(COMPLETE):
        _refuse_lacking(fields, common)
    recoloured = {
        key.value
        for key, cloth in cloths.entries
        if isinstance(cloth, Map) and cloth.find(COLOUR.name) and not cloth.find(PICTURE.name)
    }
    base = _without_photographs(common.fabrics, recoloured)
    entries = tuple(
        (key, _with(size, FABRICS.name, lambda own: _over(own, cloths, recoloured), cloths.span))
        for key, size in (sizes.entries if sizes else ())
    )
    return sized(replace(common, fabrics=base), sizes and Map(entries, sizes.span))


def _over(own: Node | None, cloths: Map, recoloured: Collection[str]) -> Node:
    """The fabrics of a size with those of a colourway laid over them."""
    if not isinstance(own, Map):
        return cloths
    return merged(_without_photographs(own, recoloured), cloths, 1) or cloths


def _without_photographs(fabrics: Map | None, names: Collection[str]) -> Map | None:
    """Fabrics without the photographs of some: they show cloth of another colour."""
    if fabrics is None:
        return None

    def bare(name: str, cloth: Node) -> Node:
        if name not in names or not isinstance(cloth, Map):
            return cloth
        kept = tuple(entry for entry in cloth.entries if entry[0].value != PICTURE.name)
        return Map(kept, cloth.span)

    return Map(tuple((key, bare(key.value, cloth)) for key, cloth in fabrics.entries), fabrics.span)


def _known_cloths(fields: Fields, common: Common) -> Map:
    """The cloths that a colourway names; noted is one that the pattern has not, and a mix, of which there is no cloth."""
    cloths = fields.get(CLOTHS) or Map((), fields.where)
    faults, known = fields.reading.faults, fields.reading.names.get("fabric", ())
    sound = []
    for key, cloth in cloths.entries:
        if key.value not in known:
            faults.unknown_name("fabric", key.value, known, key.span)
        elif _is_mix(common.fabrics, key.value) or (
            isinstance(cloth, Map) and cloth.find(MIX.name)
        ):
            message = f"{fields.what} changes the mix `{key.value}`, which is no cloth itself"
            hint = "name the fabrics of the mix one by one"
            faults.add("alternatives", message, key.span, hint)
        elif not (isinstance(cloth, Text) and cloth.is_empty):
            sound.append((key, cloth))
    return Map(tuple(sound), cloths.span)


def _is_mix(fabrics: Map | None, name: str) -> bool:
    """Whether a fabric of the pattern stands for several."""
    entry = fabrics.find(name) if fabrics else None
    return entry is not None and isinstance(entry[1], Map) and entry[1].find(MIX.name) is not None


def _refuse_lacking(fields: Fields, common: Common) -> None:
    """Note the fabrics that a colourway does not name though it is to name all."""
    cloths = fields.get(CLOTHS)
    named_here = {key.value for key, _ in (cloths.entries if cloths else ())}
    known = [key.value for key, _ in (common.fabrics.entries if common.fabrics else ())]
    for name in known:
        if name not in named_here and not _is_mix(common.fabrics, name):
            message = f"{fields.what} is to be complete, but does not name fabric `{name}`"
            hint = (
                f"add `{name}:`, empty where the cloth is as in the pattern, or take `complete` out"
            )
            fields.reading.faults.add("alternatives", message, fields.span(COMPLETE), hint)


def _set_otherwise(fields: Fields, sizes: Map | None, common: Common) -> Map | None:
    """The sizes as a layout sets them: its quilt stands above those of the pattern and of a size, what it says of a size
    above all."""
    quilt = fields.get(ITS_QUILT)
    of_sizes = _of_sizes(fields)
    entries = []
    for key, size in sizes.entries if sizes else ():
        own = of_sizes.get(key.value)
        more = own.get(ITS_QUILT) if own else None
        over = merged(quilt, more, 0)
        if over is not None:
            size = _with(size, QUILT.name, lambda its, over=over: _laid_over(its, over), over.span)  # type: ignore[misc]
        if own is not None and (node := own.node(ITS_BLOCKS)) is not None:
            size = _with(size, BLOCKS.name, lambda its, node=node: node, node.span)  # type: ignore[misc]
        entries.append((key, size))
    return sizes and Map(tuple(entries), sizes.span)


def _laid_over(own: Node | None, over: Map) -> Node:
    """The quilt of a size with that of a layout laid over it."""
    return (merged(own, over, 0) or over) if isinstance(own, Map) else over


def _of_sizes(fields: Fields) -> Mapping[str, Fields]:
    """What a layout says of sizes, by name; noted is a size that the pattern has not."""
    found: dict[str, Fields] = {}
    node, reading = fields.get(ITS_SIZES), fields.reading
    known = reading.names.get("size", ())
    for key, value in node.entries if node else ():
        if key.value not in known:
            reading.faults.unknown_name("size", key.value, known, key.span)
            continue
        what = f"size `{key.value}` of {fields.what}"
        opened = open_fields(value, OF_SIZE, what, key.span, reading)
        if opened is not None:
            found[key.value] = opened
    return found


def _with(node: Node, name: str, made: Callable[[Node | None], Node], at: Span) -> Node:
    """A group of keys in which one is otherwise; anything else as it is."""
    if not isinstance(node, Map):
        return node
    entry = node.find(name)
    key = entry[0] if entry else Text(name, at)
    rest = tuple(each for each in node.entries if each[0].value != name)
    return Map((*rest, (key, made(entry[1] if entry else None))), node.span)


def own_picture_of(alternatives: Collection[Alternative]) -> OwnPicture | None:
    """The photograph that an author gives to the pattern as it is, under its colourway or layout."""
    return next((one.picture for one in alternatives if one.is_own and one.picture), None)
