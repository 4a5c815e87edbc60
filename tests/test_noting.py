"""What is as it was is the object it was; what was read is noted; a part of a page is kept where all it was told is the same."""

from types import MappingProxyType

from held_figures import Album
from markupsafe import Markup

from booklet.drawing.scene import Figure
from booklet.kit.records import Record, replace
from booklet.kit.remembered.content import Contents, Narrow
from booklet.kit.remembered.noting import Notes
from booklet.kit.remembered.settled import settled
from booklet.pages.pictures.page_parts import Course, PartReads, RecordedAlbum


class Leaf(Record):
    name: str
    size: int = 0


class Tree(Record):
    title: str
    leaves: tuple[Leaf, ...]
    by_name: MappingProxyType


def tree(title, *leaves):
    return Tree(title, leaves, MappingProxyType({leaf.name: leaf for leaf in leaves}))


def test_equal_values_become_the_old_object():
    old = tree("t", Leaf("a"), Leaf("b"))
    assert settled(tree("t", Leaf("a"), Leaf("b")), old) is old
    new = settled(tree("other", Leaf("a"), Leaf("b", 2)), old)
    assert new == tree("other", Leaf("a"), Leaf("b", 2))
    assert new.leaves[0] is old.leaves[0] and new.by_name["a"] is old.by_name["a"]
    assert settled("t", 3) == "t" and settled(old, None) is old


def test_rows_that_grew_or_shrank_keep_what_stands_before_and_behind():
    old = tuple(Leaf(name) for name in "abcde")
    for row in (
        "abXcde",
        "Xabcde",
        "abcdeX",
        "abde",
        "bcde",
        "abcd",
        "",
        "X",
        "abXYe",
        "edcba",
        "aabcde",
    ):
        new = settled(tuple(Leaf(name) for name in row), old)
        assert "".join(leaf.name for leaf in new) == row
    new = settled((*map(Leaf, "ab"), Leaf("X"), *map(Leaf, "cde")), old)
    assert [n for n, leaf in enumerate(new) if any(leaf is one for one in old)] == [0, 1, 3, 4, 5]


def test_only_what_was_read_is_noted_and_records_are_as_before():
    notes, leaf = Notes((Leaf, Tree)), Leaf("a", 3)
    with notes.taken() as outer:
        assert leaf.name == "a"
        with notes.taken() as inner:
            assert replace(leaf, name="b").size == 3  # a copy alone reads nothing
            assert leaf != Leaf("b", 3)
        with notes.aside():
            assert tree("t", leaf).leaves
        with notes.taken() as copied:
            replace(leaf)
    assert outer == {(Leaf, "name")} and inner == {(Leaf, "name"), (Leaf, "size")}
    assert copied == set() and leaf.size == 3 and leaf == Leaf("a", 3)
    assert not {"__getattribute__", "__eq__"} & vars(Leaf).keys()


def test_records_are_told_apart_by_the_fields_that_are_read():
    contents, narrow = Contents(), Narrow((Leaf, Tree), {(Tree, "leaves"), (Leaf, "name")})

    def digest(value):
        return contents.of(value, narrow=narrow).digest

    one = tree("t", *map(Leaf, "abcdefg"))
    assert digest(one) == digest(tree("other", *(Leaf(name, 7) for name in "abcdefg")))
    assert digest(one) != digest(tree("t", *map(Leaf, "abcdefh")))
    whole = contents.of(one.leaves).digest
    assert whole != contents.of(tuple(replace(leaf, size=1) for leaf in one.leaves)).digest
    assert contents.of(one.leaves, narrow=narrow).digest != whole


def figure(name):
    return Figure(name=name, svg="<svg/>", width_mm=1, height_mm=1, caption="", alt="")


def told(course, album):
    """A part that uses two pictures, and gives a caution."""
    listened = RecordedAlbum(album, course)
    for name in ("one", "two", "one"):
        found = listened.figure(name)
        course.number(found.name)
        course.again(found.name)
    return Markup("{}").format(course.first("blade"))


def test_a_part_holds_where_its_document_and_its_pictures_are_the_same():
    album = Album({"one": figure("f1"), "two": figure("f2")})
    course = Course()
    course.reads = heard = PartReads()
    told(course, album)
    again = Course()
    assert heard.holds(again, album)
    assert (again.figures, again.cautions, again.names) == (3, {"blade"}, {"f1": 2, "f2": 1})
    for other in (Course(figures=1), Course(cautions={"blade"}), Course(names={"f2": 1})):
        before = (other.figures, set(other.cautions), dict(other.names))
        assert not heard.holds(other, album)
        assert (other.figures, other.cautions, other.names) == before
    assert heard.holds(Course(names={"f3": 4}, cautions={"iron"}), album)
    assert not heard.holds(Course(), Album({"one": figure("f1"), "two": figure("f2")}))
    assert not heard.holds(Course(), Album({"one": album.by_name["one"]}))
