"""Floor 13: the words of the command line, and what is said when one of them is not understood."""

from __future__ import annotations

import argparse
import re
import shlex
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from booklet.kit.diagnostic import did_you_mean

if TYPE_CHECKING:
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
    for name, (brief, fill) in _KINDS.items():
        about = f"{brief[0].upper()}{brief[1:]}."
        ending = _BUILD_ENDING if name == "build" else None
        made[name] = commands.add_parser(name, help=brief, description=about, epilog=ending)
        fill(made[name])
    return parser, made


def _folder(parser: Parser) -> None:
    parser.add_argument(
        "folder",
        type=Path,
        nargs="?",
        default=HERE,
        metavar="FOLDER",
        help="the pattern's folder, with pattern.yaml in it (default: the one you stand in)",
    )


def _trust(parser: Parser) -> None:
    parser.add_argument(
        "--trust-pages",
        action="store_true",
        help="take in `pages/` and `style.css`, which are code: only for a folder that you wrote",
    )


def _size(parser: Parser) -> None:
    parser.add_argument(
        "--size",
        action="append",
        metavar="SIZE",
        help="only this size; give it again for another (default: all)",
    )


def _language(parser: Parser) -> None:
    parser.add_argument(
        "--language",
        metavar="LANGUAGE",
        help="names and words in this language, one of the pattern's editions (default: the pattern's own)",
    )


def _alternatives(parser: Parser) -> None:
    parser.add_argument(
        "--colourway",
        "--colorway",
        action="append",
        metavar="NAME",
        help="in this colourway of the pattern; give it again for another (default: the pattern as it is)",
    )
    parser.add_argument(
        "--layout",
        action="append",
        metavar="NAME",
        help="in this layout of the pattern, and with --colourway in both; give it again for another (default: the pattern as it is)",
    )


def _build(parser: Parser) -> None:
    _folder(parser)
    _trust(parser)
    _size(parser)
    parser.add_argument(
        "--edition",
        action="append",
        metavar="EDITION",
        help="only this edition, such as pattern or handout (default: all)",
    )
    parser.add_argument(
        "--language",
        action="append",
        metavar="LANGUAGE",
        help="only editions in this language; give it again for another (default: all)",
    )
    _alternatives(parser)
    parser.add_argument(
        "--paper",
        action="append",
        metavar="PAPER",
        type=_paper,
        help="letter, a4, half-letter or a5; give it again for another (default: letter and a4)",
    )
    parser.add_argument(
        "--out", type=Path, metavar="DIR", help="where to write (default: `out` inside the folder)"
    )
    parser.add_argument(
        "--replace",
        action="store_true",
        help="write also over files that were not built by us, or were changed since",
    )
    parser.add_argument("--web", action="store_true", help="only the web pages")
    parser.add_argument(
        "--pdf", action="store_true", help="only the PDF files (with --web: both, and nothing else)"
    )
    parser.add_argument(
        "--epub", action="store_true", help="also each edition as a book for e-readers (EPUB 3)"
    )
    parser.add_argument(
        "--site",
        action="store_true",
        help="also each edition as a folder to put on the web: one page a chapter, works offline after a visit",
    )
    _printing(parser)
    parser.add_argument("--quiet", action="store_true", help="say nothing while all goes well")


def _printing(parser: Parser) -> None:
    """The options of how the PDF files are printed, and of what stands beside them."""
    parser.add_argument(
        "--imposed",
        action="store_true",
        help="also make sheets of four pages to fold and staple, never scaled: half letter on letter and "
        "A5 on A4 (default), with --paper letter on tabloid, with --paper a4 on A3",
    )
    parser.add_argument(
        "--creep",
        action=_Creep,
        metavar="LENGTH",
        help="the thickness of one sheet: inner sheets are pushed out by those about them, and their "
        "pages are moved back by as much (default: 0.1 mm; 0 leaves them)",
    )
    parser.add_argument(
        "--crop-marks", action="store_true", help="marks outside the corners, to trim by"
    )
    parser.add_argument(
        "--large-print",
        action="store_true",
        help="PDF files in type of 16 pt, no lettering under 14 pt, with pictures to match; templates stay true",
    )
    parser.add_argument(
        "--for-printer",
        action="store_true",
        help="PDF files for a print shop: PDF/X-4 with 3 mm or 1/8 in bleed, in grey, or in the inks of --profile",
    )
    parser.add_argument(
        "--profile",
        type=Path,
        metavar="FILE.icc",
        help="the colour profile (ICC, of CMYK or grey) that your print shop asks for",
    )
    parser.add_argument(
        "--archive",
        action="store_true",
        help="PDF files to keep for good: PDF/A-3 with the source and all numbers inside",
    )
    parser.add_argument(
        "--low-ink", action="store_true", help="PDF files with pale cloths: hatches tell them apart"
    )
    parser.add_argument(
        "--booklet-only",
        action="store_true",
        help="without the files for other programs: SVG, DXF, CSV and XLSX",
    )


def joined(words: Sequence[str]) -> list[str]:
    """The words of a call with the number and the unit after `--creep` as one: `0.1 mm` needs no quotes."""
    made: list[str] = []
    for word in words:
        if made[-2:-1] == ["--creep"] and word in ("mm", "cm", "in"):
            made[-1] += f" {word}"
        else:
            made.append(word)
    return made


class _Creep(argparse.Action):
    """Reads the thickness of a sheet."""

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:
        """Keep the length; a sentence if it is none."""
        from booklet.exports.press.printing import PrintingError, read_creep

        try:
            creep = read_creep(str(values))
        except PrintingError as fault:
            raise argparse.ArgumentError(self, str(fault)) from None
        setattr(namespace, self.dest, creep)


