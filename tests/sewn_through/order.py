"""The order of sewing: every step can be done when its turn comes, and nothing is sewn twice or left open."""

import math
from collections import Counter, defaultdict
from itertools import pairwise

NEAR = 1e-4
CHORDS = (
    0.2  # radians: curves are given as chords, which bend a little where the curve goes straight on
)


def complaints(facts):
    """What cannot be sewn in the stated order in any block of any size."""
    return [
        f"{id}, block {name}: {fault}"
        for id, size in facts["sizes"].items()
        for name, block in size["blocks"].items()
        for check in (_steps, _runs, _ends, _threads, _totals, _cards)
        for fault in dict.fromkeys(check(name, block))
    ]


def _steps(name, block):
    """Parts exist when they are joined and are used once; a step sews every seam between its parts; a
    partial seam is begun once and finished once; at last the block is whole."""
    seams = {seam["id"]: seam for seam in block["seams"]}
    units = {piece["id"]: frozenset([piece["id"]]) for piece in block["pieces"]}
    free = set(units)
    sewn, begun = Counter(), set()
    numbers = [step["n"] for step in block["steps"]]
    if numbers != sorted(numbers) or len(set(numbers)) != len(numbers):
        yield f"steps are numbered {numbers}"
    for step in block["steps"]:
        runs = [id for run in step["runs"] for id in run]
        sewn.update(runs)
        for part in step["join"]:
            if part not in units:
                yield f"step {step['n']} joins {part}, which is not made yet"
        parts = [units[part] for part in step["join"] if part in units]
        finishes = [id for id in runs if id in begun]
        if finishes:
            begun -= set(finishes)
            made = max((u for k, u in units.items() if k in free), key=len)
            if not all(part <= made for part in parts):
                yield f"step {step['n']} finishes a seam between parts that are not sewn together"
        else:
            for part in step["join"]:
                if part in units and part not in free:
                    yield f"step {step['n']} joins {part} a second time"
            made = frozenset().union(*parts)
            if len(made) != sum(len(part) for part in parts):
                yield f"step {step['n']} joins parts that share pieces"
        if len(parts) < 2:
            yield f"step {step['n']} joins {len(parts)} parts"
        for id in runs:
            if not set(seams[id]["between"]) <= made:
                yield f"step {step['n']} sews {id}, which is not between its parts"
            if not finishes and sum(bool(set(seams[id]["between"]) & p) for p in parts) < 2:
                yield f"step {step['n']} sews {id}, which lies within one part"
        if step["kind"] == "partial" and not finishes:  # of a run it stops within the last
            begun |= {run[-1] for run in step["runs"]}
        open_ones = [
            seam["id"]
            for seam in block["seams"]
            if set(seam["between"]) <= made and not sewn[seam["id"]]
        ]
        if open_ones and not begun:
            yield f"step {step['n']} leaves {open_ones} open"
        free = {key for key in free if not units[key] <= made}
        units[step["make"]] = made
        free.add(step["make"])
    if begun:
        yield f"{sorted(begun)} are begun and never finished"
    if block["steps"] and units[block["steps"][-1]["make"]] != {p["id"] for p in block["pieces"]}:
        yield "the last step does not make the whole block"
    if block["steps"] and block["steps"][-1]["make"] != name:
        yield f"the last step makes {block['steps'][-1]['make']}"
    partly = {id for s in block["steps"] if s["kind"] == "partial" for r in s["runs"] for id in r}
    for id in seams:
        if sewn[id] != 1 and not (sewn[id] == 2 and id in partly):
            yield f"{id} is sewn {sewn[id]} times"
        if not any(step["n"] == seams[id]["step"] for step in block["steps"]):
            yield f"{id} is sewn in step {seams[id]['step']}, which does not exist"
    for step in block["steps"]:
        for id in (id for run in step["runs"] for id in run):
            if seams[id]["step"] != step["n"] and id not in partly:
                yield f"{id} is sewn in step {step['n']}, its own line says {seams[id]['step']}"
            if seams[id]["by"] != step["by"]:
                yield f"{id} is sewn by {seams[id]['by']}, its step by {step['by']}"


def path(run, seams):
    """The points of a run of seams in order, or None where two that follow share no point."""
    at = None
    points = []
    for k, id in enumerate(run):
        a, b = seams[id]["from_in"], seams[id]["to_in"]
        if k == 0:
            after = run[1] if len(run) > 1 else None
            if after and not _is_end(seams[after], b):
                a, b = b, a
            points.append(tuple(a))
        elif _same(a, at):
            pass
        elif _same(b, at):
            a, b = b, a
        else:
            return None
        points.append(tuple(b))
        at = b
    return points


