"""Notebooks: a `Trace` or a `Design` at the end of a cell shows its figure by itself.

Nothing here loads a view, or IPython, before a notebook asks for a picture.
"""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from edgewise.design import Design
    from edgewise.trace import Trace


def register() -> bool:
    """Tell a running IPython how to show our objects; False where there is none."""
    interactive = sys.modules.get("IPython")
    shell: Any = interactive.get_ipython() if interactive else None
    if shell is None:
        return False
    formatters = shell.display_formatter.formatters
    formatters["image/svg+xml"].for_type_by_name("edgewise.design", "Design", design_svg)
    formatters["image/svg+xml"].for_type_by_name("edgewise.trace", "Trace", trace_svg)
    formatters["text/html"].for_type_by_name("edgewise.trace", "Trace", trace_html)
    return True


def design_svg(design: Design) -> str:
    """The block diagram of a design at its start, no operand known.

    Examples
    --------
    >>> from edgewise import catalogue
    >>> design_svg(catalogue.design("serial-adder", n=4))[:4]
    '<svg'
    """
    from edgewise.engines.reference import at_rest

    return trace_svg(at_rest(design))


def trace_svg(trace: Trace) -> str:
    """The block diagram of a run after its last edge."""
    from edgewise.views.diagram.block_diagram import diagram
    from edgewise.views.drawing.svg import svg

    return svg(diagram(trace))


def trace_html(trace: Trace) -> str:
    """The block diagram of a run and its edge table below."""
    from edgewise.views.table.edge_table import STYLE, edge_table_html

    return f"<style>{STYLE}</style>{trace_svg(trace)}{edge_table_html(trace)}"
