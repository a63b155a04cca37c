"""What every chart says of itself: how many swatches, on which papers."""

from collections.abc import Iterable

from studio.catalogue.paper import Paper

NAMED: int = 3
"""So many papers are named; of more their number is told."""


def counted(count: int, one: str, many: str) -> str:
    """`1 swatch`, `5,000 swatches`."""
    return f"{count:,} {one if count == 1 else many}"


def papers_text(papers: Iterable[Paper]) -> str:
    """The papers some swatches are on, the most used first."""
    counts: dict[int, int] = {}
    named: dict[int, str] = {}
    for paper in papers:
        counts[paper.id] = counts.get(paper.id, 0) + 1
        named[paper.id] = paper.facts.full_name
    order = sorted(counts, key=lambda key: -counts[key])
    if len(order) > NAMED:
        return f"{len(order)} papers, most on {named[order[0]]}"
    return ", ".join(named[key] for key in order) or "no paper"


def used_papers_text(papers: Iterable[tuple[Paper, int]]) -> str:
    """The same of papers with how many swatches are on each."""
    order = sorted(papers, key=lambda pair: -pair[1])
    if len(order) > NAMED:
        return f"On {len(order)} papers, most on {order[0][0].facts.full_name}"
    return "On " + ", ".join(paper.facts.full_name for paper, _ in order)
