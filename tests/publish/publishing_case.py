"""A tiny case for tests of publishing, and frames that need no host."""

from assurance.assess import assess
from assurance.publish import publish
from assurance.publish.frames import POLICY
from assurance.reading import read_case
from assurance.store import Store

CASE = """\
case:
  tiny: {title: Tiny, item: Thing, issue: A, top_claims: {use: top}, as_of: 2026-03-12, people: {lead: Lead}}
claims:
  top:
    statement: The thing is safe.
    owner: lead
    undeveloped: {because: later, owner: lead, due: 2026-05-01}
"""
TEXT = (
    f'<!doctype html><html><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" '
    f'content="{POLICY}"><title><!--slot:title--></title></head>'
    "<a href='<!--slot:root-->index.html'><!--slot:count:gaps--></a>"
    "<b><!--slot:item--> <!--slot:answer--></b></html>"
)
FRAME = TEXT.replace("</html>", "<!--slot:main--></html>")


def write_case(folder):
    (folder / "claims").mkdir(parents=True)
    (folder / "claims" / "case.yml").write_text(CASE)
    return folder


def plain_frames(request):
    """A frame for every section and text, without a host."""
    sections = [section.name for group in request.groups for section in group.sections]
    return dict.fromkeys(sections, FRAME) | dict.fromkeys(request.texts, TEXT)


def publish_case(folder, *, site=None, render_frames=plain_frames):
    """Reads, assesses and publishes, with caches beside the case."""
    cache = folder.parent / "cache"
    case = read_case(folder)
    assessment = assess(case, store=Store(cache))
    return publish(case, assessment, site or folder / "site", render_frames=render_frames, cache_dir=cache)


def content(site):
    """Every file of a site with its bytes."""
    return {
        file.relative_to(site).as_posix(): file.read_bytes()
        for file in sorted(site.rglob("*"))
        if file.is_file()
    }
