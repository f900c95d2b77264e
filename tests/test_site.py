"""The site of the documents: every page of it is made and no link leads nowhere."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from edgewise import catalogue
from scripts import make_site

if TYPE_CHECKING:
    import pytest

ROOT = Path(__file__).parents[1]
CONF = ROOT / "docs" / "site"


def test_the_documents_and_a_design_become_a_site(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of one design only; `make docs` makes a page for each."""
    source, pages, site = tmp_path / "source", tmp_path / "extra" / "pages", tmp_path / "site"
    for name, folder in (("OUT", source), ("PAGES", pages)):
        folder.mkdir(parents=True)
        monkeypatch.setattr(make_site, name, folder)
    monkeypatch.setattr(catalogue, "ORDER", ("binary-counter",))
    guides = make_site.copy_documents()
    make_site.write_design(catalogue.find("binary-counter"))
    make_site.write_gallery()
    (source / "api").mkdir()
    (source / "api" / "index.md").write_text("# Python API\n", "utf-8")
    make_site.write_index(guides, [("binary-counter.html", "Counter")])
    made = subprocess.run(
        [sys.executable, "-m", "sphinx", "-q", "-W", "-c", str(CONF), str(source), str(site)],
        env={**os.environ, "EDGEWISE_SITE_PAGES": str(pages.parent)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert (made.returncode, made.stderr) == (0, "")
    told = (site / "gallery" / "binary-counter.html").read_text("utf-8")
    for text in ("flip-flops = n", "unit-gate", "after edge"):
        assert text in told, text
    for page in site.rglob("*.html"):
        if "pages" in page.parts or "_static" in page.parts:
            continue
        for link in re.findall(r'(?:href|src)="([^"#?:]+)[^":]*"', page.read_text("utf-8")):
            assert (page.parent / link).exists(), f"{page.name}: {link}"


def test_each_public_module_is_in_the_api(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(make_site, "OUT", tmp_path)
    make_site.write_api()
    told = "".join(path.read_text("utf-8") for path in (tmp_path / "api").glob("*.md"))
    listed = set(re.findall(r"automodule:: (\S+)", told))
    source = ROOT / "src" / "edgewise"
    files = {path for path in source.rglob("*.py") if path.stem != "__main__"}
    assert len(listed) == len(files)
    assert {"edgewise", "edgewise.bits", "edgewise.circuit.parts"} <= listed
