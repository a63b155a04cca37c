"""Words of command lines for hypothesis: what people type, and what nobody should."""

from typing import Any, Final

from hypothesis import strategies as st

PAINTS: Final = ("FU", "BS", "RS", "YO", "QM", "ultramarine", "burnt sienna", "PBG", "HY", "p 1")
PAPERS: Final = ("ECP", "EHP", "HSR", "CRO", "rag", "Eddering Mill")
MIXES: Final = ("M1", "M10", "M12", "M13", "shadow on the mud")
SWATCHES: Final = ("S1", "S2", "S10", "S101", "S102", "S7", "s12", "S9999")
CONTAINERS: Final = ("FU-1", "BS-2", "RS-3", "RS-2", "CB-4", "ECP-1", "HSR-1", "BU-1")
FADES: Final = ("F1", "F2", "F3", "F4", "F99")
TARGETS: Final = ("kelp", "wet slip", "old tar")
PAINTINGS: Final = ("P1", "P2", "p2", "aground", "low water", "P9")
PASSAGES: Final = ("sky", "mud", "hull", "shadow", "weed on the posts", "red", "reeds", "a")
PIGMENTS: Final = ("PB29", "PBr7", "PV19", "PY43", "PB35", "PO20", "N/A", "XX99", "PB29, PV19")
RECIPES: Final = (
    "2 FU + 1 BS", "FU", "3 QM + 1 RS", "1/2 FU + 1.5 YO", "0 FU + 1 BS", "1e3 FU + 1 BS",
    "FU+FU", "2 FU 1 BS", "1 FU + 1 nothing", "99999999 FU + 1 BS", "2 ultramarine + 1 M1",
)  # fmt: skip
COLOURS: Final = (
    "#6b7a5e", "tan", "lab(41 2 -12)", "lch(50 20 120)", "rgb(20 60 80)", "5YR 6/4", "S12", "kelp",
    "#fff", "hsl(120deg 20% 30%)", "oklch(0.5 0.1 200)", "color(display-p3 0 1 0)", "black",
)  # fmt: skip
TRIPLES: Final = (
    "41,2,-12",
    "40 1 -11",
    "lab(60 5 5)",
    "100,0,0",
    "0,0,0",
    "41,2",
    "96.1,-0.4,2.8",
)
DAYS: Final = (
    "2026-03-14",
    "2026-10-02",
    "2020-02-29",
    "2026-02-30",
    "2999-01-01",
    "0001-01-01",
    "14.3.26",
)
PLACES: Final = (
    "40%,62%",
    "10,10",
    "120,80",
    "999999,3",
    "B3",
    "AA12",
    "10%,10%,30%,30%",
    "5,5,40x40",
    "1,1",
)
CORNERS: Final = ("10,10 200,10 200,150 10,150", "0%,0% 99%,0% 99%,99% 0%,99%", "1,1 1,1 1,1 1,1")
SIZES: Final = ("22x30in", "560x760mm", "28x38cm", "0x0mm", "5", "20%", "1x1")
MONEY: Final = ("9.50", "12,40", "0", "free", "-1", "9.999", "1e3", "Infinity", "NaN")
GIVEN: Final = (
    "creek.png", "scan.png", "readings.cxf", "readings.cgats", "paints.csv", "swatches.csv",
    "stock.csv", "mixes.csv", "fade_tests.csv", "papers.csv", "data_sheets.csv", "spectrum.csv",
    "map.csv", "whole", "empty.csv", "folder", "nowhere/at all.csv",
)  # fmt: skip
"""Files that every studio of the proof has beside it, in the folder `given`."""

DEVICES: Final = ("/dev/full", "/dev/null", "/dev/zero", "/dev/stdin/x", "/proc/nowhere")
LONG: Final = "mud" * 20_000

