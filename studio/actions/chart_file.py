"""The chart that a painter names: one of 24 patches, or one with its reference file."""

from pathlib import Path
from typing import Final

from studio.errors import BadInput
from studio.picture.chart import Chart, by_sample_names, row_by_row

_COLUMNS_OF_24: Final = 6


def open_chart(text: str) -> Chart:
    """A chart.

    Args:
        text: `24`, `24-older` (made before November 2014), or the path of its reference file:
            CGATS.17, patches named by row and column (ISO 12641 and others).

    Raises:
        BadInput: it is neither, or the file gives no such patches.
    """
    from studio.colour.correction import CHARTS_24, chart_24  # noqa: PLC0415

    if text in CHARTS_24:
        made = "since" if text == "24" else "before"
        return row_by_row(
            f"the 24-patch chart made {made} November 2014", *chart_24(text), _COLUMNS_OF_24
        )
    path = Path(text)
    if not path.exists():
        msg = (
            f"there is no chart {text!r}; give 24, 24-older or the reference file that came with it"
        )
        raise BadInput(msg)
    return _from_file(path)


def _from_file(path: Path) -> Chart:
    from studio.actions.open_measurements import open_measurements  # noqa: PLC0415
    from studio.colour.science import adapted, reflectance_to_lab  # noqa: PLC0415

    samples = []
    for sample in open_measurements(path).contents.samples:
        try:
            if sample.spectrum is not None:
                lab = reflectance_to_lab(sample.spectrum)
            else:
                assert sample.lab is not None  # noqa: S101 - a sample has one of the two
                lab = adapted(sample.lab)
        except ValueError:
            continue
        samples.append((sample.name, lab.coordinates))
    return by_sample_names(path.name, samples)
