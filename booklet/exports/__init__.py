"""Floor 11, exports: the plan as files for other programs, and printed pages as a press wants them."""

from typing import TYPE_CHECKING

from booklet.later import later

if TYPE_CHECKING:
    from booklet.exports.files import exported, exported_tables
    from booklet.exports.press.printing import PLAIN, Printing, PrintingError, read_creep
    from booklet.exports.press.sheets import imposed, with_crop_marks

__all__ = [
    "PLAIN", "Printing", "PrintingError", "exported", "exported_tables", "imposed", "read_creep", "with_crop_marks",
]  # fmt: skip

__getattr__ = later(
    __name__,
    {
        "files": "exported exported_tables",
        "press.printing": "PLAIN Printing PrintingError read_creep",
        "press.sheets": "imposed with_crop_marks",
    },
)
