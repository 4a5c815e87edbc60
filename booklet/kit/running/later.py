"""Floor 0: the names of a package that are fetched from their modules when they are first asked for.

A package that fetched all of its names at once would load every library behind them, also for a command
that needs one small module of it.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any


def later(package: str, homes: Mapping[str, str]) -> Callable[[str], Any]:
    """The `__getattr__` of a package; `homes` gives for each of its modules the names it holds, with
    spaces between. A name is kept once it is fetched."""
    home_of = {name: module for module, names in homes.items() for name in names.split()}

    def fetch(name: str) -> Any:
        if name not in home_of:
            raise AttributeError(f"module {package!r} has no attribute {name!r}")
        value = getattr(import_module(f"{package}.{home_of[name]}"), name)
        setattr(sys.modules[package], name, value)
        return value

    return fetch
