"""Floor 1, crafts: the registry of units made together: every module beside this one makes one `UNIT`."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from pkgutil import iter_modules

from booklet.crafts.unit import Unit


def _made() -> dict[str, Unit]:
    """The kinds of unit by their key, in the order in which they are made and named."""
    modules = (import_module(f"{__name__}.{found.name}") for found in iter_modules(__path__))
    units: list[Unit] = [module.UNIT for module in modules]
    return {unit.key: unit for unit in sorted(units, key=lambda unit: unit.rank)}


UNITS: Mapping[str, Unit] = _made()