HOSTILE_TEXTS: Final = (
    "", " ", "\t", "\n", "a\nb", "-", "--", "-1", "0", "nan", "inf", "-inf", "1e400", "-1e-400",
    "99999999999999999999999", "9" * 400, "9" * 5000, "1_000", "\u0664\u0662", "\u00bd", "\x00",
    "a\x00b", "\x1b[31mred\x1b[0m", "\x07\x08", "\u202egnp.liam", "\u200f\u05d0\u05d1",
    "\U0001f3a8\U0001f6f6", "e\u0301" * 30, "\ufeff", "\ufffe", "'", '"', "';--", "' OR 1=1 --",
    "<script>alert(1)</script>", "</style><b>", "&lt;&amp;", "%s%n{0}{x}", "$(id)", "`id`", "..",
    "../..", "../../etc/passwd", "/", "/etc/passwd", "C:\\NUL", "~", "*", "[red]mud[/red]", "[/]",
    "\\", "\\N", "\udcff", "mud\udce9", "\ud800", LONG, "\u00df\u0130\u01c5", "S" * 300,
    "(" * 3000, "#" * 2000, "lab(" + "9" * 400 + " 0 0)", "= 1 + 1", "@mud",
    "color(srgb nan 0 0)", "1/0 FU", "2 FU + " * 800 + "1 BS",
)  # fmt: skip

_CLOSED: Final = {
    "paper": PAPERS, "only": PAINTS, "using": PAINTS, "without": PAINTS,
    "lightfast": ("I", "II", "V", "VI"),
    "without_hazard": ("cadmium", "carcinogen", "cobalt", "plutonium"),
    "light": ("A", "D65", "D50", "FL2", "F11", "LED-B3", "moon"),
    "metric": ("ciede2000", "cie76", "cmc(2:1)", "cmc(0:1)"), "target": COLOURS,
    "colour": COLOURS, "for_target": COLOURS, "swatch": SWATCHES, "first": SWATCHES,
    "second": SWATCHES, "mix": (*RECIPES, *MIXES), "recipe": RECIPES, "mix_name": MIXES,
    "of": (*PAINTS, *MIXES), "paint_name": PAINTS, "paper_name": PAPERS,
    "item": (*PAINTS, *PAPERS, *CONTAINERS), "source": (*CONTAINERS, "label"),
    "need": ("FU=3", "ECP=2", "BS=-1", "FU="), "each": ("FU=0.5", "YO=1", "FU=inf"),
    "lab": TRIPLES, "white": TRIPLES, "covered": TRIPLES, "exposed": TRIPLES, "on": DAYS,
    "dated": DAYS, "water": ("3:1", "2", "3:0", "0.5:1", "5000"),
    "applied": ("flat wash", "graded wash", "sponge"), "at": PLACES, "area": PLACES,
    "cell": PLACES, "size": SIZES, "sheet": SIZES, "corners": CORNERS, "grey": PLACES,
    "chart": ("colorchecker", "24", "grey card", "auto"), "price": MONEY,
    "currency": ("GBP", "EUR", "XXX", "gbp", "POUND"), "form": ("tube", "pan", "sachet"),
    "transparency": ("transparent", "opaque", "milky"), "staining": ("none", "low", "lots"),
    "granulation": ("none", "high", "lots"), "pigments": PIGMENTS,
    "status": ("in use", "retired", "gone"), "weight": ("300gsm", "140lb", "12.5", "0"),
    "surface": ("cold pressed", "rough", "bumpy"), "fibre": ("cotton", "wood pulp", "nylon"),
    "rating": ("I", "3", "8", "VI"), "scale": ("ASTM D4303", "blue wool", "stars"),
    "work_kind": ("spatter", "rinse water", "pan", "licking"),
    "for_class": ("adults", "children", "llamas"), "subject": (*PAINTS, *MIXES, "sheet"),
    "place": ("south window", "mast"), "illuminant": ("A", "D50", "D65", "D51"),
    "method": ("spectrophotometer", "scanner", "camera", "nose"),
    "condition": ("M0", "M1", "M2", "M9"), "backing": ("white", "black", "self"),
    "backup": ("newest", "studio", "1"), "sample": ("S12", "S12 a", "1", "2"),
    "kind": ("paints", "swatches", "stock", "tube", "pan", "sonnets", "block", "pad"),
    "mark": ("full", "empty", "now"), "code": (*SWATCHES, *FADES, "NEW1", "1A"),
    "painting": PAINTINGS, "passage": PASSAGES, "over": PASSAGES, "before": PASSAGES,
    "after": PASSAGES, "technique": ("flat wash", "glaze", "lifted", "poured"),
    "share": ("12%", "3 %", "12", "0.12", "0%", "101%"), "title": ("Ebb", "Low water"),
    "final": ("hull=S193", "mud:2=S14", "sky=", "=S1"), "used": ("FU=1.2", "FU=1,BS=0.4", "FU=0"),
    "containing": ("PB29", "blue", "mud"), "seen_in": ("the label",),
}  # fmt: skip
"""What people give to the parameters of a name."""

