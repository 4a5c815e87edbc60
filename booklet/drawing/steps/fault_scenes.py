"""Floor 10: faults drawn. A block that its pieces do not cover exactly once, and a step that cannot be sewn.

What is wrong bears a number; below the picture stands what it is and how large. Dark and crossed is cloth upon
cloth, white in a heavy line is no cloth at all, dashes are where a piece would lie if the fault were mended.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from booklet.drawing.ink.colours import ACCENT, WHITE
from booklet.drawing.lettering.labels import Desk, letter_in
from booklet.drawing.lettering.text_widths import wrapped
from booklet.drawing.scene import Area, Fill, Ink, Item, Label, Line, Mark, Scene, Sign
from booklet.drawing.viewport import Margins, View, fitted
from booklet.geometry.overlay import area, holes, union
from booklet.geometry.soundness.sites import Fault
from booklet.geometry.soundness.unsound import Unsound
from booklet.geometry.vectors import union_outline
from booklet.geometry.words import area_words, length_words
from booklet.kit.measure import UnitSystem
from booklet.kit.outlines.near import ONE_POINT
from booklet.kit.outlines.plane import Point, box_of, middle
from booklet.kit.outlines.polygon import centroid
from booklet.kit.records import Mutable, field
from booklet.sewing.stuck import Stuck

WIDTH, TALLEST = 110.0, 84.0  # mm
LINE = 4.2  # mm from line to line of the words below
MOST = 6  # places that are numbered; of more the largest
_GREY = "#c9c6bf"  # a cloth that is not known
_OVER = Fill(ACCENT, 12)
_NONE = Fill(WHITE)
_CLOTHS = ("#e9dcc3", "#b9c6cf", "#d7c3b4", "#cfd6bd")
_WAY = Fill(WHITE, 5, tint=True)


class _Sheet(Mutable, kw_only=True):
    """A picture in the making: its marks, the words below it, what is on it already."""

    view: View
    height: float
    desk: Desk
    items: list[Item] = field(default_factory=list)
    said: list[str] = field(default_factory=list)

    def number(self, points: Sequence[Point], words: str) -> None:
        """Put the next number on an area, or beside it with a leader, and say what it is."""
        self.said.append(f"{len(self.said) + 1}: {words}")
        text = str(len(self.said))
        label = letter_in(points, text, 9.0)
        if label is not None:
            self.items.append(label)
            self.desk.keep([label])
            return
        at = centroid(points) if len(points) > 2 else points[0]
        self.items += self.desk.named(at, text, 9.0, (0.0, -1.0))

    def scene(self, name: str, title: str, closing: Sequence[str]) -> Scene:
        """The finished picture."""
        lines = [line for one in (*self.said, *closing) for line in wrapped(one, 9.0, WIDTH - 12)]
        below = [
            Label(at=(2.0, self.height + LINE * (n + 0.5)), text=line, size=9.0, anchor="start")
            for n, line in enumerate(lines)
        ]
        tall = self.height + LINE * len(lines) + 2
        told = " ".join((f"{title}.", *self.said, *closing))
        return Scene.of(name, (WIDTH, tall), (*self.items, *below), title, told)


def tiling_scene(block: Unsound, faults: Sequence[Fault], name: str) -> Scene:
    """A block with the faults of one slip: pieces named, what is wrong numbered and measured, the repair dashed."""
    pieces = block.pieces
    about = {index for fault in faults for index in fault.about if index < len(pieces)}
    border = block.border.points if block.border else ()
    helped = next((fault for fault in faults if fault.mended), None)
    mended = helped.mended if helped else ()
    outlines = [piece.outline.points for piece in pieces]
    sheet = _sheet([*border, *(p for points in (*outlines, *mended) for p in points)])
    put = sheet.view.put
    for index, piece in enumerate(pieces):
        if index not in about:
            sheet.items.append(Area(put(piece.outline.points), None, Ink.CONTEXT))
    for index in sorted(about):
        cloth = block.size.fabrics.get(pieces[index].fabric)
        fill = Fill(cloth.colour if cloth else _GREY, tint=True)
        sheet.items.append(Area(put(outlines[index]), fill, Ink.PATCH))
    if border:
        sheet.items.append(Area(put(border), None, Ink.RIM))
    marks = _marks(faults)
    for code, points in marks:
        fill = _NONE if code == "gap" else _OVER
        sheet.items.append(Area(put(points), fill, Ink.WRONG))
    sheet.items += [Area(put(points), None, Ink.MENDED) for points in mended]
    _name(sheet, [(pieces[i].id, outlines[i], [m for _, m in marks]) for i in sorted(about)])
    for code, points in marks[:MOST]:
        sheet.number(put(points), f"{_KINDS[code]}: {area_words(area(points), block.units)}")
    for fault in faults:
        for spot in fault.spots[:MOST]:
            at = sheet.view.at(spot)
            sheet.items.append(Sign(at, Mark.OPEN))
            sheet.number((at,), _plain(fault.diagnostic.message))
    hint = helped.diagnostic.hint if helped else None
    closing = [f"Dashed: {_plain(hint)}."] if hint else []
    return sheet.scene(name, f"Block {block.block.id}", closing)


_KINDS = {
    "overlap": "cloth upon cloth",
    "outside-block": "beyond the edge of the block",
    "gap": "no cloth",
}


def _plain(words: str) -> str:
    """A message without the marks about its names."""
    return words.replace("`", "")


def _marks(faults: Sequence[Fault]) -> list[tuple[str, tuple[Point, ...]]]:
    """The areas that are wrong with the codes of their faults, the largest first; what overlaps of copies
    share is one, unless they close a ring: within it nothing is wrong."""
    found: list[tuple[str, tuple[Point, ...]]] = []
    for code in dict.fromkeys(fault.diagnostic.code for fault in faults):
        areas = [points for f in faults if f.diagnostic.code == code for points in f.areas]
        whole = areas if holes(areas) else union(areas) if areas else ()
        found += [(code, points) for points in whole]
    return sorted(found, key=lambda one: -area(one[1]))


def stuck_scene(stuck: Stuck, message: str, units: UnitSystem, name: str) -> Scene:
    """A step that cannot be sewn: its parts in their places and named, what they share, what keeps them apart."""
    tiling = stuck.tiling
    sheet = _sheet(tiling.outline.points)
    put = sheet.view.put
    own = {id for _, pieces in stuck.parts for id in pieces}
    for piece in tiling.pieces:
        if piece.id not in own:
            fill = _WAY if piece.id in stuck.way else None
            sheet.items.append(Area(put(piece.outline.points), fill, Ink.CONTEXT))
    for number, (_, pieces) in enumerate(stuck.parts):
        fill = Fill(_CLOTHS[number % len(_CLOTHS)])
        for id in pieces:
            outline = put(tiling.piece(id).outline.points)
            sheet.items.append(Area(outline, fill, Ink.CONTEXT))
        for rim in union_outline(tiling, pieces):
            sheet.items.append(Area(put(rim), None, Ink.RIM))
    for seam in stuck.seams:
        sheet.items.append(Line(points=put(seam.path), ink=Ink.MACHINE))
        sheet.desk.strokes.append((sheet.view.at(seam.start), sheet.view.at(seam.end)))
    named = [(name, _largest(stuck, pieces)) for name, pieces in stuck.parts]
    if stuck.apart is None:  # else the words below name them, and the arrow leads through them
        named += [(id, tiling.piece(id).outline.points) for id in stuck.way]
    _name(sheet, [(name, outline, ()) for name, outline in named])
    if stuck.apart is not None:
        _keep_apart(sheet, stuck, units)
    for p in stuck.opens:
        at = sheet.view.at(p)
        sheet.items.append(Sign(at, Mark.STOP, 0.0))
        sheet.number(
            (at,), "the corner that a later step sets in here has to open: stop at the point"
        )
    closing = [f"{_plain(message)[:1].upper()}{_plain(message)[1:]}."]
    if stuck.seams:
        closing.append("Heavy: the seam that the parts share.")
    if stuck.way and stuck.apart is None:
        closing.append(f"Hatched: {', '.join(stuck.way)}, which does not lie at an end of it.")
    rim = tiling.outline.points
    sheet.items.append(Area(put(rim), None, Ink.PATCH))
    return sheet.scene(name, f"Block {tiling.block}", closing)


def _keep_apart(sheet: _Sheet, stuck: Stuck, units: UnitSystem) -> None:
    """What lies between parts that do not touch."""
    assert stuck.apart is not None
    a, b = sheet.view.put(stuck.apart)
    if stuck.across < ONE_POINT:
        sheet.items.append(Sign(a, Mark.OPEN))
        sheet.number((a,), "the parts meet in a point, and share no seam")
        return
    sheet.items.append(
        Line(points=(a, b), ink=Ink.ARROW, start_arrow=True, end_arrow=True, halo=True)
    )
    words = f"{length_words(stuck.across, units)} apart"
    between = f"; between them lies {', '.join(stuck.way)} (hatched)" if stuck.way else ""
    sheet.number((middle((a, b)),), words + between)


def _largest(stuck: Stuck, pieces: Sequence[str]) -> tuple[Point, ...]:
    """The outline of a unit's largest piece."""
    outlines = [stuck.tiling.piece(id).outline.points for id in pieces]
    return max(outlines, key=area)


def _sheet(points: Iterable[Point]) -> _Sheet:
    """An empty picture for a block within these points."""
    shown = list(points)
    view, _, height = fitted(shown, WIDTH, TALLEST, Margins(12, 5, 12, 5), exact=True)
    left, top, right, bottom = box_of(view.put(shown))
    frame = (left - 11, top - 4.5, right + 11, bottom + 4.5)
    return _Sheet(view=view, height=height, desk=Desk((), (), frame))


def _name(
    sheet: _Sheet, named: Sequence[tuple[str, tuple[Point, ...], Sequence[tuple[Point, ...]]]]
) -> None:
    """The names of pieces, each where most of it is free of what is marked."""
    from booklet.geometry.overlay import difference

    for name, outline, marked in named:
        free = difference(outline, list(marked)) if marked else (outline,)
        points = sheet.view.put(free[0] if free else outline)
        label = letter_in(points, name, 8.5, room=0.2)
        if label is not None:
            sheet.items.append(label)
            sheet.desk.keep([label])
        else:
            sheet.items += sheet.desk.named(centroid(points), name, 8.5, (0.0, 1.0))
