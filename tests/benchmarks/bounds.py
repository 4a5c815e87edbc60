"""What `check` costs on sources at the bounds: seconds of the processor and the most memory, one line each.

Each source is checked in a process of its own. The promise is 20 s of processor time and 500 MiB, on any source
that is let in. Run: python tests/benchmarks/bounds.py [part of a name ...]
"""

import io
import json
import math
import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image

PATTERNS = Path(__file__).parent.parent / "patterns"
EXAMPLE = Path(__file__).parent.parent.parent / "example_pattern"
MOST_SECONDS, MOST_MIB = 20, 500
HEAD = """\
title: At the bounds
sizes: {lap: {title: Lap, unit: 1 in, blocks: 1}}
fabrics: {ink: {name: Ink, colour: "#243b6b"}, sand: {name: Sand, colour: "#e9dcc3"}}
"""
PROGRAM = """
import json, resource, sys
from pathlib import Path
resource.setrlimit(resource.RLIMIT_CPU, (60, 60))
resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))
from booklet.recipe.compiler import check
try:
    found = check(Path(sys.argv[1]))
    told = [(d.severity.value, d.code, d.message) for d in found.diagnostics]
except Exception as fault:
    told = [("crash", type(fault).__name__, str(fault)[:80])]
used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
print(json.dumps([sum(u.ru_utime + u.ru_stime for u in used), sum(u.ru_maxrss for u in used) / 1024, told]))
"""


MINI = ("  mini: {title: Mini, unit: 1/2 in, blocks: 1}\n", "")


