"""The demo's data sheets and label marks, as the painter noted them."""

from typing import Final

SHEET_FIELDS: Final = ["paint", "location", "dated_on", "label_marks", "recorded_on"]

_MAKERS: Final = {
    "pellow": "https://example.org/pellow-strand/sds",
    "brackwater": "https://example.org/brackwater/sds",
    "orsel": "https://example.org/orsel/sds",
}

# paint | maker and file | date on the sheet | label marks | noted on; HY, LR and PYG have none
_SHEETS: Final = """
FU|pellow/french-ultramarine.pdf|2025-02-01|AP|2025-03-01
BS|pellow/burnt-sienna.pdf|2025-02-01|AP|2025-03-01
RS|pellow/raw-sienna.pdf|2025-02-01|AP|2025-03-01
YO|pellow/yellow-ochre.pdf|2025-02-01||2025-03-01
RU|pellow/raw-umber.pdf|2019-06-14|contains manganese|2025-03-01
BU|pellow/burnt-umber.pdf|2025-02-01|contains manganese|2025-03-01
CB|pellow/cobalt-blue.pdf|2025-02-01|CL; contains cobalt|2025-03-01
CE|pellow/cerulean-blue.pdf|2025-02-01|CL; contains cobalt|2025-03-01
PBG|brackwater/pb15-3.pdf|2024-09-30|AP|2025-01-18
PGB|brackwater/pg7.pdf|2024-09-30|AP|2025-01-18
AC|pellow/alizarin-crimson.pdf|2025-02-01||2025-03-01
QM|brackwater/pr122.pdf|2024-09-30||2025-01-18
PYR|brackwater/pr254.pdf|2026-01-12||2026-03-08
CR|pellow/cadmium-red.pdf|2021-11-03|CL; contains cadmium; do not spray|2025-01-18
GG|brackwater/py129.pdf|2024-09-30||2025-01-18
DV|orsel/dioxazine-violet.html|||2025-01-18
COG|||contains chromium|2024-11-09
IB|brackwater/pb60.pdf|2024-09-30||2025-01-18
SG|brackwater/sap-green.pdf|2020-04-20||2025-01-18
BT|brackwater/pw6-buff.pdf|2024-09-30||2025-01-18
TW|pellow/opaque-white.pdf|2025-02-01||2025-03-01
"""


def sheet_rows() -> list[dict[str, str]]:
    """The rows of data_sheets.csv."""
    rows = []
    for line in _SHEETS.strip().splitlines():
        paint, file, dated_on, marks, recorded_on = line.split("|")
        maker, _, page = file.partition("/")
        location = f"{_MAKERS[maker]}/{page}" if file else ""
        cells = (paint, location, dated_on, marks, recorded_on)
        rows.append(dict(zip(SHEET_FIELDS, cells, strict=True)))
    return rows
