"""What a preview remembers from one build to the next, so that it makes anew only what changed."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar

Made = TypeVar("Made")


@dataclass(slots=True)
class Recent(Generic[Made]):
    """The last things that were made, by what they were made of.

    Parameters
    ----------
    most : int
        Kept at most; the one made first goes first.

    Examples
    --------
    >>> recent = Recent[int](2)
    >>> [recent.of(n, lambda: n * n) for n in (2, 3, 4)], list(recent.kept)
    ([4, 9, 16], [3, 4])
    """

    most: int
    kept: dict[Hashable, Made] = field(default_factory=dict)

    def of(
        self,
        key: Hashable,
        make: Callable[[], Made],
        worth: Callable[[Made], bool] = lambda _: True,
    ) -> Made:
        """What was made of `key`; made now, and kept if `worth` it, where it was not."""
        if key in self.kept:
            return self.kept[key]
        made = make()
        if worth(made):
            if len(self.kept) >= self.most:
                del self.kept[next(iter(self.kept))]
            self.kept[key] = made
        return made


@dataclass(frozen=True, slots=True)
class Memory:
    """Of one lesson; whoever builds it again hands it over again.

    Parameters
    ----------
    verdicts : Recent
        Of claims.
    stages : Recent
        Packed for the page.
    """

    verdicts: Recent[Any] = field(default_factory=lambda: Recent(256))
    stages: Recent[Any] = field(default_factory=lambda: Recent(6))
