"""Where results may go: told before anything is computed."""

from __future__ import annotations

import os
from pathlib import Path


def folder_trouble(folder: Path, overwrite: bool) -> str | None:
    """Why results cannot go into a folder; None if they can."""
    if folder.exists() and not folder.is_dir():
        return f"{folder}: is a file; name a folder with --out"
    if folder.is_dir() and any(folder.iterdir()) and not overwrite:
        return f"{folder}: is not empty; name another folder, or add --overwrite to replace results"
    return None if _can_write(folder) else f"{folder}: cannot be written to"


def file_trouble(path: Path, overwrite: bool) -> str | None:
    """Why a file cannot be written; None if it can."""
    if path.is_dir():
        return f"{path}: is a folder; name a file"
    if path.exists() and not overwrite:
        return f"{path}: exists already; name another file, or add --overwrite to replace it"
    if not path.absolute().parent.is_dir():
        return f"{path}: no such folder {path.parent}"
    return None if _can_write(path) else f"{path}: cannot be written to"


def _can_write(path: Path) -> bool:
    """Whether the path, or the nearest folder above it that there is, may be written to."""
    there = path.absolute()
    while not there.exists():
        there = there.parent
    return os.access(there, os.W_OK)
