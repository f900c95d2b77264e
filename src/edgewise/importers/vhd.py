"""Files that end in .vhd: VHDL (IEEE 1076-2008)."""

from __future__ import annotations

from typing import Final

from edgewise.hdl.design import design
from edgewise.importers import Importer

IMPORTER: Final = Importer("vhd", "VHDL (IEEE 1076-2008)", design)
