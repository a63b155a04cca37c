"""The demo's mixes: a wash of each paint, then mixtures for boatyards, creeks and salt marsh."""

from typing import Final

from seed_demo.plan_paints import PAINTS

# recipe | name | passage (how its swatches are painted) | target | note
_BLENDS: Final = """
2 FU + 1 BS|shadow on the mud|mud|7.5PB 5/8|
1 FU + 1 BS|wet slipway|mud|#858b9f|
2 FU + 3 BS + 1 YO|mud bank at half tide|mud||the grey most often wanted
2 FU + 3 RU|channel mud|mud||
1 FU + 1 BU|weathered tar|hull|#4d4f58|
2 IB + 1 BU|tarred hull in shade|hull||
1 IB + 1 BS|creek under cloud|water|lab(50 -6 -25)|
8 CB + 1 LR|distant tree line|distance|7.5PB 7/6|lay it while the sky is just dry
5 CB + 1 QM|far shore, evening|distance|10PB 7/8|
2 CB + 1 BS|morning haze|distance|#bac0c8|
1 CE + 1 BT|low sky|sky|lab(90 -6 -8)|
8 CE + 1 LR|rain over the bar|sky||
2 CE + 1 RS|tide-line green|water|7.5BG 8/2|
3 RS + 1 FU|salt marsh turf|marsh|2.5GY 5/2|
4 YO + 1 FU|dry sedge|marsh|#8e845f|
1 YO + 1 CB||marsh||
4 GG + 1 SG|samphire, June|marsh|lab(56 -22 40)|
3 GG + 1 COG|young samphire|marsh||
2 SG + 1 BS|samphire, October|marsh|#46533f|
3 GG + 1 PYR|samphire, turned red|marsh|#cb5a38|
2 COG + 1 BT|sea purslane|marsh|10GY 6/6|
1 SG + 2 RS|cord grass|marsh|lab(43 -16 20)|
4 HY + 1 PBG|buoy green|hull|#5a8550|
6 HY + 1 PGB|new reed|marsh||
5 HY + 1 PYR|oilskin|hull|lab(65 44 58)|
3 PYR + 1 BS|rust red hull|hull|#c53536|
1 LR + 1 BS|rust streak|hull|7.5R 4/8|granulates on rough paper
2 CR + 1 LR|lifebuoy, old|hull|lab(45 50 30)|made before the cadmium was retired
3 PYR + 1 LR|red oxide primer|hull|#bd3a3a|
4 BT + 1 RS|wet sand|sand|#f4e6c9|
3 BT + 1 RU|dry sand|sand||
4 BT + 2 YO + 1 FU|sand in shadow|sand|lab(81 -3 12)|
1 AC + 2 RS|evening sky, low band|sky|5R 7/8|fades: sketchbook only
3 AC + 1 DV|sunset bars|sky||fades: sketchbook only
1 QM + 3 YO|sky over the saltings|sky|5R 8/6|
4 CB + 1 AC|evening sky, upper|sky|#b6a8d4|fades: sketchbook only
2 FU + 1 QM|violet dusk|distance|lab(57 22 -44)|
1 DV + 3 BU|wreck timbers|hull|#4a403c|
1 DV + 10 YO|driftwood|sand||
1 PYG + 2 BS|old rope|hull|#55484a|
2 PYG + 1 RU|mooring posts|hull||
1 PYG + 4 CE|squall|sky|lab(78 -9 -18)|
3 PBG + 1 BS|deep channel|water|#3a8dbd|
1 PBG + 3 BU|boat shed door|hull||
1 PGB + 2 AC|hull black|hull|lab(27 1 -1)|no black on the palette
1 PGB + 3 LR||hull||
2 TW + 1 CE|limewashed shed|sand|10B 9/4|opaque
3 TW + 1 YO|gull underwing|sand|#faeac6|opaque
2 TW + 1 RU||sand||opaque
5 RS + 2 BS + 1 FU|reed bed in winter|marsh|7.5YR 5/4|
6 CB + 4 RS + 1 QM|estuary grey|water|lab(74 5 -7)|
8 CE + 4 RS + 1 LR|sky before rain|sky|#c3c8c6|
"""

_BLEND_ROWS: Final = [line.split("|") for line in _BLENDS.strip().splitlines()]

MIXES: Final = [
    {"code": f"M{number}", "recipe": recipe, "name": name, "note": note}
    for number, (recipe, name, note) in enumerate(
        [
            *((f"1 {paint['code']}", "", "") for paint in PAINTS),
            *((row[0], row[1], row[4]) for row in _BLEND_ROWS),
        ],
        start=1,
    )
]

PASSAGE: Final = {
    f"M{number}": row[2] for number, row in enumerate(_BLEND_ROWS, start=len(PAINTS) + 1)
}
"""What a mixture is for, which decides how its swatches are painted."""

TARGET: Final = {
    f"M{number}": row[3] for number, row in enumerate(_BLEND_ROWS, start=len(PAINTS) + 1)
}
"""The colour in the reference picture that one swatch of a mixture was held against."""


def parts(recipe: str) -> dict[str, float]:
    """Parts by paint code of a recipe such as `2 FU + 1 BS`."""
    pairs = (term.split() for term in recipe.split("+"))
    return {code: float(amount) for amount, code in pairs}
