"""A measurement file opened, and the samples in it that were meant."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from studio.actions.plain_file import bytes_of
from studio.catalogue.reading import Condition
from studio.errors import BadInput, NotFound
from studio.formats.measurement_file import LARGEST, read_measurements
from studio.formats.plain_text import listed
from studio.formats.sample import Contents, Sample


@dataclass(frozen=True, slots=True)
class OpenFile:
    """A measurement file that was read, not yet recorded.

    Args:
        name: its name, without the folder.
        content: its bytes.
        contents: what it holds.
    """

    name: str
    content: bytes
    contents: Contents

    @property
    def digest(self) -> str:
        """SHA-256 of its bytes."""
        return hashlib.sha256(self.content).hexdigest()


def open_measurements(path: Path) -> OpenFile:
    """A measurement file with what it holds.

    Raises:
        BadInput: it cannot be opened, or no reading can be taken from it.
    """
    content = bytes_of(path, LARGEST, "export fewer readings")
    return OpenFile(path.name, content, read_measurements(content, path.name))


def samples_named(
    opened: OpenFile, name: str | None, condition: Condition | None
) -> tuple[Sample, ...]:
    """The sample of a name, or the only one; several where a sample was read several times.

    Raises:
        BadInput: no name was given and there are several, the sample cannot be read, or it was
            read under several conditions and none was chosen.
        NotFound: no sample is called so.
    """
    contents = opened.contents
    names = list(dict.fromkeys(sample.name for sample in contents.samples))
    if name is None:
        if len(names) > 1 or contents.faults:
            names += [f"{fault.name} (cannot be read)" for fault in contents.faults]
            msg = (
                f"{opened.name} holds {len(names)} samples; name one with --sample, or take all "
                f"with --all: {listed(names)}"
            )
            raise BadInput(msg)
        found = contents.samples
    else:
        found = _called(contents.samples, name)
    if not found:
        _refuse(opened, name or "", names)
    return of_condition(found, condition)


def of_condition(samples: tuple[Sample, ...], condition: Condition | None) -> tuple[Sample, ...]:
    """Those of some readings of one sample that were made under one condition.

    Raises:
        BadInput: there are several conditions and none was chosen, or none is the chosen one.
    """
    stated = sorted({sample.how.condition for sample in samples if sample.how.condition})
    if condition is not None and stated:
        kept = tuple(each for each in samples if each.how.condition in {None, condition})
        if not kept:
            msg = f"{samples[0].name} was read under {listed(list(stated))}, not {condition}"
            raise BadInput(msg)
        return kept
    if len(stated) > 1:
        msg = (
            f"{samples[0].name} was read under {listed(list(stated))}; choose one with --condition"
        )
        raise BadInput(msg)
    return samples


def _called(samples: Sequence[Sample], name: str) -> tuple[Sample, ...]:
    """The samples of a name; where none is called so, those of that other name or number."""
    wanted = " ".join(name.casefold().split())
    for key in ("name", "number"):
        found = tuple(each for each in samples if (getattr(each, key) or "").casefold() == wanted)
        if found:
            return found
    return ()


def _refuse(opened: OpenFile, name: str, names: list[str]) -> None:
    for fault in opened.contents.faults:
        if fault.name.casefold() == name.casefold():
            msg = f"{opened.name}: {fault.name}: {fault.reason}"
            raise BadInput(msg)
    msg = f"{opened.name} has no sample {name!r}; it has: {listed(names)}"
    raise NotFound(msg, tuple(names))
