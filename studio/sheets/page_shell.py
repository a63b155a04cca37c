"""What every HTML file has around its content, and how a colour and a text stand in it."""

from base64 import b64encode
from collections.abc import Sequence
from hashlib import sha256
from html import escape

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.page_parts import plain
from studio.sheets.page_style import STYLE


def whole_file(  # noqa: PLR0913 - what stands around a page
    title: str,
    body: Sequence[str],
    *,
    foot: str,
    notice: str = "",
    kind: str = "",
    style: str = "",
    script: str = "",
    pictures: bool = False,
) -> str:
    """One HTML file that needs no other and fetches nothing.

    Args:
        title: its title, as plain text.
        body: the lines of its main part, as HTML.
        foot: what stands at its foot, as plain text.
        notice: what must not be missed, as plain text.
        kind: the class of its body.
        style: what is added to the style of every page.
        script: the only script that may run, known by its digest (Content Security Policy 3).
        pictures: whether its main part holds pictures, inside the file.

    Raises:
        ValueError: the script would end before its end.
    """
    if "</" in script or "<!--" in script or "\r" in script:
        msg = "an inlined script must hold neither </ nor <!-- nor carriage returns"
        raise ValueError(msg)
    policy = _policy(script, pictures=pictures)
    lines = (
        "<!DOCTYPE html>",
        '<html lang="en">',
        "<head>",
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="color-scheme" content="only light">',
        f"<title>{html_text(title)}</title>",
        f"<style>{STYLE}{style}</style>",
        "</head>",
        f'<body class="{kind}">' if kind else "<body>",
        *([f'<header><p class="notice">{html_text(notice)}</p></header>'] if notice else []),
        "<main>",
        *body,
        "</main>",
        f"<footer><p>{html_text(foot)}</p></footer>",
        *([f"<script>{script}</script>"] if script else []),
        "</body>",
        "</html>",
    )
    return "\n".join(lines) + "\n"


def _policy(script: str, *, pictures: bool) -> str:
    """Nothing is fetched, and no script runs but the one given, whatever a name holds."""
    policy = "default-src 'none'; style-src 'unsafe-inline'"
    if pictures:
        policy += "; img-src data:"
    if not script:
        return policy
    digest = b64encode(sha256(script.encode()).digest()).decode()
    return f"{policy}; script-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"


def html_text(text: str) -> str:
    """A text that is only text, in an element and in an attribute with quotes."""
    return escape(plain(text), quote=True)


def isolated(text: str) -> str:
    """The same, kept from changing the order of what stands around it (UAX 9)."""
    return f"<bdi>{html_text(text)}</bdi>"


def colours(lab: Lab) -> str:
    """A colour as properties for the style of pages: Lab, and sRGB to fall back on."""
    return f"--srgb: {on_screen(lab).hex}; --lab: lab({lab.lightness:.2f}% {lab.a:.2f} {lab.b:.2f})"


def colour_kind(lab: Lab) -> str:
    """The classes of a patch; outside sRGB only screens of a wider gamut are given the Lab."""
    return "colour" if on_screen(lab).in_gamut else "colour outside"


def colour_html(lab: Lab, label: str = "colour patch") -> str:
    """A patch; `label` is what it is to those who do not see it."""
    return (
        f'<div class="{colour_kind(lab)}" role="img" '
        f'aria-label="{html_text(label)}" style="{colours(lab)}"></div>'
    )


def patch_html(lab: Lab, label: str) -> str:
    """The same on its neutral ground."""
    return f'<div class="ground">{colour_html(lab, label)}</div>'
