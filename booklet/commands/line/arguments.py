"""Floor 13: the words of the command line, and what is said when one of them is not understood."""

from __future__ import annotations

import argparse
import re
import shlex
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from booklet.kit.diagnostic import did_you_mean
from booklet.kit.records import Record

if TYPE_CHECKING:
    from booklet.kit.measure import Length
    from booklet.pattern import Paper

WRONG_CALL = 2
HERE = Path(".")
"""The folder where a call names none."""

_ABOUT = """\
Make an instruction booklet from a patchwork pattern.

A pattern is a folder with a file `pattern.yaml` in it. Start one with `booklet new`, then change it
and build it again as often as you like."""

_ENDING = """\
examples:
  booklet new lanterns             start a small pattern in the folder `lanterns`
  booklet check lanterns           look for faults; nothing is written
  booklet build lanterns           make the booklet: a web page and PDF files in `lanterns/out`
  booklet build lanterns --size lap --paper a4
  booklet plan lanterns            show the best order of sewing, beside your own
  booklet compare before lanterns  what changed for those who have the booklet of `before`
  booklet help shapes              the shapes of patches; so do `quilt`, `hexagon`, `texts`, …
  booklet help overlap             what a rule means and how to put it right
  booklet build --help             all that can be said after `build`

The folder may be left out where you stand in it.

Exit status: 0 all is well; 1 faults were found, or files could not be written; 2 the command was not
understood; 3 the program itself is at fault; 130 or 143 it was stopped."""

_BUILD_ENDING = """\
examples:
  booklet build lanterns                         everything
  booklet build lanterns --size lap              only the size named `lap` in pattern.yaml
  booklet build lanterns --web                   only the web pages: quick, to look at
  booklet build lanterns --epub                  books for e-readers, too
  booklet build lanterns --edition handout --paper a4
  booklet build lanterns --out booklets          into the folder `booklets`
  booklet build lanterns --imposed               sheets to print on both sides, fold and staple
  booklet build lanterns --imposed --paper letter --creep 0.15 mm
  booklet build lanterns --for-printer --profile coated.icc --crop-marks

What shows only some of the sizes has them in its name: `…-pattern--lap.html` stands beside the page of
all sizes, `…-pattern.html`, and never takes its place.

Beside the web page and the PDF files stand, for other programs: the templates of each size as SVG and
DXF in millimetres (layers cut, seam and marks), and materials, cutting and strips as CSV and XLSX.
Files of an earlier state of the pattern are taken away when everything is built anew."""


class Parser(argparse.ArgumentParser):
    """A parser whose complaints are sentences that tell the next thing to do."""

    def __init__(self, *args: Any, **options: Any) -> None:
        options.setdefault("allow_abbrev", False)
        options.setdefault("formatter_class", argparse.RawDescriptionHelpFormatter)
        super().__init__(*args, **options)

    def error(self, message: str) -> NoReturn:
        """Say what was not understood and what to try; exit status 2."""
        self.exit(WRONG_CALL, f"booklet: {self._sentence(message)}\ntry: {self.prog} --help\n")

    def refuse(self, words: Sequence[str]) -> NoReturn:
        """Say that the first of these left-over words was not understood; exit status 2."""
        word = next((word for word in words if word.startswith("-")), words[0])
        if not word.startswith("-"):
            self.error(f"`{word}` is one word too many; a name with spaces in it needs quotes")
        known = sorted(option for option in self._option_string_actions if option[:2] == "--")
        bare = word.lstrip("-")
        if self.prog == "booklet" and bare in _KINDS:
            self.error(f"there is no option `{word}`; a command has no hyphens: `booklet {bare}`")
        self.error(f"there is no option `{word}`{_near(word.partition('=')[0], known)}")

    def _sentence(self, message: str) -> str:
        """The library's complaint in plain words."""
        if found := re.match(r"argument COMMAND: invalid choice: '(.*)' \(choose", message):
            if found[1] == "explain":
                return "there is no command `explain`; `booklet help overlap` tells of a rule, a key or a shape"
            if Path(found[1]).is_dir():
                call = shlex.join(["booklet", "build", found[1]])
                return f"`{found[1]}` is a folder; say first what to do with it, as in `{call}`"
            return f"there is no command `{found[1]}`{_near(found[1], _KINDS)}"
        if found := re.match(r"argument SHELL: invalid choice: '(.*)' \(choose", message):
            return f"there is no completion for `{found[1]}`; choose {_or(SHELLS)}"
        if found := re.match(
            r"argument (\S+): invalid choice: '(.*)' \(choose from (.*)\)", message
        ):
            choices = re.findall(r"[\w ]+", found[3])
            return f"`{found[1]}` cannot be `{found[2]}`; choose {_or(c.strip() for c in choices if c.strip())}"
        if found := re.match(r"argument (\S+): expected (?:at least )?one argument", message):
            return f"`{found[1]}` needs a word after it"
        if found := re.match(r"argument (--creep): (.*)", message):
            return f"`{found[1]}`: {found[2]}"
        if message.endswith("required: FOLDER"):
            return f"name the folder to make, as in `{self.prog} lanterns`"
        if "required: " in message and self.prog == "booklet bed":
            return "name a mattress and the finished block, as in `booklet bed queen --block 10 in`"
        if message.endswith("required: SHELL"):
            return "name your shell: `bash`, `zsh` or `fish`"
        return message.removeprefix("argument ")


