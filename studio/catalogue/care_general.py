"""What to mind in each kind of work with every paint, each with its source."""

from typing import Final

from studio.catalogue.care import ARTS, LABELLING, MEMORY, PRACTICE, Work

_SWALLOWING: Final = (
    "No brush in the mouth, no food at the table: swallowing is the main way of harm.",
    ARTS,
)

GENERAL: Final[dict[Work, tuple[tuple[str, str], ...]]] = {
    Work.BRUSH: (
        _SWALLOWING,
        ("Keep paint water away from cups, and wash your hands before you eat.", PRACTICE),
        ("Wipe up splashes wet, before they dry to dust.", PRACTICE),
    ),
    Work.SPATTER: (
        ("Heavy spattering makes a mist that is breathed.", ARTS),
        ("Flick low and close to the sheet, in fresh air, and keep drops out of eyes.", PRACTICE),
        ("Cover what lies around the sheet, and wipe it wet.", PRACTICE),
    ),
    Work.SPRAY: (
        ("The mist of sprayers and airbrushes is breathed.", ARTS),
        ("Lay it with a brush where a brush will do.", PRACTICE),
        ("Else work under extraction, and ask a professional which mask fits.", PRACTICE),
    ),
    Work.DRY_PIGMENT: (
        ("Dry pigment is breathed as dust: buy it as paint, or wet it at once.", ARTS),
        ("No draught, no sweeping, no blowing; closed jars, wet wiping.", PRACTICE),
        ("Ask a professional which mask and gloves fit.", PRACTICE),
    ),
    Work.SANDING: (
        ("Sanding and scraping a dry wash makes dust that is breathed.", ARTS),
        ("Lift with water and a sponge instead; wipe up wet.", PRACTICE),
    ),
    Work.RINSE_WATER: (
        ("Wipe palette and brushes with a rag first, so that little reaches the water.", PRACTICE),
        ("Let the jar stand until the colour has settled, and ask what local rules say.", PRACTICE),
        ("Never into a creek, a ditch or a bed that grows food.", PRACTICE),
    ),
    Work.ADULTS: (
        _SWALLOWING,
        ("Have labels and data sheets in the room, and read the hazard marks on them.", LABELLING),
        ("Ask who has an allergy or asthma, or is pregnant, before you start.", PRACTICE),
        ("Tube paint may hold preservatives that cause skin allergy (EUH208).", MEMORY),
    ),
    Work.CHILDREN: (
        _SWALLOWING,
        ("Take only what label and data sheet allow at their age.", LABELLING),
        ("Fingers and brushes reach the mouth: wash hands at the end.", PRACTICE),
        ("No spraying, no spattering, no dry pigment and no sanding.", PRACTICE),
        ("Tube paint may hold preservatives that cause skin allergy (EUH208).", MEMORY),
    ),
    Work.PREGNANCY: (
        ("Ask your doctor or midwife, with labels and data sheets in hand.", PRACTICE),
        _SWALLOWING,
        ("Brush work alone: no dust and no mist.", PRACTICE),
    ),
}
"""Text and source for each kind of work. They hold where nothing is on record, too."""
