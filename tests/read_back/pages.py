"""Reading a booklet's pages: its tables and cards, and how far their numbers are from the facts.

What is read is known by the place it has in the page (a column, a card), never by its words, so that
pages of all languages are read alike.
"""

from collections import Counter

import tinyhtml5

from read_back.figures import counts, lengths, numbers

CUT = 0.002  # inches: a cut figure is printed as it is
MILLIMETRE = 0.04  # inches: where lengths written in inches are printed in centimetres
FINISHED = 1 / 32 + 0.002  # inches: a finished size is printed to 1/16 in, or 1 mm


def parsed(html):
    """The tree of a page."""
    return tinyhtml5.parse(html, namespace_html_elements=False)


def text_of(element):
    """The text of an element without that of its pictures."""
    if element.tag in ("svg", "style", "title"):
        return ""
    inner = "".join(text_of(child) + (child.tail or "") for child in element)
    return (element.text or "") + inner


def having(root, tag, name):
    """The elements of a tag that have this class."""
    return [e for e in root.iter(tag) if name in (e.get("class") or "").split()]


def page(root, name):
    """The section of a page, or None."""
    found = having(root, "section", f"page-{name}")
    return found[0] if found else None


def rows_of(table):
    """The cells of every row of a table's body."""
    body = next(table.iter("tbody"))
    return [[cell for cell in row if cell.tag in ("td", "th")] for row in body if row.tag == "tr"]


def complaints(facts, root, id, converted=False):
    """What a page says in other numbers than the facts of the size it is made for; `converted` if lengths
    are printed in another unit than they were written in."""
    size = facts["sizes"][id]
    size["cut by"] = MILLIMETRE if converted else CUT
    checks = (_sizes, _handwork, _materials, _cutting, _cards, _sittings, _joins, _top, _finishing)
    return [fault for check in checks for fault in check(facts, size, root)]


def near(found, wanted, by):
    """Whether two lists of lengths agree."""
    pairs = zip(sorted(found), sorted(wanted), strict=False)
    return len(found) == len(wanted) and all(abs(a - b) <= by for a, b in pairs)


def _sizes(facts, _size, root):
    """The table of sizes: finished size, how many blocks, the size of one."""
    section = page(root, "sizes")
    if section is None:
        return
    rows = rows_of(having(section, "table", "sizes")[0])
    for cells, (id, size) in zip(rows, facts["sizes"].items(), strict=True):
        if "finished_in" in size["quilt"]:
            found = lengths(text_of(cells[1]))
            if not near(found, size["quilt"]["finished_in"], FINISHED):
                yield f"sizes, {id}: {found} in finished, facts {size['quilt']['finished_in']}"
        told, made = int(numbers(text_of(cells[2]))[0]), sum(size["quilt"]["blocks"].values())
        if told != made:
            yield f"sizes, {id}: {told} blocks are told, {made} are made"
        if len(size["blocks"]) == 1:
            (block,) = size["blocks"].values()
            if not near(lengths(text_of(cells[3])), block["finished_in"], FINISHED):
                yield f"sizes, {id}: block {text_of(cells[3])}, facts {block['finished_in']}"


def _handwork(facts, _size, root):
    """How each size is sewn: inches by machine and by hand, threads of each block."""
    section = page(root, "sizes")
    if section is None or len(having(section, "table", "sizes")) < 2:
        return
    rows = rows_of(having(section, "table", "sizes")[1])
    blocks = {}
    for size in facts["sizes"].values():
        for name, block in size["blocks"].items():
            blocks.setdefault(name, []).append(block)
    wanted = [block for some in blocks.values() for block in some if block["steps"]]
    if len(rows) != len(wanted):
        return  # alike lines are told once
    for cells, block in zip(rows, wanted, strict=True):
        for cell, key in zip(cells[-4:-2], ("machine_in", "hand_in"), strict=True):
            found = sum(lengths(text_of(cell)))
            if abs(found - block["totals"][key]) > max(FINISHED, 0.07):
                yield f"how sewn: {text_of(cell)}, facts {key} {block['totals'][key]}"
        threads = sum(numbers(text_of(cells[-1])))
        if threads != block["totals"]["thread_starts"]:
            yield f"how sewn: {threads} threads, facts {block['totals']['thread_starts']}"


def _materials(facts, size, root):
    """The table of cloth: what is bought for each size, and the pieces of this one."""
    section = page(root, "materials") or page(root, "supplies")
    if section is None:
        return
    rows = rows_of(having(section, "table", "materials")[0])
    for cells, (cloth, amounts) in zip(rows, _amounts(facts), strict=False):
        for cell, buy in zip(cells[2:], amounts, strict=True):
            found = numbers(text_of(cell))
            if buy is None:
                wanted = []
            elif "pieces" in buy:
                found, wanted = found[:1], [buy["pieces"]]
            else:
                wanted = [buy["yards_decimal"], buy["metres"]]
            if not near(found, wanted, 1e-6):
                yield f"materials, {cloth}: {text_of(cell)}, facts {wanted}"
        pieces = Counter()
        lines = [row["pieces"] for row in size["rotary"] if row["fabric"] == cloth]
        for row in size["rotary"]:
            if row["fabric"] == cloth:
                pieces[row["for"]] += row["pieces"]
        found = counts(text_of(cells[1]))
        if sorted(found) not in (sorted(lines), sorted(pieces.values())):
            yield f"materials, {cloth}: used for {text_of(cells[1])}, facts {dict(pieces)}"


