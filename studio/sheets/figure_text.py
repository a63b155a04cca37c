"""Text on the pictures that matplotlib draws, placed in inches."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from matplotlib.figure import Figure


def write_text(  # noqa: PLR0913 - where, what, how
    figure: "Figure",
    x: float,
    y: float,
    text: str,
    *,
    size: float = 8.0,
    grey: str = "0.0",
    weight: str = "normal",
    centred: bool = False,
) -> None:
    """A text on the figure, its upper edge at a place given in inches."""
    figure.text(
        x / figure.get_figwidth(),
        y / figure.get_figheight(),
        text,
        fontsize=size,
        color=grey,
        fontweight=weight,
        horizontalalignment="center" if centred else "left",
        verticalalignment="top",
        parse_math=False,
    )
