"""The chart that is named: 24 patches, or a reference file."""

from pathlib import Path

import numpy as np
import pytest

from studio.actions.chart_file import open_chart
from studio.colour.correction import chart_24
from studio.errors import BadInput

NAMES = [f"{row}{column}" for row in "ABCD" for column in range(1, 7)]


def cgats(lines: list[str], fields: str = "SAMPLE_ID\tLAB_L\tLAB_A\tLAB_B") -> str:
    return "\n".join(
        [
            "CGATS.17",
            'ORIGINATOR "Eddering Mill"',
            f"NUMBER_OF_FIELDS {len(fields.split())}",
            "BEGIN_DATA_FORMAT",
            fields,
            "END_DATA_FORMAT",
            f"NUMBER_OF_SETS {len(lines)}",
            "BEGIN_DATA",
            *lines,
            "END_DATA",
            "",
        ]
    )


def test_the_two_charts_of_24_patches() -> None:
    new, older = open_chart("24"), open_chart("24-older")
    assert (new.rows, new.columns, len(new.patches)) == (4, 6, 24)
    assert new.name == "the 24-patch chart made since November 2014"
    assert older.name == "the 24-patch chart made before November 2014"
    assert new.patches[0] == "dark skin"
    assert 0 < np.abs(new.lab - older.lab).max() < 6


def test_a_reference_file_gives_lab_and_layout(tmp_path: Path) -> None:
    _, lab = chart_24("24")
    path = tmp_path / "tide.cgats"
    rows = [
        "\t".join([name, *(f"{value:.3f}" for value in values)])
        for name, values in zip(NAMES, lab, strict=True)
    ]
    path.write_text(cgats(rows), encoding="ascii")
    chart = open_chart(str(path))
    assert (chart.name, chart.rows, chart.columns) == ("tide.cgats", 4, 6)
    np.testing.assert_allclose(chart.lab, lab, atol=6e-4)


def test_spectra_of_a_reference_file_become_lab(tmp_path: Path) -> None:
    fields = "SAMPLE_ID " + " ".join(f"SPECTRAL_NM{nm}" for nm in range(400, 701, 10))
    rows = [" ".join([name, *["0.18"] * 31]) for name in NAMES]
    path = tmp_path / "grey.txt"
    path.write_text(cgats(rows, fields), encoding="ascii")
    # L* of a reflectance of 18 %.
    np.testing.assert_allclose(open_chart(str(path)).lab, [[49.496, 0, 0]] * 24, atol=0.01)


def test_patches_that_have_no_colour_are_left_open(tmp_path: Path) -> None:
    fields = "SAMPLE_ID " + " ".join(f"SPECTRAL_NM{nm}" for nm in range(400, 701, 10))
    rows = [" ".join([name, *["0.18"] * 31]) for name in NAMES[1:]]
    rows.append(" ".join(["A1", *["1.1"] * 31]))  # more than white: L* above 100
    path = tmp_path / "grey.txt"
    path.write_text(cgats(rows, fields), encoding="ascii")
    assert "A1" not in open_chart(str(path)).patches


def test_what_is_no_chart_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="there is no chart '48'; give 24, 24-older or the"):
        open_chart("48")
    path = tmp_path / "mud.cgats"
    path.write_text(cgats(["mud\t40\t5\t10"]), encoding="ascii")
    with pytest.raises(BadInput, match=r"mud\.cgats names 0 patches by row and column"):
        open_chart(str(path))