def _same(a, b):
    return math.dist(a, b) < NEAR


def _is_end(seam, point):
    return _same(seam["from_in"], point) or _same(seam["to_in"], point)


def _direction(seam, a, b, at_start):
    """Which way a seam leads at one of its ends, when it is walked from a to b."""
    curve = [tuple(p) for p in seam.get("curve_in", [a, b])]
    if not _same(curve[0], a):
        curve.reverse()
    p, q = (curve[0], curve[1]) if at_start else (curve[-2], curve[-1])
    return math.atan2(q[1] - p[1], q[0] - p[0])


def turns(run, seams):
    """The points at which a run changes direction."""
    points = path(run, seams)
    if points is None:
        return []
    found = []
    for k in range(len(run) - 1):
        into = _direction(seams[run[k]], points[k], points[k + 1], False)
        out = _direction(seams[run[k + 1]], points[k + 1], points[k + 2], True)
        bend = (out - into + math.pi) % (2 * math.pi) - math.pi
        curved = "curve_in" in seams[run[k]] or "curve_in" in seams[run[k + 1]]
        if abs(bend) > (CHORDS if curved else 1e-2):
            found.append(points[k + 1])
    return found


def corners_set_in(run, seams):
    """The turns of a run; of one that leads round to its beginning, the corner there is one too."""
    points = path(run, seams)
    found = turns(run, seams)
    if points and len(run) > 2 and _same(points[0], points[-1]):
        again = [run[-1], *run[:-1]]
        found = [p for p in turns(again, seams) if _same(p, points[0])] + found
    return found


def _runs(_name, block):
    """A run goes on from point to point, and turns as often as its step says."""
    seams = {seam["id"]: seam for seam in block["seams"]}
    for step in block["steps"]:
        for run in step["runs"]:
            if path(run, seams) is None:
                yield f"step {step['n']}: the run {run} does not go on from point to point"
        count = sum(len(corners_set_in(run, seams)) for run in step["runs"])
        if not count <= step["turns"] <= count + _meetings(step, seams):
            yield f"step {step['n']}: its runs turn {count} times, told are {step['turns']}"
        if (step["kind"] == "set-in") and not count:
            yield f"step {step['n']} is called set-in and does not turn"
        if step["kind"] == "straight" and count:
            yield f"step {step['n']} is called straight and turns"


def _meetings(step, seams):
    """At how many points a run of a step ends where another begins: a thread is used up at a corner."""
    ends = [
        points[k]
        for points in (path(run, seams) for run in step["runs"])
        if points
        for k in (0, -1)
    ]
    return sum(_same(a, b) for k, a in enumerate(ends) for b in ends[:k])


def _ends(_name, block):
    """Where a run turns, every seam that is sewn by then stops at the point."""
    seams = {seam["id"]: seam for seam in block["seams"]}
    at = defaultdict(list)
    for seam in block["seams"]:
        for key, end in zip(("from_in", "to_in"), seam["ends"], strict=True):
            at[round(seam[key][0], 3), round(seam[key][1], 3)].append((seam, end))
    for step in block["steps"]:
        for run in step["runs"]:
            for point in corners_set_in(run, seams):
                for seam, end in at[round(point[0], 3), round(point[1], 3)]:
                    if seam["step"] <= step["n"] and end == "edge":
                        yield f"step {step['n']} turns over the end of {seam['id']}, sewn to the edge"


def _threads(_name, block):
    """Every hand seam lies on one thread, each thread goes on from point to point or back over what is sewn, in the
    order of steps."""
    seams = {seam["id"]: seam for seam in block["seams"]}
    on = Counter(id for thread in block["threads"] for id in thread["seams"])
    for id, seam in seams.items():
        if on[id] != (1 if seam["by"] == "hand" else 0):
            yield f"{id}, sewn by {seam['by']}, lies on {on[id]} threads"
    for number, thread in enumerate(block["threads"], 1):
        run = thread["seams"]
        legs = _legs(thread)
        if any(path(leg, seams) is None for leg in legs):
            yield f"thread {number}: {run} does not go on from point to point"
        yield from _gone_back(number, thread, legs, seams)
        if abs(sum(seams[id]["length_in"] for id in run) - thread["length_in"]) > 1e-3:
            yield f"thread {number}: {thread['length_in']} in is told"
        count = sum(len(turns(leg, seams)) for leg in legs)
        if count != thread["turns"]:
            yield f"thread {number} turns {count} times, told are {thread['turns']}"
        order = [seams[id]["step"] for id in run]
        if order != sorted(order):
            yield f"thread {number} goes back to an earlier step: {order}"
    threads = [thread["seams"] for thread in block["threads"]]
    place = {id: (t, k) for t, run in enumerate(threads) for k, id in enumerate(run)}
    for step in block["steps"]:
        for run, begun in zip(step["runs"], step["begun_at_corner"], strict=False):
            for one, other in pairwise(run):
                here, there = place.get(one), place.get(other)
                apart = here and there and here[0] == there[0] and abs(here[1] - there[1]) != 1
                if apart and not begun:
                    yield f"step {step['n']}: {one} and {other} follow each other, on the thread not"


