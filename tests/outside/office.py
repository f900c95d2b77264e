"""LibreOffice without a window: files opened by it and saved as another kind."""

from __future__ import annotations

import subprocess
from pathlib import Path


def converted(file: Path, kind: str, out: Path, profile: str, *options: str) -> Path:
    """The file, opened and saved as another kind in a folder."""
    subprocess.run(
        [
            "soffice",
            f"-env:UserInstallation={profile}",
            "--headless",
            *options,
            "--convert-to",
            kind,
            "--outdir",
            str(out),
            str(file),
        ],
        check=True,
        capture_output=True,
        timeout=300,
    )
    return out / f"{file.stem}.{kind}"
