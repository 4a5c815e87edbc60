"""Floor 11, composing: texts of the author's, as pages of their own and beside pages of ours."""

from __future__ import annotations

from collections.abc import Callable

from markupsafe import Markup

from booklet.kit.records import Record
from booklet.pages.texts.callouts import BOX_HEADS, Box, for_students, stretches
from booklet.pages.texts.texts import Filling, needs_size, set_text
from booklet.pages.texts.words import Words
from booklet.pattern import Page, Pattern
from booklet.plan import SizePlan


class OwnTexts(Record, kw_only=True):
    """Sets texts for some sizes, to be read by the teacher or by students; `filling` is what may stand in them."""

    pattern: Pattern
    sizes: tuple[SizePlan, ...]
    words: Words
    teacher: bool
    filling: Callable[[SizePlan], Filling]

    def markup(self, file: str, top: int | None = None) -> Markup:
        """The markup of a text of the designer's; `top` is the level of its highest heading, if not 2."""
        text = self.pattern.texts[file]
        if not self.teacher:
            text = for_students(text)
        chosen = self.sizes if needs_size(text) else self.sizes[:1]
        return Markup("\n").join(
            self._stretch(file, box, words, size, top)
            for size in chosen
            for box, words in stretches(text)
        )

    def _stretch(
        self, file: str, box: Box | None, words: str, size: SizePlan, top: int | None
    ) -> Markup:
        """A stretch of a text; what is boxed stands in a frame of its own."""
        body = set_text(file, words, self.pattern, self.filling(size), top)
        if box is None:
            return body
        framed = Markup('<div class="{}" role="note"><p class="{}-head">{}</p>{}</div>')
        kind = f"own-{box.value}" if box is not Box.TEACHER else "teacher"
        return framed.format(kind, kind, self.words.markup(BOX_HEADS[box]), body)

    def beside(self, page: Page | None) -> Markup:
        """A text of the designer's at the beginning or the end of a page of ours."""
        if page is None or page.name not in self.pattern.texts:
            return Markup()
        return Markup('<div class="own-words">{}</div>\n').format(self.markup(page.name, 3))
