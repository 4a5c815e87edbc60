"""Floor 13, touching: a tab's question or change as bytes in, what it is told out. In the hand's thread alone."""

from __future__ import annotations

from pathlib import Path

from booklet.preview.bench.bench import Bench
from booklet.preview.serving.page_changes import digest
from booklet.preview.serving.writing import Unwritten, Writer
from booklet.preview.touch.answers import answer
from booklet.preview.touch.asked import CHANGES, DEEDS, Asked, Wrong, asked_of
from booklet.preview.touch.cloths import cloths_of, why_not
from booklet.preview.touch.joints import Answer
from booklet.preview.touch.table import NoTable
from booklet.source.blocks.step_words import said_of
from booklet.source.cloth_editor import write_cloths
from booklet.source.editor import write_steps
from booklet.source.files.folder import SOURCE


class Touching:
    """The table of one folder, and the one who writes into its source."""

    def __init__(self, folder: Path, bench: Bench) -> None:
        self._bench, self.writer = bench, Writer(folder)

    def touched(self, body: bytes) -> Answer:
        """What is said to a touch; where nothing can be said, a sentence why under `stop`."""
        try:
            asked = asked_of(body, DEEDS)
            told = answer(self._bench.table(asked), asked)
        except (Wrong, NoTable) as fault:
            told = {"stop": _sentence(fault)}
        return {**told, "seen": self._seen, "undo": self.writer.undoable}

    def written(self, body: bytes) -> Answer:
        """What was written under `done`, or a sentence why nothing was under `stop`."""
        try:
            told: Answer = {"done": _sentence(self._change(asked_of(body, CHANGES)))}
        except (Wrong, NoTable, Unwritten) as fault:
            told = {"stop": _sentence(fault)}
        return {**told, "undo": self.writer.undoable}

    @property
    def _seen(self) -> str:
        """What tells the state of the source that a tab is shown."""
        return digest(self._bench.look.files.get(SOURCE, "")).hex()

    def _change(self, asked: Asked) -> str:
        """Do the change that is asked for; what it was, as a sentence. Raises Unwritten and NoTable."""
        if asked.do == "undo":
            return f"undone: {self.writer.undo()}; {SOURCE} is as it was before"
        if asked.source != self._seen:
            raise Unwritten(
                f"this page shows an earlier state of {SOURCE}; nothing was written. Look at what is there now, "
                "then write again"
            )
        return self._order(asked) if asked.do == "order" else self._cloths(asked)

    def _order(self, asked: Asked) -> str:
        """Write the order that was touched."""
        table = self._bench.table(asked)
        block, begun = table.block, table.begun(asked.touches)
        if not begun.is_whole or begun.faults or not asked.touches:
            raise Unwritten(
                f"block `{block.id}` is not sewn to its end yet; nothing was written. Join what is left, or go on from here"
            )
        if hindrance := table.hindered(asked.touches):
            raise Unwritten(f"{hindrance}; nothing was written")
        steps = table.steps(asked.touches)

        def edited(text: str) -> str | None:
            made = write_steps(text, block.id, steps, block.steps or ())
            after = self._bench.again(made) if made is not None else None
            there = next((b for b in after.blocks if b.id == block.id), None) if after else None
            same = there is not None and list(map(said_of, there.steps or ())) == list(
                map(said_of, steps)
            )
            return made if same else None

        what = f"the order of sewing of block `{block.id}`"
        self.writer.change(asked.source, what, edited)
        return f"written into {SOURCE}: {what}"

    def _cloths(self, asked: Asked) -> str:
        """Write the fabric that was chosen for some pieces."""
        table = self._bench.table(asked)
        block = table.block
        if why := why_not(block):
            raise Unwritten(why)
        if asked.fabric not in table.size.fabrics:
            raise Unwritten(f"there is no fabric `{asked.fabric}`; nothing was written")
        now = cloths_of(table.laid_out.pattern, block.id)
        if not asked.pieces or any(piece not in now for piece in asked.pieces):
            raise Unwritten(f"block `{block.id}` has no such piece any more; nothing was written")
        new = dict.fromkeys(asked.pieces, asked.fabric)

        def edited(text: str) -> str | None:
            made = write_cloths(text, block.id, new)
            after = self._bench.again(made) if made is not None else None
            if after is not None and cloths_of(after, block.id) != {**now, **new}:
                raise Unwritten(
                    f"other pieces of block `{block.id}` would change too, since they are dealt from a mix; nothing was "
                    "written. Name the fabrics of these pieces one by one in the source"
                )
            return made if after is not None else None

        cloth = table.size.fabrics[asked.fabric].name
        pieces = asked.pieces[0] if len(asked.pieces) == 1 else f"{len(asked.pieces)} pieces"
        what = f"{pieces} of block `{block.id}` in {cloth}"
        self.writer.change(asked.source, what, edited)
        return f"written into {SOURCE}: {what}"


def _sentence(words: object) -> str:
    """Words as a sentence: a large letter first, unless a file is named there, and a stop at the end."""
    text = str(words)
    first = text[:1] if text.startswith(SOURCE) else text[:1].upper()
    return first + text[1:] + ("" if text.endswith(".") else ".")
