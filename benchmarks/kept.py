"""Keep a benchmark's result as data, with the commit and the day it came from."""

import json
import subprocess
from datetime import date
from pathlib import Path
from typing import Any


def keep(path: Path, result: dict[str, Any]) -> None:
    """Write the result beside where it came from; refuse nothing, hide nothing."""
    commit = subprocess.run(
        ["git", "rev-parse", "HEAD"], capture_output=True, text=True, check=True, cwd=path.parent
    ).stdout.strip()
    whole = {"commit": commit, "day": date.today().isoformat(), **result}
    path.write_text(json.dumps(whole, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
