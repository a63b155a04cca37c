"""The demo's paints and papers, and the published coefficients each paint is computed from."""

from typing import Final

PAINT_FIELDS: Final = [
    "code",
    "maker",
    "name",
    "pigments",
    "form",
    "volume_ml",
    "price",
    "currency",
    "transparency",
    "staining",
    "granulation",
    "lot",
    "status",
    "low_at_ml",
    "note",
]

PELLOW: Final = "Pellow & Strand"
BRACKWATER: Final = "Brackwater Colour Works"
ORSEL: Final = "Orsel Pans"

# code | maker | name | pigments | form | ml | price | transparency | staining | granulation | lot |
# status | low at ml | note
_PAINTS: Final = f"""
FU|{PELLOW}|French Ultramarine|PB29|tube|14|11.80|transparent|low|high|P26-118|in use|4|
BS|{PELLOW}|Burnt Sienna|PBr7|tube|14|9.40|transparent|low|medium|P26-044|in use|4|
RS|{PELLOW}|Raw Sienna|PBr7|tube|14|9.40|transparent|low|low|P25-201|in use|4|
YO|{PELLOW}|Yellow Ochre|PY43|tube|14|9.40|semi-opaque|low|low|P24-090|in use|3|
RU|{PELLOW}|Raw Umber|PBr7|tube|14|9.40|semi-transparent|low|medium|P25-072|in use|3|
BU|{PELLOW}|Burnt Umber|PBr7|tube|14|9.40|semi-transparent|medium|low|P24-131|in use|3|
CB|{PELLOW}|Cobalt Blue|PB28|tube|14|18.60|semi-transparent|low|medium|P26-009|in use|4|for skies
CE|{PELLOW}|Cerulean Blue|PB35|tube|14|19.20|semi-opaque|low|high|P25-166|in use|3|
PBG|{BRACKWATER}|Phthalo Blue Green Shade|PB15:3|tube|15|10.50|transparent|high|none|B4471|in use|3|
PGB|{BRACKWATER}|Phthalo Green Blue Shade|PG7|tube|15|10.50|transparent|high|none|B4386|in use||
AC|{PELLOW}|Alizarin Crimson|PR83|tube|14|12.20|transparent|high|none|P24-155|in use|3|\
not for sold work: it fades
QM|{BRACKWATER}|Quinacridone Magenta|PR122|tube|15|13.90|transparent|medium|none|B4502|in use|3|
PYR|{BRACKWATER}|Pyrrol Red|PR254|tube|15|13.20|semi-opaque|high|none|B4610|in use|4|
CR|{PELLOW}|Cadmium Red|PR108|tube|14|19.90|opaque|low|none|P24-060|retired||\
replaced by PYR before the spring classes
HY|{BRACKWATER}|Hansa Yellow Medium|PY74|tube|15|10.90|semi-opaque|medium|none|B4390|in use|3|
GG|{BRACKWATER}|Green Gold|PY129|tube|15|14.30|transparent|medium|none|B4555|in use|4|
DV|{ORSEL}|Dioxazine Violet|PV23|half pan|1.8|5.60|transparent|high|none|O-311|in use|0.4|
COG|{BRACKWATER}|Chromium Oxide Green|PG17|tube|15|11.60|opaque|low|low|B4418|in use|3|
LR|{PELLOW}|Light Red|PR101|tube|14|9.40|opaque|medium|low|P25-033|in use|3|
IB|{BRACKWATER}|Indanthrone Blue|PB60|tube|15|14.80|transparent|high|low|B4523|in use|3|
PYG|{ORSEL}|Payne's Grey|PB29;PBk9|half pan|1.8|4.90|semi-transparent|medium|low|O-350|in use|0.4|
SG|{BRACKWATER}|Sap Green|PY150;PG36;PBk7|tube|15|12.40|transparent|medium|low|B4477|in use|4|
BT|{BRACKWATER}|Buff Titanium|PW6|tube|15|10.20|opaque|low|medium|B4581|in use|4|an unbleached white
TW|{PELLOW}|Opaque White|PW6|jar|30|14.50|opaque|low|none|P24-177|in use|5|masts, gulls, spray
"""

PAINTS: Final = [
    dict(zip(PAINT_FIELDS, [*row[:7], "GBP", *row[7:]], strict=True))
    for row in (line.split("|") for line in _PAINTS.strip().splitlines())
]

