"""Finds the templates in a checkout or a wheel, and renders each with its one typed context."""

from dataclasses import fields
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from jinja2 import Environment

_PACKAGE = Path(__file__).resolve().parents[1]


@cache
def templates_folder() -> Path:
    """The folder `site_templates`: inside the package in a wheel, beside it in a checkout."""
    for folder in (_PACKAGE / "site_templates", _PACKAGE.parent / "site_templates"):
        if (folder / "pages").is_dir():
            return folder
    raise FileNotFoundError(f"no `site_templates` beside or inside {_PACKAGE}")


class Renderer:
    """Renders a page template from a frozen dataclass of exactly what it needs."""

    def __init__(self) -> None:
        self._environment = environment()

    def __call__(self, template: str, context: Any) -> str:
        """The page body. The fields of the context are the names of the template."""
        names = {one.name: getattr(context, one.name) for one in fields(context)}
        return self._environment.get_template(template).render(names)


def environment() -> "Environment":
    """Templates that escape everything, and stop at a name that does not exist.

    They are compiled each time: a cache of compiled code on disk would be code that anyone could swap.
    """
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    made = Environment(
        loader=FileSystemLoader(templates_folder() / "pages"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.getattr = getattr  # type: ignore[assignment,method-assign]  # no item stands for a field
    return made
