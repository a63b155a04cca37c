"""Pictures and steps of a page in HTML."""

from base64 import b64encode

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.blocks import Held, Illustration, Step, Steps
from studio.sheets.page_parts import OUTSIDE, held_captions
from studio.sheets.page_shell import colour_html
from studio.sheets.page_shell import html_text as _text


def illustration_html(block: Illustration) -> str:
    """A picture with its caption; it is part of the file."""
    data = b64encode(block.file).decode("ascii")
    image = (
        f'<img src="data:{block.media_type};base64,{data}" '
        f'width="{block.width}" height="{block.height}" alt="{_text(block.instead)}"'
    )
    kind = "illustration"
    if block.least:
        kind += " chart"
        # What is moved sideways has to be reached by keys as well (WCAG 2.2, 2.1.1).
        image = (
            '<div class="sideways" tabindex="0" role="group" aria-label="picture, wider than a '
            f'phone">{image} style="min-width: {block.least}px; max-width: {block.width}px"></div>'
        )
    else:
        image += ">"
    return f'<figure class="{kind}">{image}<figcaption>{_text(block.caption)}</figcaption></figure>'


def steps_html(block: Steps) -> str:
    """Steps as an ordered list; each bears its own number."""
    outside = any(not on_screen(lab).in_gamut for lab in colours_of(block))
    return "\n".join(
        [
            '<ol class="steps" role="list">',
            *(_step(step) for step in block.steps),
            "</ol>",
            *([f'<p class="small">{_text(OUTSIDE)}</p>'] if outside else []),
        ]
    )


def colours_of(block: Steps) -> list[Lab]:
    """Every colour of some steps."""
    held = [each for step in block.steps for each in step.held]
    return [lab for each in held for lab in (each.wanted, each.mixed) if lab is not None]


def _step(step: Step) -> str:
    return "\n".join(
        [
            '<li class="step">',
            f"<h3>{_text(step.title)}</h3>",
            f"<p>{_text(step.lead)}</p>",
            *(_held(each) for each in step.held),
            *(f"<p>{_text(line)}</p>" for line in step.lines),
            "</li>",
        ]
    )


def _held(held: Held) -> str:
    mixed = '<div class="empty"></div>' if held.mixed is None else colour_html(held.mixed)
    left, right = map(_text, held_captions(held))
    lines = "".join(f"<p>{_text(line)}</p>" for line in held.lines)
    return (
        f'<div class="held"><div class="ground">{colour_html(held.wanted)}{mixed}</div>'
        f"<p>{left}</p><p>{right}</p></div>{lines}"
    )
