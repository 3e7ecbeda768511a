"""Places to write to that are full or closed, also for an administrator.

A small disk in memory, mounted for one program alone, has an end and can be closed: Linux makes it
for whoever may have a space of mounts of one's own.
"""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

FULL = 'mount -t tmpfs -o size=2m none "$1" && exec "$2" "$3" "$1"'
CLOSED = (
    'mount -t tmpfs none "$1" && "$2" "$3" "$1" && mount -o remount,ro "$1" && exec "$2" "$4" "$1"'
)


def run(space: str, folder: Path, *scripts: str) -> dict[str, Any]:
    """Run scripts in a space; the last one prints what it found as JSON."""
    files = [folder.parent / f"script-{number}.py" for number in range(len(scripts))]
    for file, script in zip(files, scripts, strict=True):
        file.write_text(script, encoding="utf-8")
    folder.mkdir()
    words = [*_alone(), "sh", "-c", space, "sh", str(folder), sys.executable, *map(str, files)]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    held = json.loads(done.stdout)
    assert isinstance(held, dict)
    return held


def _alone() -> list[str]:
    """Give the command that makes a space of mounts, or leave the test out."""
    if shutil.which("unshare"):
        user = [] if hasattr(os, "getuid") and os.getuid() == 0 else ["--map-root-user"]
        words = ["unshare", *user, "--mount"]
        trial = 'mount -t tmpfs none "$1"'
        try_it = [*words, "sh", "-c", trial, "sh", os.curdir]
        if subprocess.run(try_it, capture_output=True, check=False).returncode == 0:
            return words
    pytest.skip("this system lets nobody mount a small disk for a test")