def _near(word: str, known: Iterable[str]) -> str:
    hint = did_you_mean(word, known)
    return f"; {hint}" if hint else ""


def _or(words: Iterable[str]) -> str:
    *first, last = [f"`{word}`" for word in words]
    return f"{', '.join(first)} or {last}" if first else last


def _paper(word: str) -> Paper:
    """The paper of a word, however it is spelt: `A4`, `half-letter`."""
    from booklet.pattern import Paper

    plain = word.lower().replace("-", " ").replace("_", " ").strip()
    if plain not in {paper.value for paper in Paper}:
        names = _or(paper.value for paper in Paper)
        raise argparse.ArgumentTypeError(f"there is no paper `{word}`; choose {names}")
    return Paper(plain)


class _Version(argparse.Action):
    """Prints the version; what finds it is loaded only then."""

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:
        """Print it and end."""
        print(f"booklet {_version()}")
        parser.exit()


def _version() -> str:
    from importlib import metadata

    try:
        return metadata.version("quilt-booklet")
    except metadata.PackageNotFoundError:
        return "(not installed)"


def command_parser() -> tuple[Parser, dict[str, Parser]]:
    """The parser of the whole command line, and the one of each command by its name."""
    parser = Parser(prog="booklet", description=_ABOUT, epilog=_ENDING)
    parser.add_argument("--version", action=_Version, nargs=0, help="print the version")
    commands = parser.add_subparsers(
        dest="command", metavar="COMMAND", required=True, title="commands", parser_class=Parser
    )
    made = {}
    for name, (brief, takes) in _KINDS.items():
        about = f"{brief[0].upper()}{brief[1:]}."
        ending = _BUILD_ENDING if name == "build" else None
        made[name] = commands.add_parser(name, help=brief, description=about, epilog=ending)
        for take in takes:
            take.add_to(made[name])
    return parser, made


class Take(Record):
    """What a command takes, a word or an option: what it is called, and how argparse is told of it."""

    called: tuple[str, ...]
    how: Mapping[str, Any]

    def add_to(self, parser: Parser) -> None:
        """Have a parser take it."""
        parser.add_argument(*self.called, **self.how)


def _take(*called: str, help: str, **how: Any) -> Take:
    return Take(called, {"help": help, **how})


def _flag(called: str, help: str) -> Take:
    return Take((called,), {"help": help, "action": "store_true"})


def _each(*called: str, help: str, **how: Any) -> Take:
    """An option that may be given several times."""
    return Take(called, {"help": help, "action": "append", **how})


def joined(words: Sequence[str]) -> list[str]:
    """The words of a call with the number and the unit after `--creep` as one: `0.1 mm` needs no quotes."""
    made: list[str] = []
    for word in words:
        if made[-2:-1] == ["--creep"] and word in ("mm", "cm", "in"):
            made[-1] += f" {word}"
        else:
            made.append(word)
    return made


