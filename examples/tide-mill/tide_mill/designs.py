"""The sluice of a tide mill, as a design for the catalogue."""

from importlib import resources

from edgewise import blueprint

_TEXT = resources.files("tide_mill").joinpath("mill-sluice.yaml").read_text("utf-8")

MILL_SLUICE = blueprint.from_text(_TEXT, "mill-sluice.yaml", name="mill-sluice")
