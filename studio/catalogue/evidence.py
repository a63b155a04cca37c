"""How a fact of the reference tables is known."""

from enum import StrEnum


class Evidence(StrEnum):
    """How well the source of a fact was seen; every fact is unverified until its owner confirms."""

    PUBLISHED = "published"
    PARTLY = "partly"
    MEMORY = "memory"
    OWNER = "owner"
