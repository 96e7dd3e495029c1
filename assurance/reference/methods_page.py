"""The page of methods: what each takes and gives, its source and limits, and the examples that hold it."""

import math
from collections.abc import Iterator

from assurance.methods.published import Example, examples
from assurance.methods.registry import METHODS
from assurance.model.methods import InputSpec, Method, ResultSpec
from assurance.reference.markdown import anchor, code, heading_anchor, link, listed, page, table

INTRODUCTION = """\
# Methods

A calculation names one of these under `method`. The numbers are worked out from what the record gives; \
on the page of the calculation stand the steps with their formulas and the numbers put in.

A method carries a version number. When the sum changes, the number changes, and every calculation is \
worked out anew."""
ON_EXAMPLES = """\
The tests work these out and compare the digits printed there. *Seen* was read in the source itself, \
*quoted* in one that quotes it, *computed* was reached by two independent routes, and *memory* is from \
memory."""
NO_EXAMPLE = (
    "No published example is at hand. The tests hold this method by closed forms and an independent sum."
)
INPUTS = ("Input", "Symbol", "What it is", "Takes", "Needed")
RESULTS = ("Result", "Symbol", "What it is", "Unit")
EXAMPLES = ("Example", "Source", "Where", "How it came here", "Compared")
SMALLEST = math.nextafter(0.0, 1.0)  # the least number above 0


def methods_page() -> str:
    """Every method of the installed program, in Markdown."""
    contents = "\n".join(f"- {link(code(one.name), '#' + one.name)}: {one.title}" for one in METHODS.values())
    return page(INTRODUCTION, contents, *(part for one in METHODS.values() for part in _method(one)))


def _method(method: Method) -> Iterator[str]:
    if heading_anchor(method.name) != method.name:
        raise ValueError(f"a link to the method `{method.name}` would lead nowhere")
    yield f"## {method.name}"
    yield f"{method.title}. Version {method.version}."
    yield f"*Source:* {method.source}."
    yield "*Limits:*\n\n" + "\n".join(f"- {limit}" for limit in method.limits)
    yield table(INPUTS, (_input(method, spec) for spec in method.inputs))
    yield table(RESULTS, (_result(method, spec) for spec in method.results))
    yield from _examples(method)


def _input(method: Method, spec: InputSpec) -> tuple[str, ...]:
    name = f"{anchor(f'{method.name}.{spec.name}')}{code(spec.name)}"
    default = "" if spec.default is None else f": {code(str(spec.default))}"
    return name, _symbol(spec.symbol), spec.what, _may_stand(spec), "yes" if spec.required else f"no{default}"


def _may_stand(spec: InputSpec) -> str:
    if spec.kind == "word":
        return listed(map(code, spec.words)) if spec.words else "a word"
    if spec.kind == "column of words":
        return "a column of words" + _beside(spec)
    noun = "a column" if spec.kind == "column" else "a number"
    return f"{noun} {_in_unit(spec)}{_bounds(spec)}{_beside(spec)}"


def _in_unit(spec: InputSpec) -> str:
    if spec.unit == "@":
        return f"of {spec.dimension}, in any unit" if spec.dimension else "in any unit"
    if spec.unit.startswith("@"):
        return f"of the same dimension as {code(spec.unit[1:])}"
    return f"in {code(spec.unit)}" if spec.unit else "without a unit"


def _bounds(spec: InputSpec) -> str:
    lower = "" if spec.lower is None else _from(spec.lower)
    upper = "" if spec.upper is None else f"at most {spec.upper:g}"
    stated = " and ".join(part for part in (lower, upper) if part)
    return f", {stated}" if stated else ""


def _from(lower: float) -> str:
    return "above 0" if 0 < lower <= SMALLEST else f"at least {lower:g}"


def _beside(spec: InputSpec) -> str:
    return f", of the same rows as {code(spec.beside)}" if spec.beside else ""


def _result(method: Method, spec: ResultSpec) -> tuple[str, ...]:
    name = f"{anchor(f'{method.name}.{spec.name}')}{code(spec.name)}"
    if spec.whole:
        unit = "a count"
    elif spec.unit.startswith("@"):
        unit = f"that of {code(spec.unit[1:])}"
    else:
        unit = code(spec.unit) if spec.unit else "none"
    return name, _symbol(spec.symbol), spec.what, unit


def _symbol(symbol: str) -> str:
    return f"*{symbol.replace('_', chr(92) + '_')}*" if symbol else ""


def _examples(method: Method) -> Iterator[str]:
    known = examples(method.name)
    if not known:
        yield NO_EXAMPLE
        return
    yield ON_EXAMPLES
    yield table(EXAMPLES, (_example(one) for one in known))


def _example(one: Example) -> tuple[str, ...]:
    compared = ", ".join(f"{code(name)} {digits}" for name, digits in one.printed.items())
    return code(one.id), one.source, one.where, one.mark, compared
