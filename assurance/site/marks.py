"""The marks of verdicts, weights and risk levels: one path each on a 12 x 12 grid, in the current colour."""

from functools import cache

from markupsafe import Markup, escape

from assurance.model.verdicts import Verdict, Weight

_GLASS = "M0 0h12l-1.3 10.2A2 2 0 0 1 8.7 12H3.3a2 2 0 0 1-2-1.8z"
_WEIGHT = "M6 0a2.25 2.25 0 0 1 2.2 2.75H10L12 11.5H0L2 2.75h1.8A2.25 2.25 0 0 1 6 0z"
VERDICT_PATHS = {
    Verdict.HOLDS: _GLASS + "M2.9 5.7l2.5 2.6 3.9-4.6-1.1-1-2.8 3.3L4 4.6z",
    Verdict.PROVISIONAL: _GLASS + "M2 1.75 2.5 6h7l.5-4.25z",
    Verdict.OUT_OF_DATE: "M1 0h10v2.2L6.9 6 11 9.8V12H1V9.8L5.1 6 1 2.2z",
    Verdict.OPEN: "M0 0h2l1.15 9.4a.7.7 0 0 0 .7.6h4.3a.7.7 0 0 0 .7-.6L10 0h2l-1.3 10.2A2 2 0 0 1 "
    "8.7 12H3.3a2 2 0 0 1-2-1.8z",
    Verdict.FAILS: "M2.3.3 6 4 9.7.3l2 2L8 6l3.7 3.7-2 2L6 8l-3.7 3.7-2-2L4 6 .3 2.3z",
}
WEIGHT_PATHS = {
    Weight.BLOCKING: _WEIGHT + "m0 1.3a1 1 0 1 0 0 2 1 1 0 0 0 0-2z",
    Weight.CAUTION: _WEIGHT + "M3.2 4.2 1.9 10h8.2L8.8 4.2z",
    Weight.NOTE: "M6 5.5a2.5 2.5 0 1 1 0 5 2.5 2.5 0 0 1 0-5z",
}
HIGHEST_STEP = 4  # a risk gauge has four steps


@cache
def mark(verdict: Verdict, *, size: int = 12) -> Markup:
    """The mark of a verdict, with its word for those who cannot see it."""
    return _svg(VERDICT_PATHS[verdict], size=size, css=css_class(verdict), title=verdict.word)


@cache
def verdict_word(verdict: Verdict) -> Markup:
    """Mark and word of a verdict, in its hue."""
    drawn = _svg(VERDICT_PATHS[verdict])
    return Markup('<span class="v {}">{}{}</span>').format(css_class(verdict), drawn, verdict.word)


@cache
def weight_word(weight: Weight) -> Markup:
    """Mark and word of a weight, in ink."""
    return Markup('<span class="w {}">{}{}</span>').format(weight, _svg(WEIGHT_PATHS[weight]), weight)


@cache
def risk_word(level: str, step: int) -> Markup:
    """Gauge and word of a risk level, in ink; `step` is 0 to 4, the higher the worse."""
    return Markup('<span class="r r{}">{}{}</span>').format(step, _svg(gauge(step)), level)


def plain_mark(verdict: Verdict, *, size: int = 12) -> Markup:
    """The mark of a verdict where its word stands beside it."""
    return _svg(VERDICT_PATHS[verdict], size=size, css=css_class(verdict))


def gauge(step: int) -> str:
    """Four steps from the bottom, the lowest `step` wide, the rest a stem."""
    drawn = []
    for i in range(HIGHEST_STEP):
        left, width = (1, 10) if i < step else (5, 2)
        drawn.append(f"M{left} {10 - 3 * i}h{width}v2H{left}z")
    return "".join(drawn)


def mark_by_name(name: str) -> Markup:
    """The mark of a verdict or weight by its word, or nothing where there is none of that name."""
    for verdict, path in VERDICT_PATHS.items():
        if verdict.word == name:
            return _svg(path, size=17, css=css_class(verdict))
    found = [path for weight, path in WEIGHT_PATHS.items() if weight.value == name]
    return _svg(found[0], size=17) if found else Markup("")


def css_class(verdict: Verdict) -> str:
    """The class that gives a verdict its hue."""
    return verdict.name.lower().replace("_", "")


def risk_step(rank: int, *, levels: int) -> int:
    """The gauge step of a level: rank 0 is the best; a scheme of five levels starts at 0."""
    return max(0, min(HIGHEST_STEP, rank + HIGHEST_STEP + 1 - levels))


def _svg(path: str, *, size: int = 12, css: str = "", title: str = "") -> Markup:
    named = Markup('role="img"><title>{}</title>').format(title) if title else Markup('aria-hidden="true">')
    return Markup(
        f'<svg class="mark {escape(css)}" viewBox="0 0 12 12" width="{size}" height="{size}" {named}'
        f'<path fill="currentColor" fill-rule="evenodd" d="{path}"/></svg>'
    )