_NAMES: Final = (
    *PAINTS,
    *PAPERS,
    *MIXES,
    *SWATCHES,
    *TARGETS,
    *PIGMENTS,
    *FADES,
    *PAINTINGS,
    *PASSAGES,
    "Tidal Grey",
    "new",
)
_WHOLE: Final = ("1", "2", "3", "8", "10", "0", "-1", "5000", "2026", "2.5", "many")
_NUMBER: Final = (
    "1",
    "0.5",
    "2.25",
    "14",
    "21.4",
    "0",
    "-1",
    "1e-9",
    "nan",
    "inf",
    "1e400",
    "37",
    "much",
)

WRITES: Final = frozenset({"html", "pdf", "png", "csv", "annotate", "folder", "to"})
"""Parameters that name what a command writes."""


def hostile() -> st.SearchStrategy[str]:
    """Texts that nobody should type: listed ones, and any at all."""
    return st.sampled_from(HOSTILE_TEXTS) | st.text(max_size=12)


def _plausible(parameter: Any) -> st.SearchStrategy[str]:
    kind = parameter.type.name
    if kind == "path":
        if parameter.name in WRITES:
            ending = "" if parameter.name in {"folder", "to"} else f".{parameter.name}"
            return st.sampled_from(
                [
                    *(
                        f"{name}{ending}"
                        for name in ("out", "out 2", "../beside/out", "old", "gone/x")
                    )
                ]
            )
        return st.sampled_from([f"../given/{name}" for name in GIVEN])
    if kind == "int":
        return st.sampled_from(_WHOLE)
    if kind == "float":
        return st.sampled_from(_NUMBER)
    return st.sampled_from(_CLOSED.get(parameter.name, _NAMES))


@st.composite
def _value(draw: st.DrawFn, parameter: Any, strange: int) -> str:
    """A value, strange in so many of ten cases."""
    if draw(st.integers(1, 10)) > strange:
        return str(draw(_plausible(parameter)))
    if parameter.type.name == "path":
        return draw(
            st.sampled_from((*DEVICES, "../given", ".", "old.html/x", "../../..")) | hostile()
        )
    return draw(hostile())


@st.composite
def words_of(draw: st.DrawFn, path: tuple[str, ...], command: Any) -> list[str]:
    """A command line of a command: its arguments, and some of its options.

    Half of the lines hold nothing strange, so that they get past the checks and into the work.
    """
    strange = draw(st.sampled_from((0, 0, 1, 3)))
    words: list[str] = []
    arguments: list[str] = []
    few = draw(st.sampled_from((1, 2, 4)))
    for parameter in command.params:
        if parameter.param_type_name == "argument":
            if parameter.required or draw(st.booleans()):
                count = draw(st.integers(1, 2)) if parameter.nargs == -1 else 1
                arguments += [draw(_value(parameter, strange)) for _ in range(count)]
            continue
        if not (parameter.required or draw(st.integers(0, 9)) < few):
            continue
        option = draw(st.sampled_from([*parameter.opts, *parameter.secondary_opts]))
        if getattr(parameter, "is_flag", False):
            words.append(option)
            continue
        for _ in range(draw(st.integers(1, 2)) if parameter.multiple else 1):
            words += [option, draw(_value(parameter, strange))]
    if strange and draw(st.integers(0, 30)) == 0:
        words.append(draw(hostile()))
    if any(word.startswith("-") for word in arguments) or draw(st.booleans()):
        return [*path, *words, "--", *arguments]
    return [*path, *arguments, *words]
