"""Floor 9: the JSON Schema of the facts, for programs that read them."""

from __future__ import annotations

from typing import Any

Schema = dict[str, Any]

_NUMBER: Schema = {"type": "number"}
_COUNT: Schema = {"type": "integer", "minimum": 0}
_INDEX: Schema = {"type": "integer"}
_TEXT: Schema = {"type": "string"}
_FLAG: Schema = {"type": "boolean"}
_BY: Schema = {"enum": ["machine", "hand"]}


def facts_schema() -> Schema:
    """The schema (JSON Schema 2020-12) that every printed facts object satisfies."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Facts of a pattern",
        **_record(
            {"title": _TEXT, "version": _TEXT, "allowance_in": _NUMBER, "sizes": _map(_size())}
        ),
    }


def _size() -> Schema:
    return _record(
        {
            "unit_in": _NUMBER,
            "ruler_in": _NUMBER,
            "blocks": _map(_block()),
            "quilt": _quilt(),
            "cutting": _map(_cloth()),
            "rotary": _list(_rotary()),
            "together": _list(_together()),
            "together_offers": _list(_together()),
            "joined": _list(_joined()),
            "finishing": _finishing(),
            "sittings": _list(_sitting()),
        },
        {"paper_allowance_in": _NUMBER},
    )


def _sitting() -> Schema:
    task = _record(
        {
            "block": _TEXT,
            "cards": _list(_COUNT),
            "by": _BY,
            "chain": _FLAG,
            "count": _COUNT,
            "routes": _COUNT,
            "minutes": _NUMBER,
        },
        {"together": _TEXT},
    )
    return _record({"first": _COUNT, "last": _COUNT, "minutes": _NUMBER, "tasks": _list(task)})


def _block() -> Schema:
    piece = _record(
        {"id": _TEXT, "patch": _TEXT, "reversed": _FLAG, "fabric": _TEXT, "corners_in": _points()},
        {"outline_in": _points()},
    )
    patch = _record(
        {
            "letter": _TEXT,
            "shape": _TEXT,
            "area": _NUMBER,
            "corners_in": _points(),
            "reversed_too": _FLAG,
        },
        {"outline_in": _points(), "curve_marks_in": _points()},
    )
    return _record(
        {
            "finished_in": _pair(_NUMBER),
            "area": _NUMBER,
            "pieces": _list(piece),
            "patches": _list(patch),
            "seams": _list(_seam()),
            "steps": _list(_step()),
            "threads": _list(
                _record(
                    {
                        "seams": _list(_TEXT),
                        "length_in": _NUMBER,
                        "turns": _COUNT,
                        "through": _COUNT,
                        "used_up": _FLAG,
                    }
                )
            ),
            "ways_back": _list(
                _record(
                    {
                        "from_thread": _COUNT,
                        "to_thread": _COUNT,
                        "seams": _list(_TEXT),
                        "length_in": _NUMBER,
                    }
                )
            ),
            "junctions": _list(_junction()),
            "totals": _record(
                {
                    "seams": _COUNT,
                    "machine_in": _NUMBER,
                    "hand_in": _NUMBER,
                    "set_in_joins": _COUNT,
                    "turns": _COUNT,
                    "thread_starts": _COUNT,
                    "thread_bound": _COUNT,
                    "threads_if_runs_are_parted": _COUNT,
                    "ways_back_could_save_in": _NUMBER,
                    "clashes": _COUNT,
                }
            ),
        },
        {"second_version": _second_version(), "fans": _fans()},
    )


def _seam() -> Schema:
    return _record(
        {
            "id": _TEXT,
            "between": _pair(_TEXT),
            "from_in": _pair(_NUMBER),
            "to_in": _pair(_NUMBER),
            "length_in": _NUMBER,
            "by": _BY,
            "step": _COUNT,
            "ends": _pair({"enum": ["edge", "point"]}),
            "press": {"type": "string", "pattern": "^(toward .+|open)$"},
        },
        {"curve_in": _points()},
    )


def _step() -> Schema:
    return _record(
        {
            "n": _COUNT,
            "make": _TEXT,
            "join": _list(_TEXT),
            "by": _BY,
            "kind": {"enum": ["straight", "set-in", "curved", "partial", "ring"]},
            "turns": _COUNT,
            "runs": _list(_list(_TEXT)),
            "times": _COUNT,
            "batch": _COUNT,
        },
        {"rectangle_in": _pair(_NUMBER), "trim": _FLAG},
    )


def _junction() -> Schema:
    return _record(
        {
            "at_in": _pair(_NUMBER),
            "seams": _list(_TEXT),
            "kind": {"enum": ["nest", "fan", "open", "clash"]},
            "layers": _COUNT,
        }
    )


def _fans() -> Schema:
    """What can be fanned of the points at which all seams end."""
    return _record(
        {
            "points": _COUNT,
            "fewest_unfanned": _COUNT,
            "proved_at_least": _COUNT,
            "odd_cycle": _list(_TEXT),
        }
    )


def _second_version() -> Schema:
    """Blocks pressed another way than `seams` say, so that neighbours nest: those at `places`, each
    a column and a row from 0 of the set."""
    return _record(
        {
            "opposite": _FLAG,
            "layout": {"enum": ["chequer", "rows", "columns"]},
            "count": _COUNT,
            "places": _list(_pair(_COUNT)),
            "press": _map({"type": "string", "pattern": "^(toward .+|open)$"}),
        }
    )


def _quilt() -> Schema:
    row = _record(
        {"block": _TEXT, "letter": _TEXT, "fabric": _TEXT, "count": _COUNT, "reversed": _COUNT}
    )
    place = _record(
        {"block": _TEXT, "column": _INDEX, "row": _INDEX, "turn": _NUMBER, "at_in": _pair(_NUMBER)}
    )
    part = _record(
        {
            "name": _TEXT,
            "fabric": _TEXT,
            "shape": _TEXT,
            "finished_in": _pair(_NUMBER),
            "count": _COUNT,
            "places_in": _list(_points()),
        }
    )
    join = _record({"seams": _TEXT, "press": _TEXT, "locks": _COUNT})
    return _record(
        {"blocks": _map(_COUNT), "blocks_made": _COUNT, "patches": _list(row)},
        {
            "finished_in": _pair(_NUMBER),
            "joins_nest": _FLAG,
            "seam_clashes": _COUNT,
            "across": _COUNT,
            "down": _COUNT,
            "joins": _list(join),
            "placed": _list(place),
            "parts": _list(part),
            "kept_in": _points(),
            "slanted_rows": _list(_slanted_row()),
        },
    )


def _slanted_row() -> Schema:
    return _record(
        {
            "kind": _TEXT,  # blocks | sashes
            "number": _COUNT,
            "holds": _list(
                _record({"what": _TEXT}, {"block": _TEXT, "column": _INDEX, "row": _INDEX})
            ),
            "corner_triangle_at_start": _FLAG,
            "corner_triangle_at_end": _FLAG,
        }
    )


def _cloth() -> Schema:
    use = _record({"for": _TEXT, "pieces": _COUNT})
    cut = _record(
        {"for": _TEXT, "method": _TEXT, "outline_in": _points()},
        {"triangles": _list(_TEXT), "reversed": _FLAG},
    )
    laid = _record({"at_in": _NUMBER, "cuts": _list(cut)})
    strip = _record(
        {"cut_in": _NUMBER, "count": _COUNT, "use": _list(use), "laid": _list(laid)},
        {"piece": _COUNT, "lengthwise": _FLAG, "folded": _FLAG},
    )
    buy = _record(
        {"yards": _TEXT, "yards_decimal": _NUMBER, "metres": _NUMBER},
        {"pieces": _COUNT, "pieces_at_least": _COUNT},
    )
    return _record(
        {
            "width_in": _NUMBER,
            "shrinks": _NUMBER,
            "strips": _list(strip),
            "length_in": _NUMBER,
            "area_used": _NUMBER,
            "lower_bound_in": _NUMBER,
            "gap_percent": _NUMBER,
            "buy": buy,
            "left_over": _list(_record({"size_in": _pair(_NUMBER), "count": _COUNT})),
        },
        {"sold_as_in": _pair(_NUMBER)},
    )


def _rotary() -> Schema:
    return _record(
        {
            "for": _TEXT,
            "fabric": _TEXT,
            "method": _TEXT,
            "cut_in": _pair(_NUMBER),
            "exact_in": _pair(_NUMBER),
            "by": {"enum": ["ruler", "half mark", "between marks", "template"]},
            "cuts": _COUNT,
            "pieces": _COUNT,
            "reversed": _COUNT,
        },
        {
            "angle": _NUMBER,
            "outline_in": _points(),
            "diagonals": _record({}, dict.fromkeys(("rising", "falling", "both"), _COUNT)),
            "gives": _list(_record({"cuts": _COUNT, "triangles": _list(_TEXT)})),
            "up_deg": _NUMBER,
        },
    )


def _together() -> Schema:
    cut = _record({"for": _TEXT, "fabric": _TEXT, "cut_in": _list(_NUMBER), "count": _COUNT})
    member = _record({"block": _TEXT, "pieces": _list(_TEXT)})
    return _record(
        {
            "name": _TEXT,
            "method": _TEXT,
            "finished_in": _list(_NUMBER),
            "trim_to_in": _list(_NUMBER),
            "units": _COUNT,
            "made": _COUNT,
            "cuts": _list(cut),
            "members": _list(member),
            "trim": _FLAG,
        },
        {"across_in": _NUMBER},
    )


def _joined() -> Schema:
    piece = _record({"for": _TEXT, "length_in": _NUMBER, "stretches_in": _list(_NUMBER)})
    return _record(
        {
            "fabric": _TEXT,
            "strip_in": _pair(_NUMBER),
            "strips": _COUNT,
            "seam": _TEXT,  # straight
            "join_takes_in": _NUMBER,
            "pieces": _list(piece),
        }
    )


def _finishing() -> Schema:
    size = _pair(_NUMBER)
    triangle = _record({"square_in": _NUMBER, "count": _COUNT, "squares": _COUNT})
    return _record(
        {},
        {
            "binding": _record(
                {
                    "strip_in": _NUMBER,
                    "length_in": _NUMBER,
                    "strips": _COUNT,
                    "fabric": _TEXT,
                    "bias": _FLAG,
                },
                {"seam": _TEXT, "join_takes_in": _NUMBER},
            ),
            "backing": _record(
                {
                    "size_in": size,
                    "widths": _COUNT,
                    "seam": _TEXT,
                    "length_in": _NUMBER,
                    "fabric": _TEXT,
                    "seam_allowance_in": _NUMBER,
                    "panels_run": _TEXT,  # down | across the quilt
                    "panels": _list(
                        _record({"across_cloth_in": _NUMBER, "along_cloth_in": _NUMBER})
                    ),
                }
            ),
            "batting": _record({"size_in": size}),
            "bed": _record(
                {
                    "mattress_in": _list(_NUMBER),
                    "wanted_in": _list(_NUMBER),
                    "drop_in": _NUMBER,
                    "left_in": _NUMBER,
                }
            ),
            "setting_triangles": _record({}, {"side": triangle, "corner": triangle}),
            "borders": _list(
                _record(
                    {
                        "strips": _COUNT,
                        "lengths_in": _list(_NUMBER),
                        "width_in": _NUMBER,
                        "fabric": _TEXT,
                        "corners": _TEXT,
                        "outside_in": size,
                    }
                )
            ),
        },
    )


def _record(needed: dict[str, Schema], optional: dict[str, Schema] | None = None) -> Schema:
    return {
        "type": "object",
        "properties": {**needed, **(optional or {})},
        "required": sorted(needed),
    }


def _map(value: Schema) -> Schema:
    return {"type": "object", "additionalProperties": value}


def _list(item: Schema) -> Schema:
    return {"type": "array", "items": item}


def _pair(item: Schema) -> Schema:
    return {"type": "array", "items": item, "minItems": 2, "maxItems": 2}


def _points() -> Schema:
    return _list(_pair(_NUMBER))
