"""The lights that colours may be compared under: what each illuminant is and how it is typed."""

from typing import Final

from studio.colour.lab import ILLUMINANTS

REFERENCE: Final = "D50"
"""The light that matches are made in (ISO 13655, ISO 3664)."""

USUAL: Final = ("A", "LED-B3", "FL2")
"""Lights to compare under unless others are asked for: a lamp, a white LED, a fluorescent tube."""

_KINDS: Final = (
    (("A",), "incandescent lamp"),
    (("B", "C"), "sunlight by filters, superseded"),
    (("E",), "equal energy"),
    (("ID50", "ID65"), "daylight behind glass"),
    (("FL10", "FL11", "FL12"), "fluorescent, narrow bands"),
    (("FL7", "FL8", "FL9"), "fluorescent, broad bands"),
    (("FL",), "fluorescent"),
    (("HP",), "high pressure discharge"),
    (("LED-BH",), "LED, blue with phosphor and red"),
    (("LED-B",), "LED, blue with phosphor"),
    (("LED-RGB",), "LED, red, green and blue"),
    (("LED-V",), "LED, violet with phosphor"),
    (("D",), "daylight"),
)


def light_kind(name: str) -> str:
    """What kind of light an illuminant stands for (CIE 15:2018), in a few words.

    Args:
        name: one of `ILLUMINANTS`.
    """
    for names, kind in _KINDS:
        if name in names or (len(names) == 1 and name.startswith(names[0])):
            return kind
    raise AssertionError(name)


def read_lights(text: str) -> tuple[str, ...]:
    """The illuminants of a list such as `A, LED-B3`, in any case; each once, never D50.

    D50 is the reference that the others stand beside.

    Raises:
        ValueError: a name is not an illuminant of CIE 15, or there is none but D50.
    """
    known = {name.casefold(): name for name in ILLUMINANTS}
    found = []
    for word in text.split(","):
        name = known.get(word.strip().casefold())
        if name is None:
            msg = (
                f"{word.strip()!r} is not an illuminant of CIE 15; name lights such as A, D65, "
                "FL2, FL11 or LED-B3, with commas between them"
            )
            raise ValueError(msg)
        found.append(name)
    lights = tuple(name for name in dict.fromkeys(found) if name != REFERENCE)
    if not lights:
        msg = "D50 is what every light is compared with; name another, such as A or LED-B3"
        raise ValueError(msg)
    return lights
