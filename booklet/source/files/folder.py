"""Floor 2: the only access to the pattern's folder. Reads inside it, files of a fit size, and no more."""

from __future__ import annotations

import base64
import json
import os
import re
import stat
from contextlib import suppress
from hashlib import sha256
from pathlib import Path, PurePosixPath, PureWindowsPath
from types import MappingProxyType

from booklet.kit.bounds import MOST_FONT, MOST_PICTURE, MOST_TEXT, MOST_TEXTS, MOST_TOTAL
from booklet.kit.diagnostic import Span
from booklet.kit.letters import unshown
from booklet.kit.records import replace
from booklet.pattern import OwnFont
from booklet.source.faults import Faults, invisible
from booklet.source.files.apart import ReadingWorkers
from booklet.source.tree.node import shortened
from booklet.source.values.kinds import Inches

SOURCE = "pattern.yaml"
_PICTURES = "booklet.source.files.picture_file"
_FONT = "booklet.source.files.font_file"
_DRAWN = "booklet.source.drawings.drawn_picture"
DOTS = 300  # an inch: more than a printer shows and an eye sees (common practice)
MOST_READY = 64
_READY: dict[tuple[bytes, Inches], bytes] = {}
_FONTS: dict[bytes, OwnFont] = {}
"""Pictures and fonts made ready, by the digest of their files: a preview reads them again after every edit."""
_ADDRESS = re.compile(r"[A-Za-z][A-Za-z0-9+.-]+:|//|\\\\")


