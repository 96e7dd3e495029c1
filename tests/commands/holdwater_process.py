"""Holdwater in a process of its own, as a shell or a build server starts it."""

import os
import subprocess
import sys

COMMAND = [sys.executable, "-m", "assurance.cli"]


def holdwater(*words, cwd=None, env=None, **more):
    """What a run printed, and its exit code."""
    whole = {**os.environ, **(env or {})}
    options = {"capture_output": True, **more}
    return subprocess.run([*COMMAND, *map(str, words)], cwd=cwd, env=whole, text=True, check=False, **options)