def _amounts(facts):
    """For each cloth what is bought in every size."""
    cloths = dict.fromkeys(id for size in facts["sizes"].values() for id in size["cutting"])
    for cloth in cloths:
        yield cloth, [s["cutting"].get(cloth, {}).get("buy") for s in facts["sizes"].values()]


def _cutting(_facts, size, root):
    """The cutting page: for each cloth its strips, what they give, and the figures to cut."""
    section = page(root, "cutting")
    if section is None:
        return
    for part, (cloth, plan) in zip(
        having(section, "section", "cloth"), size["cutting"].items(), strict=True
    ):
        told = numbers(text_of(having(part, "p", "cloth-buy")[0]))
        buy = plan["buy"]
        wanted = [buy["pieces"]] if "pieces" in buy else [buy["yards_decimal"], buy["metres"]]
        if not near(told[: len(wanted)], wanted, 1e-6):
            yield f"cutting, {cloth}: {told} to buy, facts {wanted}"
        yield from _strips(cloth, plan, size, having(part, "table", "cut")[0])


def _strips(cloth, plan, size, table):
    strips, pieces, rest = [], Counter(), 0
    letters = {p["letter"] for block in size["blocks"].values() for p in block["patches"]}
    rows = [row for row in size["rotary"] if row["fabric"] == cloth]
    figures = {round(x, 3) for row in rows for x in row["cut_in"]} | _stretches(plan, rows)
    for cells in rows_of(table):
        number, width = text_of(cells[1]).strip(), lengths(text_of(cells[2]))
        if number and width:
            strips += width * int(number)
        how = (having(cells[3], "span", "how") or [cells[4]])[0]  # beside a picture it stands below
        gives = text_of(cells[3]).removesuffix(text_of(how)).strip()
        told = gives.split(", ")  # rough pieces that are cut alike are told in one line
        if not all(part.split()[:1] and part.split()[0] in letters for part in told):
            told = [gives]
        for part in told:
            name = part.split()[0] if part else ""
            if name in letters:
                pieces[name] += sum(counts(part))
            else:
                rest += sum(counts(part))
        for bold in how.iter("b"):
            for figure in lengths(text_of(bold)):
                if not any(abs(figure - x) < size["cut by"] for x in figures):
                    yield f"cutting, {cloth}: {text_of(bold)}, facts {sorted(figures)}"
    wanted = [strip["cut_in"] for strip in plan["strips"] for _ in range(strip["count"])]
    if not near(strips, wanted, size["cut by"]):
        yield f"cutting, {cloth}: strips {Counter(strips)}, facts {Counter(wanted)}"
    given, others = Counter(), 0
    for strip in plan["strips"]:
        for use in strip["use"]:
            if use["for"] in letters:
                given[use["for"]] += use["pieces"]
            elif _is_counted(use["for"], rows):
                others += use["pieces"]
    if pieces != given:
        yield f"cutting, {cloth}: pieces {dict(pieces)}, facts {dict(given)}"
    if rest != others:
        yield f"cutting, {cloth}: {rest} pieces of parts, facts {others}"


def _stretches(plan, rows):
    """The lengths of the stretches that longer parts are joined from."""
    found = set()
    long = {row["for"] for row in rows if max(row["cut_in"]) > plan["width_in"]}
    for cut in (cut for strip in plan["strips"] for laid in strip["laid"] for cut in laid["cuts"]):
        if cut["for"] not in long:
            continue
        for axis in (0, 1):
            ends = [point[axis] for point in cut["outline_in"]]
            found.add(round(max(ends) - min(ends), 3))
    return found


def _is_counted(name, rows):
    """Whether a part stands in the list with its count: what goes whole into one thing does not."""
    return any(row["for"] == name and row["method"] != "strip" for row in rows)


def _cards(facts, size, root):
    """The cards of every block: how many to make, and what a unit measures."""
    section = page(root, "piecing")
    if section is None:
        return
    both = 2 * facts["allowance_in"]
    parts = having(section, "section", "block")
    blocks = {k: v for k, v in size["blocks"].items() if size["quilt"]["blocks"].get(k)}
    if len(parts) != len(blocks):
        yield f"piecing: {len(parts)} blocks, facts {list(blocks)}"
        return
    for part, (name, block) in zip(parts, blocks.items(), strict=True):
        made = size["quilt"]["blocks"][name]
        told = text_of(having(part, "p", "block-make")[0])
        if numbers(told)[0] != made:
            yield f"block {name}: {told}, facts {made}"
        raw = [x + both for x in block["finished_in"]]
        if lengths(told) and not near(lengths(told)[:2], raw, FINISHED):
            yield f"block {name}: {told}, facts {raw} before it is joined"
        yield from _steps(name, block, made, part, both)


