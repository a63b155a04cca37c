"""XML looked through before anything is built of it: no document type, no entities, no depth."""

from typing import Final
from xml.parsers import expat

from studio.formats.sample import UnreadableFile

_DEEPEST: Final = 100


def root_of(content: bytes, file: str) -> str:
    """The name of the root element as `namespace name`, after the whole file was looked through.

    A document type declares entities, which can grow without end or fetch other files; no kind of
    measurement file has one.

    Raises:
        UnreadableFile: it is not well formed, has a document type, or is nested beyond reason.
    """
    parser = expat.ParserCreate(namespace_separator=" ")
    names: list[str] = []
    depth = 0

    def start(name: str, _attributes: dict[str, str]) -> None:
        nonlocal depth
        if not names:
            names.append(name)
        depth += 1
        if depth > _DEEPEST:
            msg = f"{file} is nested more than {_DEEPEST} deep, which no measurement is"
            raise UnreadableFile(msg)

    def end(_name: str) -> None:
        nonlocal depth
        depth -= 1

    def doctype(*_: object) -> None:
        msg = (
            f"{file} declares a document type or entities, which no measurement file needs; "
            "export it again without"
        )
        raise UnreadableFile(msg)

    parser.StartElementHandler = start
    parser.EndElementHandler = end
    parser.StartDoctypeDeclHandler = doctype
    try:
        parser.Parse(content, True)  # noqa: FBT003 - the whole file at once
    except expat.ExpatError as error:
        msg = (
            f"{file} is damaged or cut off: line {error.lineno}: "
            f"{expat.errors.messages[error.code]}; export it again"
        )
        raise UnreadableFile(msg) from None
    except (LookupError, ValueError):
        msg = f"{file} is written in an encoding that cannot be read; export it as UTF-8"
        raise UnreadableFile(msg) from None
    return names[0]
