"""Counting: what the blocks and the quilt need of every patch and part, and what is cut for them."""

from collections import Counter

from sewn_through.as_cut import PER_CUT


def laid(block):
    """The pieces of a block, and the shapes laid on them."""
    return [*block["pieces"], *block.get("applied", ())]


def needed(size):
    """How many pieces are cut singly of every patch and cloth, and how many of those are reversed."""
    ready = Counter()
    for unit in size["together"]:
        for member in unit["members"]:
            for id in member["pieces"]:
                ready[member["block"], id] += 1
    pieces, turned = Counter(), Counter()
    for name, block in size["blocks"].items():
        made = size["quilt"]["blocks"].get(name, 0)
        for piece in laid(block):
            if ready[name, piece["id"]]:
                continue
            key = piece["patch"], piece["fabric"]
            pieces[key] += made
            turned[key] += made * piece["reversed"]
    return +pieces, +turned


def _patches(size):
    wanted, turned = needed(size)
    names = {name for name, _ in wanted} | {
        patch["letter"]
        for block in size["blocks"].values()
        for patch in (*block["patches"], *block.get("shapes", ()))
    }
    cut, back = Counter(), Counter()
    for row in size["rotary"]:
        if row["for"] in names:
            cut[row["for"], row["fabric"]] += row["pieces"]
            back[row["for"], row["fabric"]] += row["reversed"]
    for key in sorted({*wanted, *cut}):
        if wanted[key] != cut[key]:
            yield f"patch {key[0]} in {key[1]}: {wanted[key]} are sewn, {cut[key]} are cut"
        if turned[key] != back[key]:
            yield f"patch {key[0]} in {key[1]}: {turned[key]} reversed are sewn, {back[key]} are cut"


def _told(size):
    """The table of patches in the facts of the quilt."""
    whole, turned = Counter(), Counter()
    for name, block in size["blocks"].items():
        made = size["quilt"]["blocks"].get(name, 0)
        for piece in laid(block):
            whole[name, piece["patch"], piece["fabric"]] += made
            turned[name, piece["patch"], piece["fabric"]] += made * piece["reversed"]
    rows = size["quilt"]["patches"]
    told = Counter({(r["block"], r["letter"], r["fabric"]): r["count"] for r in rows})
    back = Counter({(r["block"], r["letter"], r["fabric"]): r["reversed"] for r in rows})
    for key in sorted({*whole, *told}):
        if (whole[key], turned[key]) != (told[key], back[key]):
            yield f"table of patches, {key}: {whole[key]} are sewn, {told[key]} are told"


def _parts(size):
    wanted = Counter({p["name"]: p["count"] for p in size["quilt"].get("parts", [])})
    cloth = {p["name"]: p["fabric"] for p in size["quilt"].get("parts", [])}
    cut = Counter()
    for row in size["rotary"]:
        if row["for"] in cloth:
            cut[row["for"]] += row["pieces"]
            if row["fabric"] != cloth[row["for"]]:
                yield f"{row['for']}: cut from {row['fabric']}, sewn in {cloth[row['for']]}"
    for part in size["quilt"].get("parts", []):
        if part["places_in"] and len(part["places_in"]) != part["count"]:
            yield f"{part['name']}: {len(part['places_in'])} lie in the top, {part['count']} are told"
    for name in wanted:
        if wanted[name] != cut[name]:
            yield f"{name}: {wanted[name]} are sewn, {cut[name]} are cut"


def _blocks(size):
    placed = Counter(place["block"] for place in size["quilt"].get("placed", []))
    for name, count in size["quilt"]["blocks"].items():
        if placed and placed[name] != count:
            yield f"block {name}: {placed[name]} lie in the top, {count} are told"


def _cuts(size):
    """A cut gives one piece, a square cut again two or four; all of a cut may not be of use."""
    for row in size["rotary"]:
        most = PER_CUT.get(row["method"], 1)
        if not -(-row["pieces"] // most) <= row["cuts"] <= row["pieces"]:
            yield (
                f"{row['for']} in {row['fabric']}: {row['cuts']} cuts of {most} for {row['pieces']} pieces"
            )


def _together(size):
    """Units made together: as many as are needed, from cuts that give as many."""
    for unit in size["together"]:
        times = Counter(member["block"] for member in unit["members"])
        want = sum(size["quilt"]["blocks"].get(name, 0) * n for name, n in times.items())
        if unit["units"] != want:
            yield f"{unit['name']}: {want} units are sewn into blocks, {unit['units']} are told"
        if unit["made"] < want:
            yield f"{unit['name']}: {want} units are needed, {unit['made']} are made"
        for part in unit["cuts"]:
            lines = [
                row
                for row in size["rotary"]
                if (row["for"], row["fabric"])
                == (part["name" if "name" in part else "for"], part["fabric"])
            ]
            if sum(row["cuts"] for row in lines) != part["count"]:
                yield f"{unit['name']}: {part['count']} of {part['for']}, cut are {lines}"
            if any(sorted(row["cut_in"]) != sorted(part["cut_in"]) for row in lines):
                yield f"{unit['name']}: {part['for']} is {part['cut_in']}, cut are {lines}"


def complaints(facts):
    """What is cut too often or not often enough, or counted otherwise in another place."""
    return [
        f"{id}: {fault}"
        for id, size in facts["sizes"].items()
        for check in (_patches, _told, _parts, _blocks, _cuts, _together)
        for fault in check(size)
    ]
