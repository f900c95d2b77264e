"""Files that end in .sv: SystemVerilog (IEEE 1800-2017)."""

from __future__ import annotations

from typing import Final

from edgewise.hdl.design import design
from edgewise.importers import Importer

IMPORTER: Final = Importer("sv", "SystemVerilog (IEEE 1800-2017)", design)
