"""Small pieces of markup around a text; the text is always escaped."""

from markupsafe import Markup, escape


def span(css: str, text: str) -> Markup:
    """A text of a kind."""
    return Markup(f'<span class="{css}">{escape(text)}</span>')


def bold(text: str) -> Markup:
    """A text that leads its row."""
    return Markup(f"<b>{escape(text)}</b>")


def anchor(href: str, text: str, css: str = "") -> Markup:
    """A text that leads somewhere."""
    kind = f'class="{css}" ' if css else ""
    return Markup(f'<a {kind}href="{escape(href)}">{escape(text)}</a>')


def code(text: str, href: str = "") -> Markup:
    """An id, a key or a value as it is written, leading somewhere where there is somewhere to lead."""
    said = f"<code>{escape(text)}</code>"
    return Markup(f'<a href="{escape(href)}">{said}</a>' if href else said)