def _creep(word: str) -> Length:
    """The thickness of a sheet; a sentence if it is none."""
    from booklet.exports.press.printing import PrintingError, read_creep

    try:
        return read_creep(word)
    except PrintingError as fault:
        raise argparse.ArgumentTypeError(str(fault)) from None


# fmt: off
_FOLDER = _take(
    "folder", type=Path, nargs="?", default=HERE, metavar="FOLDER",
    help="the pattern's folder, with pattern.yaml in it (default: the one you stand in)",
)
_TRUST = _flag(
    "--trust-pages", "take in `pages/` and `style.css`, which are code: only for a folder that you wrote"
)
_SIZES = _each("--size", metavar="SIZE", help="only this size; give it again for another (default: all)")
_LANGUAGE = _take(
    "--language", metavar="LANGUAGE",
    help="names and words in this language, one of the pattern's editions (default: the pattern's own)",
)
_BUILD = (
    _FOLDER,
    _TRUST,
    _SIZES,
    _each("--edition", metavar="EDITION", help="only this edition, such as pattern or handout (default: all)"),
    _each(
        "--language", metavar="LANGUAGE", help="only editions in this language; give it again for another (default: all)"
    ),
    _each(
        "--colourway", "--colorway", metavar="NAME",
        help="in this colourway of the pattern; give it again for another (default: the pattern as it is)",
    ),
    _each(
        "--layout", metavar="NAME",
        help="in this layout of the pattern, and with --colourway in both; give it again for another (default: the pattern as it is)",
    ),
    _each(
        "--paper", metavar="PAPER", type=_paper,
        help="letter, a4, half-letter or a5; give it again for another (default: letter and a4)",
    ),
    _take("--out", type=Path, metavar="DIR", help="where to write (default: `out` inside the folder)"),
    _flag("--replace", "write also over files that were not built by us, or were changed since"),
    _flag("--web", "only the web pages"),
    _flag("--pdf", "only the PDF files (with --web: both, and nothing else)"),
    _flag("--epub", "also each edition as a book for e-readers (EPUB 3)"),
    _flag("--site", "also each edition as a folder to put on the web: one page a chapter, works offline after a visit"),
    _flag(
        "--imposed",
        "also make sheets of four pages to fold and staple, never scaled: half letter on letter and "
        "A5 on A4 (default), with --paper letter on tabloid, with --paper a4 on A3",
    ),
    _take(
        "--creep", type=_creep, metavar="LENGTH",
        help="the thickness of one sheet: inner sheets are pushed out by those about them, and their "
        "pages are moved back by as much (default: 0.1 mm; 0 leaves them)",
    ),
    _flag("--crop-marks", "marks outside the corners, to trim by"),
    _flag(
        "--large-print",
        "PDF files in type of 16 pt, no lettering under 14 pt, with pictures to match; templates stay true",
    ),
    _flag(
        "--for-printer",
        "PDF files for a print shop: PDF/X-4 with 3 mm or 1/8 in bleed, in grey, or in the inks of --profile",
    ),
    _take(
        "--profile", type=Path, metavar="FILE.icc",
        help="the colour profile (ICC, of CMYK or grey) that your print shop asks for",
    ),
    _flag("--archive", "PDF files to keep for good: PDF/A-3 with the source and all numbers inside"),
    _flag("--low-ink", "PDF files with pale cloths: hatches tell them apart"),
    _flag("--booklet-only", "without the files for other programs: SVG, DXF, CSV and XLSX"),
    _flag("--quiet", "say nothing while all goes well"),
)
_PREVIEW = (
    _FOLDER,
    _TRUST,
    _LANGUAGE,
    _take(
        "--port", type=int, default=0, metavar="N",
        help="the port of the address on this machine (default: any that is free)",
    ),
    _flag("--no-open", "only say where the page is; open no browser"),
)
_CHECK = (
    _FOLDER,
    _take(
        "--folder", dest="beside", type=Path, metavar="DIR",
        help="with `-` in place of FOLDER, which reads pattern.yaml from standard input: the folder of "
        "its texts and pictures (default: the one you stand in)",
    ),
    _TRUST,
    _take(
        "--picture", type=Path, metavar="FILE.svg",
        help="also draw the faults of blocks and steps: what overlaps, what is empty, what does not touch",
    ),
    _take(
        "--format", choices=["text", "lines", "json"], default="text",
        help="text: with the line shown; lines: one line each, as editors read them; json: for programs",
    ),
)
_FACTS = (
    _FOLDER,
    _TRUST,
    _SIZES,
    _LANGUAGE,
    _take("--colourway", "--colorway", metavar="NAME", help="those of this colourway of the pattern"),
    _take("--layout", metavar="NAME", help="those of this layout of the pattern"),
)
_PATTERN_HELP = "pattern: its folder, or a file that `booklet facts` printed"
_COMPARE = (
    _take("old", type=Path, metavar="OLD", help=f"the earlier {_PATTERN_HELP}"),
    _take("new", type=Path, metavar="NEW", help=f"the later {_PATTERN_HELP}"),
    _LANGUAGE,
    _TRUST,
    _take("--format", choices=["text", "json"], default="text", help="text: lines to read; json: for programs"),
    _take(
        "--page", type=Path, metavar="FILE.html",
        help="also write a page for readers, with the earlier figures and pictures beside the present ones",
    ),
    _flag("--replace", "write the page over a file that is there"),
)
_PLAN = (
    _FOLDER,
    _take("block", nargs="?", metavar="BLOCK", help="only this block (default: every block)"),
    _take("--size", metavar="SIZE", help="as it is sewn in this size"),
    _flag("--write", "put the steps into pattern.yaml; steps of your own are replaced only in the BLOCK named"),
)
_BED = (
    _take("bed", nargs="+", metavar="BED", help="queen, twin xl, uk double …, or a mattress: 60 x 80 in"),
    _take("--block", nargs="+", metavar="SIZE", required=True, help="the finished block: 10 in, or 10 x 12 in"),
    _take("--drop", nargs="+", metavar="LENGTH", help="how far it hangs down (default: 12 in, or 30 cm)"),
    _take(
        "--sashing", nargs="+", metavar="LENGTH", help="the width of sashing between the blocks (default: none)"
    ),
    _take(
        "--border", nargs="+", metavar="LENGTH",
        help="the widest border you would like (default: 8 in, or 20 cm)",
    ),
    _take(
        "--tuck", nargs="*", metavar="LENGTH",
        help="what is tucked under the pillows (default: none; without a length 12 in, or 30 cm)",
    ),
)
_HELP = _take(
    "words", nargs="*", metavar="WORD",
    help="a key, a shape, a rule (the word in brackets of a message), `shapes`, `texts`, `rules`, or "
    "a command; left out: what there is",
)
_REFERENCE = (
    _take(
        "file", type=Path, nargs="?", default=Path("booklet-reference.html"), metavar="FILE",
        help="where to write it (default: booklet-reference.html, here)",
    ),
    _flag("--replace", "write over a file that is there"),
)
SHELLS = ("bash", "zsh", "fish")
_KINDS = {
    "build": ("make the booklet: a web page and PDF files", _BUILD),
    "preview": ("show the booklet in your browser, following every save", _PREVIEW),
    "check": ("look for faults; nothing is written", _CHECK),
    "facts": ("print every number of the booklet as JSON, for other programs", _FACTS),
    "plan": ("show the best order of sewing for each block, beside your own", _PLAN),
    "compare": ("tell what changed for readers between two states of a pattern", _COMPARE),
    "bed": ("propose blocks and borders for a mattress", _BED),
    "new": (
        "start a small pattern that builds, with notes that teach",
        (_take("folder", type=Path, metavar="FOLDER", help="the folder to make"),),
    ),
    "help": ("tell of a key, a shape or a rule of the format, with an example", (_HELP,)),
    "reference": ("write all of `help` as one web page, with pictures", _REFERENCE),
    "schema": (
        "print the JSON Schema, so that an editor completes and checks",
        (_flag("--facts", "of the facts instead of the pattern"),),
    ),
    "completion": (
        "print what makes a shell complete commands and options",
        (_take("shell", metavar="SHELL", choices=SHELLS, help=_or(SHELLS)),),
    ),
}
# fmt: on
