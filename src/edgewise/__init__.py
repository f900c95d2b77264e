"""edgewise: clocked arithmetic circuits, computed edge by edge, for those who teach them.

Examples
--------
>>> import edgewise
>>> trace = edgewise.run(edgewise.catalogue.design("serial-adder", n=6), a=22, b=43)
>>> str(trace.word("sum", 12))
'000001'
"""

from __future__ import annotations

import sys

_STARTED_BY_NAME = sys.argv[:1] == ["-m"] and not sys.flags.safe_path and bool(sys.path)
if _STARTED_BY_NAME and not __file__.startswith(f"{sys.path[0]}/"):
    # `python -m edgewise` puts the current folder first, where a lesson may come with a file
    # named like a module of the library. What stands there is not ours to run.
    del sys.path[0]

from importlib import import_module  # noqa: E402  # see above
from typing import TYPE_CHECKING, Any  # noqa: E402  # see above

if TYPE_CHECKING:
    from collections.abc import Sequence

    from edgewise import catalogue
    from edgewise.design import Design
    from edgewise.trace import Trace

    __version__: str

__all__ = ["__version__", "catalogue", "run"]


def run(design: Design, **operands: int | Sequence[int]) -> Trace:
    """Run a design on the reference engine; a family of operands is given as a list.

    Examples
    --------
    >>> import edgewise
    >>> run(edgewise.catalogue.design("ripple-carry-adder", n=4), a=9, b=6, carry_in=1).edges
    0
    """
    from edgewise.engines import reference

    return reference.run(design, operands)


def __getattr__(name: str) -> Any:
    # Rooms are imported when first used, so that `import edgewise` stays quick.
    if name == "catalogue":
        return import_module("edgewise.catalogue")
    if name == "__version__":
        from importlib.metadata import version

        return version("edgewise")
    raise AttributeError(f"module 'edgewise' has no attribute {name!r}")


if "IPython" in sys.modules:
    import_module("edgewise.notebook").register()
