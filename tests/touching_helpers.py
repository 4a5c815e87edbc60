"""Whoever touches: asks the table as a tab does, by bytes, and touches at random."""

import json
import random
import shutil
from pathlib import Path

from booklet.pressing.pressing import JunctionKind
from booklet.preview.bench.bench import Bench
from booklet.preview.serving.touching import Touching
from booklet.recipe.checking import check
from booklet.sewing.assembly import End

PATTERNS = Path(__file__).parent / "patterns"


def copied(name, home):
    """A folder of one's own with a pattern."""
    source = PATTERNS / name if name != "example" else PATTERNS.parent.parent / "example_pattern"
    shutil.copytree(source, home / "own", ignore=shutil.ignore_patterns("out"))
    return home / "own"


class Toucher:
    """A tab that touches the first block of a folder in one size."""

    def __init__(self, folder, size="", block=""):
        self.folder, self.size, self.block = folder, size, block
        self.bench = Bench(folder)
        self.bench.refresh()
        self.touching = Touching(folder, self.bench)
        self.steps = []
        self.told = self.ask("look")

    def ask(self, do, **more):
        """What is told; the steps are then those it tells."""
        asked = {"do": do, "size": self.size, "block": self.block, "steps": self.steps, **more}
        told = self.touching.touched(json.dumps(asked).encode())
        if "stop" not in told:
            self.told, self.steps = told, told["steps"]
        return told

    def write(self, do="order", **more):
        """What is told of a change."""
        asked = {"do": do, "size": self.size, "block": self.told["block"], "steps": self.steps}
        asked |= {"source": self.told["seen"], **more}
        return self.touching.written(json.dumps(asked).encode())

    def close(self):
        """Finish the seams that can be."""
        for gap in self.told["open"]:
            if gap["ready"]:
                self.steps = [*self.steps, {"join": gap["join"], "finish": True}]
                assert "stop" not in self.ask("look")


def touched_at_random(toucher, seed):
    """Touch until the block is sewn, and hold what was said at each touch to what came of it. What was said of the steps:
    for each its turns, who sews it, and the seams with the corners it leaves open."""
    dice, said = random.Random(seed), []
    while not toucher.told["whole"]:
        unit = dice.choice(toucher.told["units"])["pieces"]
        hand = [dice.choice(unit)]
        for _ in range(dice.choice((1, 1, 2))):
            near = toucher.ask("look", hand=hand)["near"]
            hand += [dice.choice(near)] if near else []
        told = toucher.ask("look", hand=hand)
        if told.get("leaves") and dice.random() < 0.3:
            told = toucher.ask("look", hand=hand, leave=dice.choice(told["leaves"]))
        assert told["can"], told["said"]
        one = dice.random() < 0.6
        made = toucher.ask("join" if one else "alike", hand=hand, leave=told["leave"])
        fresh = made["made"][len(said) :]
        assert len(fresh) == 1 or not one
        assert len(fresh) == 1 + (0 if one else told["alike"])
        assert {(step["turns"], step["by"]) for step in fresh} == {(told["turns"], told["by"])}
        if one:
            assert made["sums"]["threads"] == told["threads"][1]
            assert made["sums"]["cards"] == told["cards"][1]
        said += [(step["turns"], step["by"], told["seams"], told["corners_in"]) for step in fresh]
        before = len(toucher.steps)
        toucher.close()
        said += [(0, None, [], [])] * (len(toucher.steps) - before)
    return said


def same_as_checked(toucher, said):
    """What check finds of the pattern as it is written now: no error, and all that was said."""
    outcome = check(toucher.folder)
    assert [d.message for d in outcome.diagnostics if d.is_error] == []
    key = toucher.told["size"], toucher.told["block"]
    made = outcome.value.assemblies[key]
    for step, (turns, by, seams, corners) in zip(made.steps, said, strict=True):
        if by is not None:
            assert (step.turns, step.by.value) == (turns, by), step.make
            for seam in seams if step.times == 1 else ():
                ends = zip((made.tiling.seam(seam).start, made.tiling.seam(seam).end), made.sewn[seam].ends, strict=True)  # fmt: skip
                assert all(end is End.POINT for at, end in ends if list(at) in corners)
    sums = toucher.told["sums"]
    assert [(s["make"], s["turns"], s["by"], s["card"], s["times"]) for s in toucher.told["made"]] == [
        (s.make, s.turns, s.by.value, s.card, s.times) for s in made.steps
    ]  # fmt: skip
    clashes = [j for j in outcome.value.pressings[key].junctions if j.kind is JunctionKind.CLASH]
    assert (len(made.threads), len(clashes)) == (sums["threads"], sums["clashes"])
