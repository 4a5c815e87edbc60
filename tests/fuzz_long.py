"""Mutated patterns through `check`, facts and the setting of pages, for as long as one likes. Prints what it tried.

Run: python tests/fuzz_long.py [first number] [how many] [each how many with all pages set] [each how many also as PDF]
A number that fails here is tried again alone by: python tests/fuzz_long.py NUMBER 1
"""

from __future__ import annotations

import signal
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path
from traceback import extract_tb, format_exc

from corpus import documents
from mutations import mutated

from booklet.commands.line import console
from booklet.exports.files import exported
from booklet.facts import facts_text
from booklet.kit.diagnostic import Outcome
from booklet.pages.prepress.pdf import make_pdf
from booklet.pages.style.fonts import boxed
from booklet.pattern import Paper
from booklet.recipe import compiler
from booklet.source.files.folder import source_text

MOST_SECONDS = 20  # of the processor, for check
PYTHON_WORDS = ("Traceback", "NoneType", " object at 0x", "<class '", "Error:", "line 1, in")


class TooLong(Exception):
    """A source took more than its time."""


def checked(number: int, names: tuple[str, ...] = ()) -> tuple[str, Outcome]:
    """(the pattern's name, what `check` says of the mutation of one of these, or of all). Raises AssertionError for what
    no reader should see."""
    name, text, files = mutated(number, names)
    with tempfile.TemporaryDirectory() as folder:
        for file, data in {**files, "pattern.yaml": text.encode("utf-8", "surrogatepass")}.items():
            (Path(folder) / file).parent.mkdir(parents=True, exist_ok=True)
            (Path(folder) / file).write_bytes(data)
        outcome = compiler.check(Path(folder))
        said = console.as_text(outcome.diagnostics, lambda file: source_text(Path(folder), file))
    assert all(line.isprintable() for line in said.splitlines()), said
    lines = {"pattern.yaml": len(text.splitlines()) or 1}
    lines |= {n: len(d.decode("utf-8", "replace").splitlines()) or 1 for n, d in files.items()}
    assert (outcome.value is None) == any(d.is_error for d in outcome.diagnostics)
    for d in outcome.diagnostics:
        told = f"{d.message} {d.hint or ''}"
        assert d.message and "\n" not in told and len(d.message) < 600, d
        assert not any(word in told for word in PYTHON_WORDS), d
        assert 1 <= d.span.line <= lines.get(d.span.file, 1) and d.span.column >= 1, d
        assert d.span.end >= d.span.column, d
    return name, outcome


def set_pages(outcome: Outcome, with_pdf: bool) -> int:
    """Set all pages of a sound pattern, write nothing; how many documents there were."""
    plan = compiler.plan(outcome.value)
    facts_text(plan)
    count = 0
    for edition in plan.pattern.booklet.editions:
        for document in documents(plan, edition, (Paper.A4,)):
            count += 1
            if with_pdf and document.paper is not None:
                assert make_pdf(boxed(document.html)).complaints == (), document.name
    for _ in exported(plan):
        pass
    return count


def tried(number: int, with_pages: bool, with_pdf: bool) -> tuple[str, str, float]:
    """(what came of a mutation, where, seconds of `check`)."""
    before = time.process_time()
    name, seconds = "", 0.0
    try:
        signal.setitimer(signal.ITIMER_PROF, MOST_SECONDS)
        name, outcome = checked(number)
        seconds = time.process_time() - before
        if outcome.value is None:
            return "faults", name, seconds
        if not with_pages:
            return "no fault", name, seconds
        signal.setitimer(signal.ITIMER_PROF, 6 * MOST_SECONDS)
        set_pages(outcome, with_pdf)
        return "pages set" + (", with PDF" if with_pdf else ""), name, seconds
    except TooLong:
        return "TOO LONG", name or mutated(number)[0], time.process_time() - before
    except Exception as fault:
        place = next(
            (p for p in reversed(extract_tb(fault.__traceback__)) if "booklet" in p.filename),
            extract_tb(fault.__traceback__)[-1],
        )
        if len(sys.argv) > 2 and sys.argv[2] == "1":
            print(format_exc())
        where = f"{Path(place.filename).name}:{place.lineno}: {type(fault).__name__}: {str(fault)[:150]}"
        return "TRACEBACK", f"{name or mutated(number)[0]} {where}", seconds
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)


def _too_long(*_: object) -> None:
    raise TooLong


def _each(number: int, times: int) -> bool:
    return times > 0 and number % times == 0


def main() -> None:
    given = sys.argv[1:5]
    first, count, pages, pdf = map(int, given + ["0", "1000", "1", "25"][len(given) :])
    signal.signal(signal.SIGPROF, _too_long)
    came: Counter[str] = Counter()
    slowest = (0.0, 0, "")
    for number in range(first, first + count):
        what, where, seconds = tried(number, _each(number, pages), _each(number, pdf))
        came[what] += 1
        slowest = max(slowest, (seconds, number, where))
        if what.isupper():
            print(f"{number}: {what} {where}", flush=True)
        if (number - first + 1) % 100 == 0:
            print(f"{number - first + 1} tried: {dict(came)}; slowest check {slowest}", flush=True)
    print(f"{count} sources from {first}: {dict(came)}; slowest check {slowest}")
    sys.exit(any(what.isupper() for what in came))


if __name__ == "__main__":
    main()
