"""An edition as a site: its files, what leads from one to another, and that nothing of a stranger's can run in it."""

import hashlib
import html
import json
import re
from html.parser import HTMLParser
from pathlib import Path

import corpus
import hostile
import pytest

from booklet.__main__ import main
from booklet.exports.chapters.site import site
from booklet.exports.chapters.site_places import places_of, told_once
from booklet.pages.pictures.album import drawn
from booklet.pages.screen.page import ScreenView, gathered
from booklet.pages.screen.script import MODULES
from booklet.pages.texts.templating import template_text
from booklet.recipe import compiler
from booklet.recipe.choices import key_of

PATTERN = Path(__file__).parent / "patterns" / "three_sizes"


def made(folder: Path, every_view: bool = False, edition: int = 0) -> dict[str, bytes]:
    """The site of an edition of a folder: in its own units only, or in every view."""
    plan = compiler.plan(compiler.check(folder).value)
    found = (
        corpus.views_of(folder)
        if every_view
        else (ScreenView(units=plan.pattern.units, cloth=None, plan=plan, figures=drawn(plan)),)
    )
    chosen = plan.pattern.booklet.editions[edition]
    sizes = tuple(s.size.id for s in plan.sizes if not chosen.sizes or s.size.id in chosen.sizes)
    return site(gathered(found, chosen, sizes, key_of(plan.pattern, chosen)))


@pytest.fixture(scope="session")
def files():
    return made(PATTERN)


class Tags(HTMLParser):
    """Every element of a page with its attributes, and its scripts with what is in them."""

    def __init__(self, data: bytes) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.scripts: list[tuple[dict[str, str | None], str]] = []
        self.feed(data.decode("utf-8"))

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, dict(attributes)))
        if tag == "script":
            self.scripts.append((dict(attributes), ""))

    def handle_data(self, data):
        if self.tags and self.tags[-1][0] == "script" and self.scripts:
            self.scripts[-1] = (self.scripts[-1][0], self.scripts[-1][1] + data)


def pages(files):
    return {name: Tags(data) for name, data in files.items() if name.endswith(".html")}


def test_every_address_leads_to_a_file_and_a_place_in_it(files):
    found = pages(files)
    assert len(found) > 8
    places = {name: [at["id"] for _, at in page.tags if "id" in at] for name, page in found.items()}
    used = {"index.html", "worker.js"}
    for name, page in found.items():
        assert len(places[name]) == len(set(places[name])), name
        for _, at in page.tags:
            for address in (at.get("href"), at.get("src")):
                if address and not address.startswith(("https:", "mailto:")):
                    file, _, place = address.partition("#")
                    assert (file or name) in files, (name, address)
                    assert not place or place in places[file or name], (name, address)
                    used.add(file)
            used |= set(re.findall(r"url\(([^)#]+)\)", at.get("style") or ""))
    used |= set(re.findall(r"url\(\"?([^)#\"]+)\"?\)", files["style.css"].decode()))
    used |= {icon["src"] for icon in json.loads(files["manifest.webmanifest"])["icons"]}
    assert used - {""} == set(files)  # and none stands there for nothing


def test_each_file_stands_once_and_carries_nothing_in_addresses(files):
    assert len({hashlib.sha256(data).digest() for data in files.values()}) == len(files)
    for name, data in files.items():
        assert b"data:" not in data, name
        assert name == Path(name).name and re.fullmatch(r"[\w.-]+", name)


def test_chapters_follow_each_other_and_all_are_in_the_contents(files):
    found = pages(files)
    at, order = "index.html", ["index.html"]
    while after := [a["href"] for tag, a in found[at].tags if a.get("rel") == "next"]:
        order.append(at := after[0])
    assert sorted(order) == sorted(found)
    listed = [
        re.findall(r'<ol id="chapters">(.*?)</ol>', files[name].decode(), re.DOTALL)[0]
        for name in order
    ]
    assert {tuple(re.findall(r'href="([^"]*)"', each)) for each in listed} == {tuple(order)}


def test_the_worker_knows_every_file_by_its_digest(files):
    known = json.loads(re.search(r"files=(\{[^}]*\})", files["worker.js"].decode())[1])
    assert known == {
        name: hashlib.sha256(data).hexdigest()
        for name, data in files.items()
        if name != "worker.js"
    }


def test_the_same_pattern_gives_the_same_bytes(files):
    assert made(PATTERN) == files


def test_policies_allow_the_scripts_of_the_site_and_nothing_else(files):
    for name, page in pages(files).items():
        policy = next(at["content"] for tag, at in page.tags if at.get("http-equiv"))
        assert "default-src 'none'" in policy and "script-src 'self';" in policy, name
        assert "unsafe" not in policy.replace("style-src 'self' 'unsafe-inline'", "")
        assert safe(page), name


def safe(page: Tags) -> bool:
    """Whether nothing runs in a page but its two scripts; beside them it only keeps text."""
    runs = [at["src"] for at, _ in page.scripts if not at.get("type")]
    kept = [at["type"] for at, _ in page.scripts if at.get("type")]
    acts = [name for _, at in page.tags for name in at if name.startswith("on")]
    leads = [at.get("href") or "" for _, at in page.tags]
    strange = {tag for tag, _ in page.tags} & {"iframe", "object", "embed", "base", "frame"}
    return (
        runs == ["places.js", "table.js"]
        and kept == ["application/json", "text/plain"]
        and not any(words.strip() for at, words in page.scripts if at.get("src"))
        and not acts
        and not strange
        and not any(lead.strip().lower().startswith(("javascript:", "data:")) for lead in leads)
    )


