"""Names are text: in a book in a browser nothing that a name holds is an element or a script."""

from collections.abc import Callable
from pathlib import Path
from typing import Final

import pytest

from tests.browser.conftest import Opens
from tests.browser.searching import ask, said
from tests.conftest import Run

SCRIPTS: Final = (
    "<script>window.ran = 1</script>",
    "</script><script>window.ran = 1</script>",
    "<img src=x onerror='window.ran = 1'>",
    '"><svg onload="window.ran = 1">',
    "' onmouseover='window.ran = 1' x='",
    "x --></style></title><iframe srcdoc='<script>parent.ran = 1</script>'>",
    "&lt;script&gt;alert(1)&lt;/script&gt; &#60;b&#62;",
    "javascript:alert(1)//${alert(1)}`\\u003cb\\u003e`",
    "__proto__",
)
HEBREW: Final = "\u05d1\u05d5\u05e5 \u05d4\u05e0\u05d7\u05dc"
"""Mud of the creek."""
ARABIC: Final = "\u0637\u064a\u0646 \u0627\u0644\u0633\u0627\u062d\u0644"
"""Mud of the shore."""

# The globals of a page, and the names of all elements in it.
GLOBALS: Final = "() => Object.getOwnPropertyNames(window).sort()"
TAGS: Final = "() => Array.from(new Set(Array.from(document.all, each => each.tagName))).sort()"

Makes = Callable[[str, str], Path]


@pytest.fixture
def makes(run: Run, empty_template: Path, tmp_path: Path) -> Makes:
    """`makes("plain", "kelp")`: a book in which every text of a user's is the given one."""

    def make(name: str, text: str) -> Path:
        database = tmp_path / f"{name}.sqlite3"
        database.write_bytes(empty_template.read_bytes())
        for words in (
            ("paint", "add", text, "--maker", text, "--code", "P1"),
            ("paint", "add", f"Ebb {text}", "--maker", "Orsel", "--code", "P2"),
            ("paper", "add", text, "--maker", text, "--code", "R1"),
            ("mix", "add", "2 P1 + 3 P2", "--name", text, "--note", text),
            (
                *("swatch", "log", "M1", "--paper", "R1", "--lab", "41,2,-12"),
                *("--kept", text, "--note", text),
            ),
            ("swatch", "log", "P1", "--paper", "R1", "--lab", "60,20,30", "--kept", text),
        ):
            outcome = run(*words, db=database)
            assert outcome.status == 0, outcome.err
        file = tmp_path / f"{name}.html"
        assert run("swatch", "book", "--html", str(file), db=database).status == 0
        return file

    return make


@pytest.mark.parametrize("text", SCRIPTS)
def test_a_script_in_every_name_does_nothing(text: str, makes: Makes, opens: Opens) -> None:
    plain, hostile = opens(makes("plain", "kelp")), opens(makes("hostile", text))
    for page in (plain, hostile):
        ask(page, "#767d63", every=True)
        page.hover("#shown figure >> nth=0")
        ask(page, words=text if page is hostile else "kelp")
    assert hostile.locator("#shown figure").count() == 2
    assert text in hostile.inner_text("#shown figure >> nth=0")
    assert f"with “{text}”" in said(hostile)
    ask(hostile, text)
    assert said(hostile).startswith(f"“{text}” is not a colour")
    ask(hostile)
    assert hostile.evaluate(GLOBALS) == plain.evaluate(GLOBALS)
    assert hostile.evaluate(TAGS) == plain.evaluate(TAGS)
    assert hostile.evaluate("({}).ran === undefined && typeof ran === 'undefined'")


@pytest.mark.parametrize("text", [HEBREW, ARABIC])
def test_names_from_right_to_left_keep_their_place(text: str, makes: Makes, opens: Opens) -> None:
    """`2 FIRST + 3 Ebb SECOND`: the first stands left of the second, whatever way each is read."""
    page = opens(makes("hebrew", text))
    assert sorted(each.code for each in ask(page, words=text)) == ["S1", "S2"]
    ask(page)
    page.add_style_tag(content=".swatches { grid-template-columns: 1fr; }")
    lefts = "all => all.map(each => each.getBoundingClientRect().left)"
    first, second = page.eval_on_selector_all("#S1 .recipe bdi", lefts)
    assert first < second
    assert page.eval_on_selector("#S1 .recipe", "each => each.textContent") == (
        f"2 {text} + 3 Ebb {text}"
    )


def test_without_isolation_they_would_not(makes: Makes, opens: Opens) -> None:
    file = makes("hebrew", HEBREW)
    bare = file.read_text("utf-8").replace("<bdi>", "<b>").replace("</bdi>", "</b>")
    file.write_text(bare.replace("3 <b>Ebb ", "3 <b>"), encoding="utf-8")
    lefts = "all => all.map(each => each.getBoundingClientRect().left)"
    page = opens(file)
    page.add_style_tag(content=".swatches { grid-template-columns: 1fr; }")
    first, second = page.eval_on_selector_all("#S1 .recipe b", lefts)
    assert first > second
