"""What stands in the cells of tables: links, ids, places and two-line cells as markup."""

from markupsafe import Markup, escape

from assurance.site.links import Link, Named
from assurance.site.pieces import anchor, span


def to(link: Link, css: str = "") -> Markup:
    """A name that leads somewhere, where there is somewhere to lead."""
    if link.href:
        return anchor(link.href, link.text, css)
    return span(css, link.text) if css else escape(link.text)


def place_cell(link: Link) -> Markup:
    """A place in a file."""
    return to(link, "place")


def titled(name: str, href: str, id_: str) -> Markup:
    """The name of a record in the face of what a person wrote, with its id beneath."""
    return anchor(href, name, "said") + Markup("<br>") + span("id", id_)


def named_cell(named: Named) -> Markup:
    """A record as its name with its id beneath."""
    return titled(named.name, named.href, named.id)


def beneath(text: str, css: str = "do") -> Markup:
    """A second line of a cell, or nothing for no text."""
    return span(css, text) if text else Markup("")


def counted_line(label: str, count: str, end: str = "", *, css: str = "") -> Markup:
    """The line of a group: its name, how many, and what stands at its end."""
    name = span(css, label) if css else escape(label)
    line = Markup("<b>{}</b> ").format(name) + span("label", count)
    return line + (span("end", end) if end else Markup(""))