def kept(name: str, *changes: tuple[str, str]) -> str:
    """A pattern of the tests with some words changed."""
    text = (PATTERNS / name / "pattern.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text, (name, old)
        text = text.replace(old, new)
    return text


def with_sizes(text: str, count: int, step: float = 0.125) -> str:
    """A pattern with other sizes: `count` of them, each a little larger."""
    sizes = "".join(
        f"  s{n}: {{title: Size {n}, unit: {1 + n * step} in, blocks: 1}}\n" for n in range(count)
    )
    before, _, after = text.partition("sizes:")
    return before + "sizes:\n" + sizes + after[after.index("fabrics:") :]


def row(count: int, sew: str = "auto") -> str:
    cells = ", ".join("ink" if n % 2 else "sand" for n in range(count))
    return HEAD + f"blocks: {{row: {{grid: [[{cells}]], sew: {sew}}}}}\n"


def grid(across: int, down: int) -> str:
    rows = [
        f"[{', '.join('ink' if (x + y) % 2 else 'sand' for x in range(across))}]"
        for y in range(down)
    ]
    return HEAD + f"blocks: {{field: {{grid: [{', '.join(rows)}]}}}}\n"


def zigzag(corners: int) -> str:
    """Two pieces with so many corners each, their seam a zigzag."""
    middle = [f"[{n}, {1 + n % 2}]" for n in range(corners - 1)]
    wide = corners - 2
    low = ", ".join([f"[{wide}, 4]", "[0, 4]", *middle])
    high = ", ".join([f"[{wide}, 0]", *reversed(middle), "[0, 0]"])
    return HEAD + (
        "patches:\n"
        f"  low: {{shape: polygon, corners: [{low}]}}\n  high: {{shape: polygon, corners: [{high}]}}\n"
        "blocks:\n  z:\n    pieces:\n      - {id: a, patch: low, fabric: ink, at: [0, 0]}\n"
        "      - {id: b, patch: high, fabric: sand, at: [0, 0]}\n"
    ).replace("unit: 1 in", "unit: 1/8 in")


def pieces_of_a_circle(corners: int) -> str:
    """A disc with so many corners, and the square round it."""
    around = [
        f"[{5 + 4 * math.cos(2 * math.pi * n / corners):.6f}, {5 + 4 * math.sin(2 * math.pi * n / corners):.6f}]"
        for n in range(corners)
    ]
    return HEAD + (
        f"patches: {{disc: {{shape: polygon, corners: [{', '.join(around)}]}}}}\n"
        "blocks: {b: {pieces: [{id: a, patch: disc, fabric: ink, at: [0, 0]}]}}\n"
    )


def row_of_pieces(count: int, sew: str = "auto") -> str:
    """A row of squares, each written down."""
    pieces = "".join(
        f"      - {{id: p{n}, patch: s, fabric: {'ink' if n % 2 else 'sand'}, at: [{n - 0.5}, 0.5]}}\n"
        for n in range(1, count + 1)
    )
    return (
        HEAD.replace("unit: 1 in", "unit: 1/8 in")
        + f"patches: {{s: {{shape: square, side: 1}}}}\nblocks:\n  row:\n    pieces:\n{pieces}    sew: {sew}\n"
    )


def steps(count: int) -> str:
    """A row sewn by a step for each square."""
    made = ["{make: u1, join: [p1, p2]}"]
    made += [f"{{make: u{n}, join: [u{n - 1}, p{n + 1}]}}" for n in range(2, count + 1)]
    return row_of_pieces(count + 1, "\n" + "".join(f"      - {step}\n" for step in made))


def rings(name: str = "hexagon_rosette_3") -> str:
    """The rosette of three rings, each ring made first and then set in."""
    text = kept(name)
    first, second, third = (
        ", ".join(f"{k}{n}" for n in range(1, 7) for k in ring) for ring in ("h", "ij", "lmn")
    )
    return text + (
        "    sew:\n"
        f"      - {{make: one, join: [c, {first}]}}\n      - {{make: two, join: [{second}]}}\n"
        f"      - {{make: three, join: [{third}]}}\n      - {{make: rosette, join: [one, two, three]}}\n"
    )


def rosette(rings: int) -> str:
    """A rosette of so many rings, each joined at once and by hand."""
    rows = {k: [(q, r) for q in range(-rings, rings + 1) for r in range(-rings, rings + 1)
                if max(abs(q), abs(r), abs(q + r)) == k] for k in range(rings + 1)}  # fmt: skip
    for there in rows.values():
        there.sort(key=lambda at: math.atan2(at[1] * 1.5, (at[0] + at[1] / 2) * math.sqrt(3)))
    pieces = "".join(
        f"      - {{id: p{k}x{n}, patch: hex, fabric: ink, at: [({q} + {r} / 2) * sqrt(3), {r} * 1.5]}}\n"
        for k, there in rows.items()
        for n, (q, r) in enumerate(there)
    )
    names = {k: ", ".join(f"p{k}x{n}" for n in range(len(there))) for k, there in rows.items()}
    made = "".join(
        f"      - {{make: {f'u{k}' if k < rings else 'big'}, join: [{f'u{k - 1}' if k > 1 else 'p0x0'}, {names[k]}], by: hand}}\n"
        for k in range(1, rings + 1)
    )
    return (
        HEAD.replace("unit: 1 in", "unit: 1/2 in")
        + f"patches: {{hex: {{shape: hexagon, side: 1}}}}\nblocks:\n  big:\n    pieces:\n{pieces}    sew:\n{made}"
    )


def window_by_rings(first: str, second: str) -> str:
    """The block of the example in two steps."""
    text = (EXAMPLE / "pattern.yaml").read_text(encoding="utf-8")
    before, _, after = text.partition("    sew:\n")
    after = after[after.index("\nsewing:") :].partition("\nbooklet:")[0]
    return (
        before
        + f"    sew:\n      - {{make: in, join: [{first}]}}\n"
        + (f"      - {{make: window, join: [in, {second}]}}\n" + after + "\n")
    )


Files = dict[str, str | bytes]


def drawn(*drawings: str) -> Files:
    """A block for each drawing."""
    names = [f"d{n}.svg" for n in range(len(drawings))]
    blocks = "".join(f"  b{n}: {{drawing: {name}}}\n" for n, name in enumerate(names))
    return {"pattern.yaml": f"{HEAD}blocks:\n{blocks}", **dict(zip(names, drawings, strict=True))}


def drawing(inside: str) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg">{inside}</svg>'


def squares(across: int, down: int) -> str:
    """A drawing of a field of squares."""
    fills = ("#243b6b", "#e9dcc3")
    return drawing(
        "".join(
            f'<rect x="{x}" y="{y}" width="1" height="1" fill="{fills[(x + y) % 2]}"/>'
            for x in range(across)
            for y in range(down)
        )
    )


def many_classes() -> str:
    """A drawing of nearly a megabyte whose shapes name a class again and again, each of which is looked up."""
    shape = f'<rect class="{"a " * 99_000}" width="1" height="1"/>'
    return drawing("<style>.a{fill:#243b6b}</style>" + shape * 5)


def picture(mode: str, kind: str, side: int = 7_071) -> Files:
    """A logo of nearly 50 million pixels."""
    stream = io.BytesIO()
    Image.new(mode, (side, side)).save(stream, kind)
    text = HEAD + "blocks: {b: {grid: [[ink]]}}\nbooklet: {look: {logo: big.png}}\n"
    return {"pattern.yaml": text, "big.png": stream.getvalue()}


HEART = "c, h1, h2, h3, h4"
LEDGES = "t1, t2, t3, t4, p1, p2, p3, p4, q1, q2, q3, q4"
SOURCES = {
    **{
        f"curves, unit {unit} in": lambda unit=unit: kept(
            "quarter_circles", ("unit: 2 in", f"unit: {unit} in"), MINI
        )
        for unit in (30, 100, 1000, 10_000, 100_000)
    },
    "curves, unit 1/1000 in": lambda: kept("quarter_circles", ("unit: 2 in", "unit: 1/1000 in")),
    "a row of 100 squares": lambda: row(100),
    "a row of 300 squares": lambda: row(300),
    "a row of 1000 squares": lambda: row(1000),
    "a row of 6000 pieces": lambda: row_of_pieces(6000),
    "a field of 20 x 20": lambda: grid(20, 20),
    "a field of 30 x 30": lambda: grid(30, 30),
    "a field of 60 x 60": lambda: grid(60, 60),
    "a field of 77 x 77": lambda: grid(77, 77),
    "a field of 141 x 141": lambda: grid(141, 141),
    "a seam of 100 corners": lambda: zigzag(100),
    "a seam of 300 corners": lambda: zigzag(300),
    "a seam of 398 corners": lambda: zigzag(398),
    "a seam of 1000 corners": lambda: zigzag(1000),
    "a disc of 1000 corners": lambda: pieces_of_a_circle(1000),
    "12 sizes": lambda: with_sizes(kept("nine_patch"), 12),
    "40 sizes": lambda: with_sizes(kept("nine_patch"), 40),
    "60 sizes": lambda: with_sizes(kept("nine_patch"), 60),
    "4000 sizes": lambda: with_sizes(kept("nine_patch"), 4000),
    "500 steps": lambda: steps(500),
    "1000 steps": lambda: steps(1000),
    "5000 steps": lambda: steps(5000),
    "bricks in 5 sizes": lambda: with_sizes(kept("brick"), 5),
    "bricks in 12 sizes": lambda: with_sizes(kept("brick"), 12),
    "bricks in 60 sizes": lambda: with_sizes(kept("brick"), 60, 1 / 64),
    "a drawing of 2000 shapes": lambda: drawn(squares(50, 40)),
    "five drawings of a megabyte": lambda: drawn(*[many_classes()] * 5),
    "a PNG of 50 million pixels": lambda: picture("RGBA", "PNG"),
    "a JPEG of 50 million pixels": lambda: picture("RGB", "JPEG"),
    "rosette by rings": rings,
    "window: heart, then all": lambda: window_by_rings(HEART, f"{LEDGES}, k1, k2, k3, k4"),
    "window: 13, then 8 at once": lambda: window_by_rings(
        f"{HEART}, t1, t2, t3, t4, p1, p2, q1, q2", "p3, p4, q3, q4, k1, k2, k3, k4"
    ),
    "rosette of 19: 13 at once": lambda: kept("rosette_13_at_once"),
    "rosette of 19: 13, then 7": lambda: kept("rosette_13_first"),
    "rosette of 37: 19 at once": lambda: kept("rosette_37_at_once"),
    "rosette of 19 in 60 sizes": lambda: with_sizes(kept("rosette_13_at_once"), 60, 0.03125),
    "rosette of 817, ring by ring": lambda: rosette(16),
    "rosette of 4921, ring by ring": lambda: rosette(40),
    "300 triangles": lambda: kept("triangles_300"),
    "10000 blocks": lambda: kept("nine_patch").replace("blocks: 1", "blocks: 100 x 100"),
}  # fmt: skip


def measured(source: str | Files) -> tuple[float, float, list[tuple[str, str, str]]] | None:
    """Seconds of the processor, MiB, and what was told; None where it took more than a minute."""
    with tempfile.TemporaryDirectory() as folder:
        files: Files = {"pattern.yaml": source} if isinstance(source, str) else source
        for name, data in files.items():
            (Path(folder) / name).write_bytes(data.encode() if isinstance(data, str) else data)
        told = subprocess.run(
            [sys.executable, "-c", PROGRAM, folder], capture_output=True, text=True, check=False
        )
    return json.loads(told.stdout) if told.returncode == 0 else None


def main() -> None:
    worst = [0.0, 0.0]
    print(f"{'source':32}{'s':>8}{'MiB':>7}  first told")
    for name, make in SOURCES.items():
        if sys.argv[1:] and not any(word in name for word in sys.argv[1:]):
            continue
        found = measured(make())
        if found is None:
            print(f"{name:32}    over 60 s or 4 GiB")
            worst = [math.inf, math.inf]
            continue
        seconds, mib, told = found
        first = " ".join(told[0])[:110] if told else "no faults"
        mark = " " if seconds <= MOST_SECONDS and mib <= MOST_MIB else "!"
        print(f"{name:32}{seconds:8.1f}{mib:7.0f} {mark}{first}", flush=True)
        worst = [max(worst[0], seconds), max(worst[1], mib)]
    print(f"\nworst: {worst[0]:.1f} s of processor time, {worst[1]:.0f} MiB")


if __name__ == "__main__":
    main()