def _steps(name, block, made, part, both):
    rectangles = [
        [x + both for x in s["rectangle_in"]] for s in block["steps"] if "rectangle_in" in s
    ]
    cards = Counter()
    for card in having(part, "article", "card"):
        told = [int(n) for n in numbers(text_of(having(card, "p", "card-make")[0]))]
        cards[told[0]] += told[0]
        if told[1:] not in ([], [told[0] * made]):
            yield f"block {name}: make {told}, for {made} blocks"
        for line in having(card, "p", "measure"):
            found = lengths(text_of(line))[:2]
            if not any(near(found, r, FINISHED) for r in rectangles):
                yield f"block {name}: {text_of(line)}, facts {rectangles}"
    wanted = Counter(step["times"] for step in block["steps"])
    for _ in {shape["step"] for shape in block.get("applied", ())}:
        wanted[made] += made  # laid on every block
    if cards != wanted:
        yield f"block {name}: make {dict(cards)}, facts {dict(wanted)}"


def _sittings(_facts, size, root):
    """The table of sittings: what is sewn how often, and about how long it takes."""
    section = page(root, "piecing")
    tables = having(section, "table", "sittings") if section is not None else []
    if not tables:
        return
    rows = rows_of(tables[0])
    tasks = [[task["count"] for task in sitting["tasks"]] for sitting in size["sittings"]]
    found: list[list[int]] = []
    for cells in rows:
        found += [[]] if numbers(text_of(cells[3])) else []
        found[-1].append(int(numbers(text_of(cells[2]))[0]))
    # more than six tasks of one sitting are told by their kind: so many in all
    if [sum(counts) if len(counts) > 6 else counts for counts in tasks] != [
        sum(counts) if len(meant) > 6 else counts
        for counts, meant in zip(found, tasks, strict=False)
    ]:
        yield f"sittings: {found} to sew, facts {tasks}"
    told = [numbers(text_of(cells[3]))[-1] for cells in rows if numbers(text_of(cells[3]))]
    wanted = [sitting["minutes"] for sitting in size["sittings"]]
    if len(told) != len(wanted) or any(abs(a - b) > 5 for a, b in zip(told, wanted, strict=False)):
        yield f"sittings: {told} minutes, facts {wanted}"


def _joins(_facts, size, root):
    """How the seams of the top are pressed: at how many joints they lock."""
    section = page(root, "pressing")
    tables = having(section, "table", "joins") if section is not None else []
    if not tables:
        return
    found = [sum(numbers(text_of(cells[2]))[:1]) for cells in rows_of(tables[0])]
    wanted = [line["locks"] for line in size["quilt"].get("joins", [])]
    if found != wanted:
        yield f"pressing: seams lock at {found} joints, facts {wanted}"


def _told(name, text, wanted, by):
    """Complaints about lengths that should stand in a text."""
    found = lengths(text)
    for length in wanted:
        if not any(abs(length - x) <= by for x in found):
            yield f"{name}: {length:.3f} in is not told among {[round(x, 3) for x in found]}"


def _top(facts, size, root):
    """Joining: the lengths of the borders, and what the top measures after each, under the ruler: its allowance
    lies beyond the finished edge all round."""
    section = page(root, "quilt")
    if section is None:
        return
    for number, border in enumerate(size["finishing"].get("borders", []), 1):
        text = text_of(section)
        yield from _told(f"border {number}", text, border["lengths_in"], size["cut by"])
        raw = [side + 2 * facts["allowance_in"] for side in border["outside_in"]]
        yield from _told(f"border {number}, then", text, raw, FINISHED)
        widths = [wide for wide in border.get("widths_in", [border.get("width_in")]) if wide]
        yield from _told(f"border {number}, width", text, widths, FINISHED)


def _finishing(_facts, size, root):
    """Finishing: binding, backing and batting."""
    section = page(root, "finishing")
    if section is None:
        return
    text, parts = text_of(section), size["finishing"]
    if "binding" in parts:
        binding = parts["binding"]
        yield from _told(
            "binding", text, [binding["strip_in"], binding["length_in"]], size["cut by"]
        )
        if binding["strips"] not in numbers(text):
            yield f"binding: {binding['strips']} strips are not told"
    if "backing" in parts:
        yield from _told("backing", text, parts["backing"]["size_in"], size["cut by"])
        if len(parts["backing"]["panels"]) > 1:
            along = [p["along_cloth_in"] for p in parts["backing"]["panels"]]
            yield from _told("backing", text, along, size["cut by"])
    if "batting" in parts:
        yield from _told("batting", text, parts["batting"]["size_in"], size["cut by"])