class Folder:
    """A pattern's folder. Every read gives None and notes a fault when it must refuse."""

    def __init__(self, root: Path, faults: Faults, given: bytes | None = None) -> None:
        """`given`, if not None, is read in place of the folder's `pattern.yaml`."""
        self._root, self._faults, self._given = root, faults, given
        self._total = self._texts = 0
        self.seen: dict[str, bytes] = {}
        """What was read of it, by name."""
        self.apart = ReadingWorkers(faults)
        """Who reads its drawings and pictures."""

    def close(self) -> None:
        """Let go of those who read for it."""
        self.apart.close()

    def exists(self, name: str) -> bool:
        """Whether a file of that name can be reached inside the folder."""
        try:
            return (self._root / name).is_file()
        except (OSError, ValueError):
            return False

    def names(self, below: str, ending: str) -> tuple[str, ...]:
        """The files of a folder inside the folder whose names end so, in order; at most a hundred.

        A folder that is there and cannot be looked into is a fault: nobody would see what is missing."""
        try:
            found = [entry.name for entry in (self._root / below).iterdir()]
        except (FileNotFoundError, NotADirectoryError, ValueError):
            return ()
        except OSError:
            message = f"the folder `{shortened(below)}` cannot be looked into"
            self.refuse("unreadable-source", message, Span.whole(below), "check who may read it")
            return ()
        return tuple(f"{below}/{name}" for name in sorted(found) if name.endswith(ending))[:100]

    def text(self, name: str, span: Span) -> str | None:
        """The text of a file in UTF-8, a byte order mark taken off."""
        data = self._bytes(name, span, MOST_TEXT)
        if data is None:
            return None
        self._texts += len(data)
        if self._texts > MOST_TEXTS:
            message = f"with `{shortened(name)}` texts and drawings have more than {_mb(MOST_TEXTS)} MB together"
            self.refuse("too-large", message, span, "make them smaller, or their number")
            return None
        try:
            text = data.decode("utf-8-sig")
        except UnicodeDecodeError as fault:
            before = data[: fault.start].decode("utf-8-sig", errors="replace")
            line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
            where = Span(name, line, column, column + 1)
            message = f"`{shortened(name)}` is not written in UTF-8"
            self.refuse(
                "unreadable-source", message, where, "save it again as UTF-8 in your editor"
            )
            return None
        if found := unshown(text):
            line, column, code = found
            self.refuse("unreadable-source", *invisible(code, Span(name, line, column, column + 1)))
            return None
        return text

    def picture(self, name: str, span: Span, box: Inches, drawn: bool = False) -> bytes | None:
        """The bytes of a PNG or JPEG picture made ready to be printed in a box of so many inches; where it may be
        `drawn`, also of an SVG."""
        if drawn and name.lower().endswith(".svg"):
            return self._drawn_picture(name, span)
        if name.lower().endswith((".svg", ".svgz")):
            message = f"`{shortened(name)}` is an SVG drawing, which cannot be a picture yet"
            self.refuse("not-yet", message, span, "save it as PNG or JPEG")
            return None
        data = self._bytes(name, span, MOST_PICTURE)
        if data is None:
            return None
        key = sha256(data).digest(), box
        if key not in _READY:
            asked = json.dumps([round(side * DOTS) for side in box])
            told = self.apart.told(_PICTURES, name, data, span, asked)
            if told is None:
                return None
            if told["fault"]:
                code, complaint, hint = told["fault"]
                self.refuse(code, f"`{shortened(name)}` {complaint}", span, hint)
                return None
            if len(_READY) >= MOST_READY:
                _READY.clear()
            _READY[key] = base64.b64decode(told["data"])
        return _READY[key]

    def _drawn_picture(self, name: str, span: Span) -> bytes | None:
        """The bytes of an SVG that is shown as it is, but for what its drawing program wrote beside it."""
        text = self.text(name, span)
        told = (
            self.apart.told(_DRAWN, name, text.encode("utf-8"), span) if text is not None else None
        )
        if told is None:
            return None
        for code, message, (line, column, end), hint in told["faults"]:
            self.refuse(code, message, Span(name, line, column, end), hint)
        return told["data"].encode("utf-8") if told["data"] else None

    def font(self, name: str, span: Span) -> OwnFont | None:
        """A font that may be embedded, made ready."""
        data = self._bytes(name, span, MOST_FONT)
        if data is None:
            return None
        key = sha256(data).digest()
        if key not in _FONTS:
            told = self.apart.told(_FONT, name, data, span)
            if told is None:
                return None
            if told["fault"]:
                complaint, hint = told["fault"]
                self.refuse("bad-font", f"`{shortened(name)}` {complaint}", span, hint)
                return None
            if len(_FONTS) >= MOST_READY:
                _FONTS.clear()
            widths = MappingProxyType({int(code): int(wide) for code, wide in told["widths"]})
            data = base64.b64decode(told["data"])
            _FONTS[key] = OwnFont(data, int(told["em"]), widths, span)
        return replace(_FONTS[key], span=span)

    def _instead(self, name: str) -> str:
        """What to do about a file that is not there."""
        if name != SOURCE:
            return "check the name, or add the file"
        with suppress(OSError):
            for near in sorted(entry.name for entry in self._root.iterdir()):
                if near.lower() in ("pattern.yml", "pattern.yaml.txt", "pattern.txt", SOURCE):
                    return f"rename `{near}` to `{SOURCE}`"
        return "check which folder you named, or start a pattern with `booklet new`"

    def refuse(self, code: str, message: str, span: Span, hint: str | None) -> None:
        """Note a fault of a file."""
        self._faults.add(code, message, span, hint)

    def _inside(self, name: str, span: Span) -> Path | None:
        """The real path of a name, or None if it leads out of the folder."""
        shown = shortened(name)
        if _ADDRESS.match(name) and PureWindowsPath(name).drive[1:2] != ":":
            message = f"`{shown}` is an address; nothing is fetched from the network"
            hint = "save the file in the pattern's folder and write its name"
            self.refuse("remote-address", message, span, hint)
            return None
        outside = f"`{shown}` does not lie in the pattern's folder"
        hint = "move the file into the folder and write its name, such as `text/welcome.md`"
        parts = PurePosixPath(name.replace("\\", "/")).parts
        if not parts or ".." in parts or parts[0] in ("/", "~") or PureWindowsPath(name).drive:
            self.refuse("outside-folder", outside, span, hint)
            return None
        try:
            root = self._root.resolve()
            path = (self._root / name).resolve()
        except (OSError, ValueError, RuntimeError):
            self.refuse("unreadable-source", f"`{shown}` cannot be read", span, "check its name")
            return None
        if path != root and root not in path.parents:
            self.refuse("outside-folder", outside, span, hint)
            return None
        return path

    def _bytes(self, name: str, span: Span, most: int) -> bytes | None:
        """The bytes of a plain file that is not too large; its size is asked before it is read."""
        path = self._inside(name, span)
        if path is None:
            return None
        shown = shortened(name)
        if not self._root.is_dir():
            message = f"there is no folder `{shortened(self._root.name)}`"
            self.refuse(
                "unreadable-source", message, span, "check where you are and how it is spelt"
            )
            return None
        if name == SOURCE and self._given is not None:
            return self._given if self._fits(shown, len(self._given), span, most) else None
        try:
            about = os.stat(path)
            if not stat.S_ISREG(about.st_mode):
                message = f"`{shown}` is not a file"
                self.refuse("unreadable-source", message, span, "write the name of a file")
                return None
            if not self._fits(shown, about.st_size, span, most):
                return None
            with path.open("rb") as file:
                self.seen[name] = file.read(most)
                return self.seen[name]
        except FileNotFoundError:
            message = f"there is no file `{shown}` in the folder"
            self.refuse("unreadable-source", message, span, self._instead(name))
        except (OSError, ValueError):
            message = f"`{shown}` cannot be read"
            self.refuse("unreadable-source", message, span, "check who may read the file")
        return None

    def _fits(self, shown: str, size: int, span: Span, most: int) -> bool:
        """Whether a file of that many bytes may be read beside those read before; notes a fault if not."""
        self._total += size
        if size > most:
            message = f"`{shown}` has {_mb(size)} MB; at most {_mb(most)} MB are read"
            self.refuse("too-large", message, span, "make it smaller")
        elif self._total > MOST_TOTAL:
            message = f"with `{shown}` the files have more than {_mb(MOST_TOTAL)} MB together"
            self.refuse("too-large", message, span, "make the pictures smaller")
        return size <= most and self._total <= MOST_TOTAL


def source_text(folder: Path, file: str, given: bytes | None = None) -> str | None:
    """The text of a file of the pattern, to show a line of it; None where it cannot be read. `given`
    stands for `pattern.yaml`."""
    return Folder(folder, Faults(), given).text(file, Span.whole(file))


def _mb(size: int) -> str:
    return f"{size / 1_000_000:.1f}".removesuffix(".0")
