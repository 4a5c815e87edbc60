"""Floor 9: how the sashes of a straight set are sewn in words: those in the rows of blocks, the rows of sashes, and
what comes between the rows."""

from __future__ import annotations

from booklet.kit.words import Phrase, phrase, plural_phrase
from booklet.pattern import Quilt, Size


def sash_words(size: Size) -> tuple[Phrase, ...]:
    """The sentences for the sashing of a size that is set straight, in the order of sewing."""
    quilt = size.quilt
    if quilt is None or quilt.sashing is None:
        return ()
    said = (
        _in_rows(size, quilt.sashing.outside),
        _rows_of_sashes(size, quilt) if quilt.sashing.cornerstones is not None else None,
        _between(size, quilt),
    )
    return tuple(sentence for sentence in said if sentence is not None)


def _in_rows(size: Size, outside: bool) -> Phrase | None:
    """The sashes that stand in the rows of blocks; None where every row is one block alone."""
    if size.across == 1:
        return phrase("Sew a sash to both sides of every block.") if outside else None
    if outside:
        return phrase("Sew a sash between every two blocks of a row, and one to both its ends.")
    return phrase("Sew a sash between every two blocks of a row.")


def _rows_of_sashes(size: Size, quilt: Quilt) -> Phrase | None:
    """How many rows are sewn of sashes and cornerstones, and what lies in each; None where there are none, or where
    each is a single sash."""
    outside = quilt.sashing is not None and quilt.sashing.outside
    rows = size.down + 1 if outside else size.down - 1
    if rows == 0 or (size.across == 1 and not outside):
        return None
    if size.across == 1:
        return plural_phrase(
            "Make {n} row of sashes: a sash with a cornerstone at both ends.",
            "Make {n} rows of sashes: a sash with a cornerstone at both ends.",
            rows,
        )
    if outside:
        return plural_phrase(
            "Make {n} row of sashes: {sashes} sashes, a cornerstone between every two of them and one at both ends.",
            "Make {n} rows of sashes: {sashes} sashes in each, a cornerstone between every two of them and one at both ends.",
            rows,
            sashes=size.across,
        )
    return plural_phrase(
        "Make {n} row of sashes: {sashes} sashes, a cornerstone between every two of them.",
        "Make {n} rows of sashes: {sashes} sashes in each, a cornerstone between every two of them.",
        rows,
        sashes=size.across,
    )


def _between(size: Size, quilt: Quilt) -> Phrase | None:
    """What comes between the rows of blocks, and outside them; None where there is one row and nothing outside."""
    outside = quilt.sashing is not None and quilt.sashing.outside
    long = quilt.sashing is not None and quilt.sashing.cornerstones is None
    if size.down == 1 and not outside:
        return None
    if size.across == 1 and not (outside or long):
        return phrase("Sew a sash between every two blocks.")
    if size.down == 1:
        return (
            phrase("Sew a long sash to the top and to the bottom of the row.")
            if long
            else phrase("Sew a row of sashes to the top and to the bottom of the row of blocks.")
        )
    if outside:
        return (
            phrase(
                "Sew a long sash between every two rows of blocks, one above the first and one below the last."
            )
            if long
            else phrase(
                "Sew a row of sashes between every two rows of blocks, one above the first and one below the last."
            )
        )
    return (
        phrase("Sew a long sash between every two rows of blocks.")
        if long
        else phrase("Sew a row of sashes between every two rows of blocks.")
    )
