"""Floor 13, reference: what is told of lengths, texts, pages and rules, and the list of what can be asked."""

from __future__ import annotations

from booklet.checks.rulebook import rules
from booklet.pages.sections import KINDS, PAGE_TITLES
from booklet.pages.texts.values import FIGURE_NAMES, TABLE_NAMES, VALUE_NAMES
from booklet.reference.terminal import columns, example, paragraph
from booklet.source.files.page_names import PAGES

_VALUES = {
    "title": "the title of the pattern",
    "designer": "who designed it",
    "version": "its version",
    "date": "its date, year first",
    "summary": "its summary",
    "allowance": "the seam allowance",
    "size.title": "the name of the size",
    "size.unit": "the length of one design unit",
    "size.blocks": "the blocks, across x down",
    "size.made": "how many blocks are made in all",
    "size.width": "the finished width of the quilt",
    "size.height": "the finished height of the quilt",
    "size.finished": "the finished width and height",
}
_FIGURES = {
    "cover": "the quilt as the cover has it",
    "quilt": "the layout of the quilt",
    "patches": "the patches with their letters",
    "colouring": "the quilt in outlines, to colour",
    "practice": "a practice sheet",
}
_TABLES = {
    "sizes": "all sizes with their measures",
    "materials": "the cloth to buy",
    "sittings": "how long the work takes",
}


def texts() -> list[str]:
    """What may stand in a text of the designer's."""
    rows = [(f"{{{{ {name} }}}}", _VALUES[name]) for name in VALUE_NAMES]
    rows += [
        ("{{ fabric.NAME.name }}", "what the booklet calls a fabric"),
        ("{{ fabric.NAME.buy }}", "how much of it to buy"),
        ("{{ block.NAME.title }}", "what the booklet calls a block"),
        ("{{ block.NAME.count }}", "how many of it are made"),
    ]
    rows += [(f"{{{{ figure.{name} }}}}", _FIGURES[name]) for name in FIGURE_NAMES]
    rows += [
        ("{{ figure.block.NAME }}", "a picture of a block"),
        ("{{ figure.pressing.NAME }}", "a block from behind, pressed"),
    ]
    rows += [(f"{{{{ table.{name} }}}}", _TABLES[name]) for name in TABLE_NAMES]
    return [
        "texts: what may stand in a Markdown text of yours",
        "",
        *paragraph(
            "A text is a file such as `text/welcome.md`, named among the `pages` of an edition, or `before` and "
            "`after` a page (`booklet help look`). In it stand headings, lists, tables, links, pictures of the "
            "folder (`![A cloth](cloth.jpg)`), notes for the teacher between `::: teacher` and `:::`, boxes between `::: tip` or `::: caution` and `:::`, and, by "
            "these names, values, pictures and tables. NAME is the name of one of your fabrics or blocks."
        ),
        "",
        *columns(rows, 28),
        "",
        *example("# Welcome\n\nThis quilt measures {{ size.finished }}.\n\n{{ figure.quilt }}"),
    ]


def units() -> list[str]:
    """How lengths are written."""
    return [
        "units: how lengths and numbers are written",
        "",
        *columns(
            [
                ("2 1/2 in", 'inches, as fractions or decimals; also 2½ in, 2.5 in, 2 1/2"'),
                ("6.4 cm", "centimetres; 64 mm, millimetres; 1/4 yd and 0.5 m, for cloth"),
                ("1 1/2 u", "design units, the length of which every size gives by its `unit`"),
                (
                    "1 1/2",
                    "a bare number: design units in `patches` and `blocks`, the pattern's `units` elsewhere",
                ),
                (
                    "1 + √2",
                    "arithmetic, in place of any number but those of path data: + - * / ( ) and `sqrt(2)`",
                ),
                ("45", "an angle: degrees, clockwise"),
                ("6 x 6", "across, then down"),
                ("[3, 1.5]", "a point: across from the left, then down from the top"),
            ]
        ),
    ]


def pages() -> list[str]:
    """The pages of an edition."""
    rows = [(name, _page(name)) for name in PAGES]
    return [
        "pages: the pages of an edition, by name",
        "",
        *columns(rows),
        "",
        *paragraph("A name that ends in `.md` is a text of yours: `booklet help texts`."),
    ]


def page(name: str) -> list[str]:
    """One page of an edition, and how it is asked for; nothing for other words."""
    if name not in PAGES:
        return []
    return [
        f"{name}: a page of the booklet",
        "",
        *paragraph(
            f"{_page(name)}. It is printed where `pages` of an edition names it (`booklet help edition`); "
            "`booklet help pages` lists all."
        ),
        "",
        *example(
            f"booklet:\n  editions:\n    pattern: {{pages: [cover, {name}]}}".replace(
                "cover, cover", "cover"
            )
        ),
    ]


def _page(name: str) -> str:
    title = str(PAGE_TITLES.get(name, "The cover"))
    return f"{title}; one for each size" if KINDS[name].sized else title


def rule_list() -> list[str]:
    """All rules, one line each: code, severity, summary."""
    width = max(map(len, rules()), default=0)
    told = [f"{r.code:<{width}}  {r.severity.value:<7}  {r.summary}" for r in rules().values()]
    return ["rules: what is looked for, by the word in brackets of a message", "", *told]


def foundation() -> list[str]:
    """How blocks are sewn on printed paper."""
    return [
        "foundation: blocks sewn on printed paper",
        "",
        *paragraph(
            "`by: foundation` at a block has it sewn on paper, in `sewing` every block, at one step of `sew` the unit that "
            "this step makes. Without `sew` the tool parts the block into the fewest sections, A, B …, and numbers their "
            "pieces in the order sewn; under `sew` a step that adds single pieces is a section in your order, and a step that "
            "joins units joins sections. `booklet plan` shows what it would do. The foundations are printed with the templates, "
            "mirrored and true to size; the pieces are cut as rough rectangles, `foundation margin` beyond the allowance "
            "(`booklet help sewing`). What would have to be set in cannot be sewn so, and is named."
        ),
        "",
        *example(
            "blocks:\n  cabin:\n    by: foundation\n    grid: [[ink, sand, ink]]\n    columns: [1, 2, 1]\n    rows: [2]"
        ),
    ]


TOPICS = {
    "texts": texts,
    "units": units,
    "pages": pages,
    "foundation": foundation,
    "rules": rule_list,
}


def overview() -> list[str]:
    """What can be asked."""
    return [
        "booklet help WORD tells of a key, a shape, a rule or a command. Some to begin with:",
        "",
        *columns(
            [
                ("pattern", "the keys at the top of pattern.yaml"),
                (
                    "sizes, fabrics, patches, blocks, quilt, sewing, cutting, booklet",
                    "what each of them takes",
                ),
                ("piece, step, border, binding, edition, …", "the groups inside them"),
                ("at, turn, press, …", "any key"),
                (
                    "shapes",
                    "all shapes; `hexagon` and the like: how one stands, with its sides numbered",
                ),
                ("units", "how lengths, numbers and points are written"),
                ("texts", "what your own texts may show: values, pictures, tables"),
                ("pages", "the pages of an edition"),
                (
                    "rules",
                    "all rules; `overlap` and the like: what one means and how to put it right",
                ),
                ("build, check, …", "the options of a command"),
            ],
            16,
        ),
    ]
