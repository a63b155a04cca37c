"""Which libraries a kind of file loads: none but those it needs."""

import subprocess
import sys
from pathlib import Path
from typing import Final

import pytest

from tests.formats.files import MUD, SPEC, WAVELENGTHS, cxf, cxf_object, cxf_spectrum

ROOT: Final = Path(__file__).resolve().parents[2]
SCRIPT: Final = """
import sys
from pathlib import Path
from studio.formats.measurement_file import read_measurements
assert read_measurements(Path(sys.argv[1]).read_bytes(), "mud").samples
print(*{name.split(".")[0] for name in sys.modules})
"""
TABLE: Final = "\n".join(f"{nm},{value}" for nm, value in zip(WAVELENGTHS, MUD, strict=True))

TWO_GEOMETRIES: Final = SPEC.replace(
    "<GeometryChoice>", "<GeometryChoice><SphereGeometry>Diffuse</SphereGeometry>"
)
"""Which the library logs a warning of."""


@pytest.mark.parametrize(
    ("content", "loaded"),
    [
        (TABLE.encode(), set()),
        (b"sample,l,a,b\nS1,41,2,12\n", set()),
        (cxf(cxf_object("S1", cxf_spectrum()), TWO_GEOMETRIES), {"colour_cxf", "xsdata"}),
    ],
    ids=["spectrum", "lab", "cxf"],
)
def test_a_file_loads_what_its_kind_needs_and_prints_nothing(
    content: bytes, loaded: set[str], tmp_path: Path
) -> None:
    path = tmp_path / "mud"
    path.write_bytes(content)
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, str(path)],
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stderr == ""
    heavy = {"colour", "colour_cxf", "numpy", "scipy", "sqlalchemy", "typer", "xsdata"}
    assert heavy & set(done.stdout.split()) == loaded
