"""Files that end in .v: Verilog (IEEE 1364-2005)."""

from __future__ import annotations

from typing import Final

from edgewise.hdl.design import design
from edgewise.importers import Importer

IMPORTER: Final = Importer("v", "Verilog (IEEE 1364-2005)", design)
