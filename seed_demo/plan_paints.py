"""The demo's paints and papers, and what each paint's film is computed from."""

from collections.abc import Iterator
from dataclasses import dataclass
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


@dataclass(frozen=True, slots=True)
class Film:
    """What makes a watercolour of a published acrylic paint.

    Args:
        published: which row of Okumura (2005) lends its K.
        strength: K at its greatest, beside the published one after bending.
        scattering: S at 550 nm, in the unit of the published table, titanium white.
        fineness: S falls as the wavelength to this power: 0 for grains that are coarse beside a
            wavelength, 4 (Rayleigh) for fine ones.
        clumping: absorbance of a clump of grains where K is greatest; see `optics.clumped`.
        grey: what the film absorbs at every wavelength, as a share of the greatest K.
        bend: K is bent by the exponential of a polynomial in (λ - 555 nm) / 175 nm: its factors
            of the powers 1 to 4.
    """

    published: str
    strength: float
    scattering: float
    fineness: float
    clumping: float
    grey: float
    bend: tuple[float, float, float, float]


# code | published | strength | scattering | fineness | clumping | grey | bend
_FILMS: Final = """
FU|Ultramarine Blue|0.74|0.319|2.3|3.4|0.000|-0.68 2.06 1.64 -0.27
BS|Burnt Sienna|0.91|0.002|0.0|0.0|0.000|0.39 0.49 -0.49 0.19
RS|Raw Sienna|0.123|0.114|3.3|4.2|0.007|-1.00 0.76 -3.00 -1.35
YO|Yellow Ochre|1.35|0.066|0.0|0.0|0.000|0.80 1.12 -0.01 -1.28
RU|Raw Umber|0.42|0.005|0.0|0.0|0.000|-0.71 0.92 0.73 -1.26
BU|Burnt Umber|1.02|0.050|0.0|0.0|0.000|-0.21 0.57 1.02 -1.00
CB|Cobalt Blue|0.84|0.287|4.0|4.5|0.000|0.53 0.22 -0.22 0.08
CE|Cerulean Blue|1.37|0.232|4.0|0.0|0.000|-0.43 -0.47 -0.78 1.24
PBG|Phthalo Blue (Green Shade)|0.21|0.368|3.1|7.2|0.000|0.28 -0.22 -1.33 0.27
PGB|Phthalo Green (Blue Shade)|0.35|0.021|3.6|0.3|0.042|-0.52 0.15 -0.55 0.49
AC|Quinacridone Crimson|0.78|0.076|0.0|5.0|0.000|-0.82 -1.58 0.26 -0.77
QM|Quinacridone Magenta|0.78|0.122|3.8|0.0|0.030|-1.69 -0.86 0.58 -0.52
PYR|Pyrrole Red|0.56|0.030|0.0|0.0|0.018|-2.77 -1.87 0.84 -0.93
CR|Naphthol Red Medium|0.24|0.082|0.0|0.0|0.021|-2.04 0.03 -0.26 0.19
HY|Hansa Yellow Opaque|0.40|0.135|1.5|0.0|0.009|-0.70 0.23 0.04 -0.08
GG|Green Gold|0.28|0.023|4.0|3.7|0.023|-0.71 -1.22 -0.16 -0.36
DV|Dioxazine Purple|0.35|0.009|0.0|2.4|0.000|-0.01 -0.58 -0.88 -0.41
COG|Chromium Oxide Green|0.97|0.074|0.0|0.0|0.000|0.26 -0.79 -2.00 -0.17
LR|Red Oxide|0.42|0.111|0.0|0.0|0.099|-2.70 -2.97 0.97 0.21
IB|Anthraquinone Blue|1.04|0.261|4.0|0.0|0.000|-0.99 -0.67 -0.65 1.23
PYG|Paynes Gray|0.86|0.066|3.7|2.9|0.018|-0.22 0.32 0.13 -0.02
SG|Jenkins Green|0.29|0.300|0.5|3.6|0.000|-1.29 2.31 1.27 -0.36
BT|Titan Buff|0.92|0.018|0.3|0.3|0.008|0.07 -0.30 0.13 -0.21
TW|Titanium White|1.00|1.000|0.0|0.0|0.000|0.00 0.00 0.00 0.00
"""


def _films() -> Iterator[tuple[str, Film]]:
    for line in _FILMS.strip().splitlines():
        code, published, *numbers, powers = line.split("|")
        strength, scattering, fineness, clumping, grey = map(float, numbers)
        first, second, third, fourth = map(float, powers.split())
        bend = (first, second, third, fourth)
        yield code, Film(published, strength, scattering, fineness, clumping, grey, bend)


FILM: Final = dict(_films())
"""The film of each paint. The numbers are chosen, not measured: so that lightness, chroma and hue
of its washes, from full strength to pale, are those of such a pigment, within what was measured of
real watercolours of its kind (bounds and source: tests/seed_demo/test_seed_colours.py), and so that
its mixtures come out as a painter expects."""

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