PUBLISHED_PAINT: Final = {
    "FU": "Ultramarine Blue",
    "BS": "Burnt Sienna",
    "RS": "Raw Sienna",
    "YO": "Yellow Ochre",
    "RU": "Raw Umber",
    "BU": "Burnt Umber",
    "CB": "Cobalt Blue",
    "CE": "Cerulean Blue",
    "PBG": "Phthalo Blue (Green Shade)",
    "PGB": "Phthalo Green (Blue Shade)",
    "AC": "Quinacridone Crimson",
    "QM": "Quinacridone Magenta",
    "PYR": "Pyrrole Red",
    "CR": "Naphthol Red Medium",
    "HY": "Hansa Yellow Opaque",
    "GG": "Green Gold",
    "DV": "Dioxazine Purple",
    "COG": "Chromium Oxide Green",
    "LR": "Red Oxide",
    "IB": "Anthraquinone Blue",
    "PYG": "Paynes Gray",
    "SG": "Jenkins Green",
    "BT": "Titan Buff",
    "TW": "Titanium White",
}
"""Which row of Okumura (2005) lends a demo paint its K and S."""

PAPER_FIELDS: Final = [
    "code",
    "maker",
    "name",
    "fibre",
    "weight_gsm",
    "surface",
    "sheet_width_mm",
    "sheet_height_mm",
    "low_at_sheets",
    "low_at_mm",
    "white_l",
    "white_a",
    "white_b",
    "white_illuminant",
    "white_observer",
    "white_condition",
    "white_read_on",
    "white_spectrum_start_nm",
    "white_spectrum_step_nm",
    "white_reflectance",
    "note",
]

PAPERS: Final = (
    {
        "code": "ECP",
        "maker": "Eddering Mill",
        "name": "Slipway Rag",
        "fibre": "cotton",
        "weight_gsm": "300",
        "surface": "cold pressed",
        "sheet_width_mm": "559",
        "sheet_height_mm": "762",
        "low_at_sheets": "4",
        "note": "140 lb; for most paintings",
    },
    {
        "code": "EHP",
        "maker": "Eddering Mill",
        "name": "Slipway Rag Smooth",
        "fibre": "cotton",
        "weight_gsm": "300",
        "surface": "hot pressed",
        "sheet_width_mm": "559",
        "sheet_height_mm": "762",
        "low_at_sheets": "3",
        "note": "140 lb; for rigging and drawing",
    },
    {
        "code": "CRO",
        "maker": "Corvane Paper",
        "name": "Foreshore Rough",
        "fibre": "wood pulp",
        "weight_gsm": "425",
        "surface": "rough",
        "sheet_width_mm": "559",
        "sheet_height_mm": "762",
        "low_at_sheets": "3",
        "note": "200 lb; class and sketching paper, a little cream",
    },
    {
        "code": "HSR",
        "maker": "Harrow Staithe",
        "name": "Longshore Roll",
        "fibre": "cotton",
        "weight_gsm": "300",
        "surface": "cold pressed",
        "low_at_mm": "1500",
        "note": "1.12 m wide; for panoramas of the whole estuary",
    },
)

PAPER_WHITE: Final = {
    "ECP": (0.930, 0.19, 62.0),
    "EHP": (0.942, 0.16, 55.0),
    "CRO": (0.905, 0.24, 78.0),
    "HSR": (0.924, 0.20, 66.0),
}
"""Arguments of `optics.paper_white`: long-wave reflectance, loss at 380 nm, reach in nm."""

DRYING: Final = {
    "FU": 2.9,
    "BS": 2.2,
    "RS": 1.8,
    "YO": 1.6,
    "RU": 2.4,
    "BU": 2.7,
    "CB": 1.9,
    "CE": 1.7,
    "PBG": 2.6,
    "PGB": 2.8,
    "AC": 2.8,
    "QM": 2.2,
    "PYR": 2.0,
    "CR": 1.8,
    "GG": 1.9,
    "DV": 3.1,
    "COG": 1.7,
    "IB": 3.2,
    "SG": 2.5,
    "BT": 1.5,
    "TW": 1.4,
    "HY": 1.5,
    "LR": 1.9,
    "PYG": 3.0,
}
"""Rise of L* while a wash of each paint dries, around the 2.3 that B. MacEvoy measured on average
(75 watercolours, handprint.com, drying shifts); the values themselves are invented."""