def _legs(thread):
    """The seams of a thread between its ways back."""
    cuts = [0, *sorted(way["before"] for way in thread["ways_back"]), len(thread["seams"])]
    return [thread["seams"][a:b] for a, b in pairwise(cuts)]


def _gone_back(number, thread, legs, seams):
    """A way back leads from where a thread has sewn to where it sews on, over seams that are sewn by then."""
    done = [way for way in thread["ways_back"] if not way["loose"]]
    if abs(sum(way["length_in"] for way in done) - thread["back_in"]) > 1e-3:
        yield f"thread {number}: {thread['back_in']} in gone back are told"
    for way in done:
        k = way["before"]
        before, after = thread["seams"][k - 1], thread["seams"][k]
        if not _joined(before, way["seams"], after, seams):
            yield f"thread {number}: {way['seams']} does not lead from {before} to {after}"
        late = [id for id in way["seams"] if seams[id]["step"] > seams[after]["step"]]
        late += [id for id in way["seams"] if id in thread["seams"][k:]]
        if late:
            yield f"thread {number} goes back over {late}, not yet sewn"
        if abs(sum(seams[id]["length_in"] for id in way["seams"]) - way["length_in"]) > 1e-3:
            yield f"thread {number}: a way back of {way['length_in']} in is told"


def _joined(before, back, after, seams):
    """Whether some seams lead from an end of one seam to an end of another."""
    ends = [[seams[id]["from_in"], seams[id]["to_in"]] for id in (before, after)]
    here = list(ends[0])
    for id in back:
        a, b = seams[id]["from_in"], seams[id]["to_in"]
        here = [q for p in here for q, r in ((b, a), (a, b)) if _same(p, r)]
    return any(_same(p, q) for p in here for q in ends[1])


def _totals(_name, block):
    """The totals of a block are the sums of its lines."""
    seams, told = block["seams"], block["totals"]
    table = {seam["id"]: seam for seam in seams}
    sums = {
        "seams": len(seams),
        "machine_in": sum(s["length_in"] for s in seams if s["by"] == "machine"),
        "hand_in": sum(s["length_in"] for s in seams if s["by"] == "hand"),
        "set_in_joins": sum(bool(turns(run, table)) for s in block["steps"] for run in s["runs"]),
        "turns": sum(step["turns"] for step in block["steps"]),
        "thread_starts": len(block["threads"]),
        "clashes": sum(j["kind"] == "clash" for j in block["junctions"]),
    }
    for key, found in sums.items():
        if abs(found - told[key]) > 1e-3:
            yield f"totals: {key} is {told[key]}, the lines give {found}"
    for seam in seams:
        points = seam.get("curve_in", [seam["from_in"], seam["to_in"]])
        long = sum(math.dist(a, b) for a, b in pairwise(points))
        if abs(long - seam["length_in"]) > 5e-3 * max(1, long):
            yield f"{seam['id']}: {seam['length_in']} in is told, {long:.3f} in is drawn"


def _cards(_name, block):
    """A step is told as one of so many alike: so many there are, of the same patches, cloths and seams."""
    seams = {seam["id"]: seam for seam in block["seams"]}
    units = {p["id"]: ((p["patch"], p["fabric"]),) for p in block["pieces"]}
    alike = Counter()
    for step in block["steps"]:
        made = sorted(one for part in step["join"] for one in units.get(part, ()))
        units[step["make"]] = tuple(made)
        lengths = sorted(round(seams[id]["length_in"], 2) for run in step["runs"] for id in run)
        alike[step["times"], step["by"], step["kind"], tuple(made), tuple(lengths)] += 1
    for (times, *_), count in alike.items():
        if count % times:
            yield f"{count} steps are alike, told as {times} each"
