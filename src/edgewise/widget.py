"""The stage in a notebook: step through a run, try other numbers, predict the next rows.

Needs the extra ``edgewise[notebook]``; it is the module of the static page, in a widget.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any

from edgewise.blueprint import Blueprint
from edgewise.errors import EdgewiseError, Message
from edgewise.lesson.pieces import Stage
from edgewise.publish.html import page
from edgewise.publish.stage import custom_element, design_data, javascript, sizes
from edgewise.trace import Trace

if TYPE_CHECKING:
    from anywidget import AnyWidget


def widget(
    trace: Trace, blueprint: Blueprint | None = None, wish: Stage | None = None
) -> AnyWidget:
    """A widget with the stage of a run; its ``row`` is the row shown and can be set.

    Parameters
    ----------
    trace : Trace
        The run that is shown first.
    blueprint : Blueprint, optional
        Where other sizes of the design come from; without it there is only the trace's own.
    wish : Stage, optional
        Columns, opened parts and the like.

    Raises
    ------
    EdgewiseError
        If the run is too long for a stage, or the extra is not installed.

    Examples
    --------
    >>> from edgewise import catalogue, run
    >>> trace = run(catalogue.design("serial-adder", n=4), a=6, b=3)
    >>> shown = widget(trace, catalogue.find("serial-adder"))  # doctest: +SKIP
    >>> shown.row = 5  # doctest: +SKIP
    """
    wish = wish or Stage()
    made = custom_element.data(trace, blueprint, (), wish)
    if made is None:
        raise EdgewiseError(
            Message(
                "stage-large",
                design=trace.design.name,
                edges=trace.edges,
                gates=len(trace.design.netlist.gates),
                most_edges=sizes.MOST_EDGES,
                most_gates=sizes.MOST_GATES,
            )
        )
    shown: AnyWidget = _kind()(stage=design_data.text(made), row=wish.row)
    return shown


def module() -> str:
    """The script of the widget: the stage, and how a notebook begins it."""
    return javascript.script("notebook")


def style() -> str:
    """The style sheet of the widget: the stage looks as it does on a page."""
    return f"{page.typefaces()}\n{javascript.source('table.css')}{custom_element.style()}"


@lru_cache(maxsize=1)
def _kind() -> Any:
    """The class of the widget, made when the first is."""
    try:
        import anywidget
        import traitlets
    except ImportError:
        raise EdgewiseError(Message("widget-package")) from None

    class StageWidget(anywidget.AnyWidget):
        """The stage of one run."""

        _esm = module()
        _css = style()
        stage = traitlets.Unicode().tag(sync=True)
        row = traitlets.Int(0).tag(sync=True)

    return StageWidget
