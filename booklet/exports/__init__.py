"""Floor 11, exports: the plan as files for other programs, and printed pages as a press wants them."""

from typing import TYPE_CHECKING

from booklet.kit.running.later import later

if TYPE_CHECKING:
    from booklet.exports.files import exported, exported_tables
    from booklet.exports.press.printing import PLAIN, Printing, PrintingError

__all__ = ["PLAIN", "Printing", "PrintingError", "exported", "exported_tables"]

__getattr__ = later(
    __name__,
    {
        "files": "exported exported_tables",
        "press.printing": "PLAIN Printing PrintingError",
    },
)