def _preview(parser: Parser) -> None:
    _folder(parser)
    _trust(parser)
    _language(parser)
    parser.add_argument(
        "--port",
        type=int,
        default=0,
        metavar="N",
        help="the port of the address on this machine (default: any that is free)",
    )
    parser.add_argument(
        "--no-open", action="store_true", help="only say where the page is; open no browser"
    )


def _check(parser: Parser) -> None:
    _folder(parser)
    parser.add_argument(
        "--folder",
        dest="beside",
        type=Path,
        metavar="DIR",
        help="with `-` in place of FOLDER, which reads pattern.yaml from standard input: the folder of "
        "its texts and pictures (default: the one you stand in)",
    )
    _trust(parser)
    parser.add_argument(
        "--picture",
        type=Path,
        metavar="FILE.svg",
        help="also draw the faults of blocks and steps: what overlaps, what is empty, what does not touch",
    )
    parser.add_argument(
        "--format",
        choices=["text", "lines", "json"],
        default="text",
        help="text: with the line shown; lines: one line each, as editors read them; json: for programs",
    )


def _facts(parser: Parser) -> None:
    _folder(parser)
    _trust(parser)
    _size(parser)
    _language(parser)
    parser.add_argument(
        "--colourway", "--colorway", metavar="NAME", help="those of this colourway of the pattern"
    )
    parser.add_argument("--layout", metavar="NAME", help="those of this layout of the pattern")


def _compare(parser: Parser) -> None:
    for name, word in (("old", "OLD"), ("new", "NEW")):
        parser.add_argument(
            name,
            type=Path,
            metavar=word,
            help=f"the {'earlier' if name == 'old' else 'later'} pattern: its folder, or a file that "
            "`booklet facts` printed",
        )
    _language(parser)
    _trust(parser)
    parser.add_argument(
        "--format",
        choices=["text", "json"],
        default="text",
        help="text: lines to read; json: for programs",
    )
    parser.add_argument(
        "--page",
        type=Path,
        metavar="FILE.html",
        help="also write a page for readers, with the earlier figures and pictures beside the present ones",
    )
    parser.add_argument(
        "--replace", action="store_true", help="write the page over a file that is there"
    )


def _plan(parser: Parser) -> None:
    _folder(parser)
    parser.add_argument(
        "block", nargs="?", metavar="BLOCK", help="only this block (default: every block)"
    )
    parser.add_argument("--size", metavar="SIZE", help="as it is sewn in this size")
    parser.add_argument(
        "--write",
        action="store_true",
        help="put the steps into pattern.yaml; steps of your own are replaced only in the BLOCK named",
    )


def _bed(parser: Parser) -> None:
    parser.add_argument(
        "bed",
        nargs="+",
        metavar="BED",
        help="queen, twin xl, uk double …, or a mattress: 60 x 80 in",
    )
    for name, word, help in (
        ("--block", "SIZE", "the finished block: 10 in, or 10 x 12 in"),
        ("--drop", "LENGTH", "how far it hangs down (default: 12 in, or 30 cm)"),
        ("--sashing", "LENGTH", "the width of sashing between the blocks (default: none)"),
        ("--border", "LENGTH", "the widest border you would like (default: 8 in, or 20 cm)"),
    ):
        parser.add_argument(name, nargs="+", metavar=word, help=help, required=name == "--block")
    parser.add_argument(
        "--tuck",
        nargs="*",
        metavar="LENGTH",
        help="what is tucked under the pillows (default: none; without a length 12 in, or 30 cm)",
    )


def _new(parser: Parser) -> None:
    parser.add_argument("folder", type=Path, metavar="FOLDER", help="the folder to make")


def _help(parser: Parser) -> None:
    parser.add_argument(
        "words",
        nargs="*",
        metavar="WORD",
        help="a key, a shape, a rule (the word in brackets of a message), `shapes`, `texts`, `rules`, or "
        "a command; left out: what there is",
    )


def _reference(parser: Parser) -> None:
    parser.add_argument(
        "file",
        type=Path,
        nargs="?",
        default=Path("booklet-reference.html"),
        metavar="FILE",
        help="where to write it (default: booklet-reference.html, here)",
    )
    parser.add_argument("--replace", action="store_true", help="write over a file that is there")


def _schema(parser: Parser) -> None:
    parser.add_argument("--facts", action="store_true", help="of the facts instead of the pattern")


def _completion(parser: Parser) -> None:
    parser.add_argument("shell", metavar="SHELL", choices=SHELLS, help=_or(SHELLS))


SHELLS = ("bash", "zsh", "fish")
_KINDS = {
    "build": ("make the booklet: a web page and PDF files", _build),
    "preview": ("show the booklet in your browser, following every save", _preview),
    "check": ("look for faults; nothing is written", _check),
    "facts": ("print every number of the booklet as JSON, for other programs", _facts),
    "plan": ("show the best order of sewing for each block, beside your own", _plan),
    "compare": ("tell what changed for readers between two states of a pattern", _compare),
    "bed": ("propose blocks and borders for a mattress", _bed),
    "new": ("start a small pattern that builds, with notes that teach", _new),
    "help": ("tell of a key, a shape or a rule of the format, with an example", _help),
    "reference": ("write all of `help` as one web page, with pictures", _reference),
    "schema": ("print the JSON Schema, so that an editor completes and checks", _schema),
    "completion": ("print what makes a shell complete commands and options", _completion),
}
