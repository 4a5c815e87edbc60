"""Floor 11, exports: the plan as files for other programs, and printed pages as a press wants them."""

from booklet.exports.files import exported
from booklet.exports.printing import PLAIN, Printing, PrintingError, read_creep
from booklet.exports.sheets import imposed, with_crop_marks

__all__ = [
    "PLAIN", "Printing", "PrintingError", "exported", "imposed", "read_creep", "with_crop_marks",
]  # fmt: skip
