"""A PDF opened for its letters alone: to work out the lines of its pictures takes longer than all else."""

import io
from contextlib import contextmanager
from unittest.mock import patch

import pdfplumber
from pdfminer.converter import PDFLayoutAnalyzer


@contextmanager
def letters_of(data: bytes):
    with (
        patch.object(PDFLayoutAnalyzer, "paint_path", lambda *path: None),
        pdfplumber.open(io.BytesIO(data)) as opened,
    ):
        yield opened