@pytest.mark.parametrize("number", range(0, len(hostile.groups()["words"]), 3))
def test_words_of_a_stranger_put_no_script_into_it(number, tmp_path):
    case = hostile.groups()["words"][number]
    for name, data in {**hostile.SOUND, **case.files}.items():
        (tmp_path / name).parent.mkdir(exist_ok=True, parents=True)
        (tmp_path / name).write_bytes(data if isinstance(data, bytes) else data.encode())
    if compiler.check(tmp_path).value is None:
        return
    files = made(tmp_path)
    for name, page in pages(files).items():
        assert safe(page), (case.name, name)
    held = files["places.js"].decode("utf-8")
    assert held.startswith("globalThis.booklet={") and held.endswith("};\n")
    json.loads(held[len("globalThis.booklet=") : -2])  # data, whatever the words are
    assert json.loads(files["manifest.webmanifest"])["start_url"] == "index.html"


def test_ticks_and_counts_of_all_chapters_are_told_for_each_view():
    both = made(PATTERN, every_view=True, edition=1)
    held = json.loads(both["places.js"].decode()[len("globalThis.booklet=") : -2])
    said = json.loads(
        html.unescape(re.search(r'id="said">(.*?)</script>', both["piecing.html"].decode())[1])
    )
    assert len(held["views"]) == max(said["views"].values()) + 1
    own = held["ticks"][held["views"][0]]
    # two steps for the block of each of two sizes, and 1 and 3 × 4 blocks to count
    assert sorted(key for key, *_ in own if key.startswith("tick/step")) == [
        "tick/step/lap-checks-1", "tick/step/lap-checks-2", "tick/step/pin-checks-1", "tick/step/pin-checks-2",
    ]  # fmt: skip
    assert [key for key, *_ in own if key.startswith("count")] == [
        "count/pin/checks/1",
        "count/lap/checks/12",
    ]
    assert said["ways"] == {"before": "", "after": "", "first": "piecing.html#at-table"}


def test_places_are_read_with_their_sizes():
    found = places_of(
        '<h3 class="depth-1">Star &amp; <b>ring</b></h3><p data-of="count/lap/star/9">Make <b>9</b>.</p>'
        '<p data-s="0 2">Cut <span>2<sup>½</sup></span> in<span class="sr">unseen</span><svg><text>no</text></svg></p>'
        '<table data-s="0 1"><tr data-of="cut/ink/A"><td>x</td><td>y</td></tr></table>'
        '<figure data-of="patch/B patch/C"></figure>'
    )
    assert found.texts == [("", "star & ring make 9."), ("0 2", "cut 2½ in"), ("0 1", "x y")]
    assert list(found.pieces) == [("A", "0 1"), ("B", ""), ("C", "")]
    assert found.ticks == [("count/lap/star/9", "", "Star & ring")]
    assert told_once([[1], [2], [1]]) == ([[1], [2]], [0, 1, 0])


def test_sites_are_made_where_they_are_asked_for(tmp_path, capsys):
    call = ["build", str(PATTERN), "--out", str(tmp_path), "--web", "--site", "--edition", "handout"]  # fmt: skip
    assert main([*call, "--size", "lap"]) == 0
    part = tmp_path / "three-sizes-handout--lap-site"
    assert (part / "index.html").is_file() and (part / "piecing.html").is_file()
    assert "index.html" in capsys.readouterr().err
    assert "pin" not in json.loads((part / "places.js").read_text()[19:-2])["ticks"][0][0][0]
    assert sorted(p.name for p in tmp_path.glob("*.html")) == ["three-sizes-handout--lap.html"]
    (part / "index.html").write_text("mine")
    assert main([*call, "--size", "lap", "--quiet"]) != 0  # changed since: never written over
    assert (part / "index.html").read_text() == "mine"


def test_the_modules_of_the_site_stand_in_one_block_too():
    """No two may declare one name, and none may take in what it needs by another name: the lines that import are left out."""
    texts = [template_text(f"table/{name}.js") for name in (*MODULES, "chapters")]
    declared = re.findall(
        r"^(?:export )?(?:async )?(?:const|let|function) (\w+)", "\n".join(texts), re.MULTILINE
    )
    assert len(declared) == len(set(declared))
    taken = re.findall(r"^import \{([^}]*)\}", "\n".join(texts), re.MULTILINE)
    names = {name.strip() for each in taken for name in each.split(",")}
    assert names <= set(declared)


def test_a_site_leads_to_the_one_in_another_language_beside_it(tmp_path):
    folder = PATTERN.parent / "two_languages"
    call = ["build", str(folder), "--out", str(tmp_path), "--web", "--site", "--quiet"]
    assert main([*call, "--edition", "handout"]) == 0
    sites = sorted(tmp_path.glob("*-site"))
    assert len(sites) == 2
    for one, other in (sites, sites[::-1]):
        page = Tags((one / "index.html").read_bytes())
        leads = [at["href"] for _, at in page.tags if (at.get("href") or "").startswith("../")]
        assert set(leads) == {f"../{other.name}/index.html"}
        assert (one / leads[0]).resolve() == (other / "index.html").resolve()
        assert all("../" not in each.read_text() for each in one.glob("[a-hj-z]*.html"))
