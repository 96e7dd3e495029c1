"""Where a path really leads, over all links, and whether that is inside the case folder."""

from pathlib import Path


def real_path(path: Path) -> Path | None:
    """The path with every link followed; none where nothing can have that name."""
    try:
        return path.resolve()
    except (OSError, ValueError, RuntimeError):  # a name too long, a NUL in it, a loop of links
        return None


def leads_out(path: Path, root: Path) -> bool:
    """Whether a path ends outside a folder that is itself given without links."""
    real = real_path(path)
    return real is not None and not real.is_relative_to(root)
