"""Files that end in .vhdl: VHDL (IEEE 1076-2008)."""

from __future__ import annotations

from typing import Final

from edgewise.hdl.design import design
from edgewise.importers import Importer

IMPORTER: Final = Importer("vhdl", "VHDL (IEEE 1076-2008)", design)
