"""Formulas for a reader: an expression tree as Presentation MathML, with symbols or with numbers."""

from collections.abc import Callable, Mapping
from html import escape

from assurance.model import numbers
from assurance.model.steps import Term

GREEK = {
    "alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "epsilon": "ε", "zeta": "ζ", "eta": "η",
    "theta": "θ", "kappa": "κ", "lambda": "λ", "mu": "μ", "nu": "ν", "xi": "ξ", "pi": "π", "rho": "ρ",
    "sigma": "σ", "tau": "τ", "phi": "φ", "chi": "χ", "psi": "ψ", "omega": "ω", "Gamma": "Γ",
    "Delta": "Δ", "Theta": "Θ", "Lambda": "Λ", "Sigma": "Σ", "Phi": "Φ", "Psi": "Ψ", "Omega": "Ω",
}  # fmt: skip
STAR = "star"  # after a `_` in a sign: a raised star
PI = 3.141592653589793
Leaf = Callable[[str], str]
# How tightly an operation binds: what is looser than its place needs is put in parentheses.
SUM, PRODUCT, SIGNED, ATOM = 1, 2, 3, 4
_BINDING = {"add": SUM, "sub": SUM, "mul": PRODUCT, "div": ATOM, "pow": ATOM, "call": ATOM}
_ROOT_FUNCTIONS = {"ln": "ln", "exp": "exp", "max": "max", "min": "min", "cos": "cos", "arccos": "arccos"}


def mathml(tree: Term, symbols: Mapping[str, str] | None = None) -> str:
    """The formula with its symbols. `symbols` gives the sign on paper of each name in the tree."""
    signs = symbols or {}
    return _whole(_written(tree, lambda name: sign(signs.get(name, name))))


def with_numbers(tree: Term, printed: Mapping[str, str]) -> str:
    """The formula with a printed number in place of each symbol."""
    return _whole(_written(tree, lambda name: _number(printed[name])))


def sign(text: str) -> str:
    """A sign on paper as MathML: Greek letters, an index after a `_`, a raised star for `_star`.

    So `sigma_vm` has the index vm, and `A_star` is A with a star.
    """
    letter, *after = text.split("_")
    main = f"<mi>{escape(GREEK.get(letter, letter))}</mi>"
    index = " ".join(GREEK.get(one, one) for one in after if one not in ("", STAR))
    below, above = f"<mi>{escape(index)}</mi>", "<mo>*</mo>"
    if STAR in after:
        return f"<msubsup>{main}{below}{above}</msubsup>" if index else f"<msup>{main}{above}</msup>"
    return f"<msub>{main}{below}</msub>" if index else main


def _whole(inside: str) -> str:
    return f"<math><mrow>{inside}</mrow></math>"


def _number(text: str) -> str:
    """A printed number; one with a power of ten is written as a product with that power."""
    mantissa, _, power = text.partition("e")
    if not power:
        return f"<mn>{escape(text)}</mn>"
    ten = f"<msup><mn>10</mn><mn>{escape(power)}</mn></msup>"
    return f"<mrow><mn>{escape(mantissa)}</mn><mo>·</mo>{ten}</mrow>"


def _constant(value: float) -> str:
    if value == PI:
        return "<mi>π</mi>"
    return f"<mn>{escape(numbers.as_written(value))}</mn>"


def _written(tree: Term, leaf: Leaf) -> str:
    if tree.op == "symbol":
        return leaf(tree.name)
    if tree.op == "number":
        return _constant(tree.value)
    if tree.op == "div":
        over, under = (_written(arg, leaf) for arg in tree.args)
        return f"<mfrac><mrow>{over}</mrow><mrow>{under}</mrow></mfrac>"
    if tree.op == "pow":
        return _power(tree, leaf)
    if tree.op == "call":
        return _function(tree, leaf)
    return _row(tree, leaf)


def _row(tree: Term, leaf: Leaf) -> str:
    """Terms in a row, with their signs between them."""
    between = {"add": "+", "sub": "−", "mul": "·"}[tree.op]
    least = _BINDING[tree.op]
    parts = []
    for at, arg in enumerate(tree.args):
        tight = least + 1 if at and tree.op == "sub" else least
        parts.append(_inside(arg, tight, leaf, first=at == 0))
    return f"<mo>{between}</mo>".join(parts)


def _inside(tree: Term, tight: int, leaf: Leaf, *, first: bool = True) -> str:
    """A term in its place, in parentheses where it binds too loosely or starts with a minus sign."""
    written = _written(tree, leaf)
    negative = _is_negative(written) and not (first and tight <= SUM)
    if _binding(tree) < tight or negative:
        return f"<mrow><mo>(</mo>{written}<mo>)</mo></mrow>"
    return written


def _is_negative(written: str) -> bool:
    return written.removeprefix("<mrow>").startswith(f"<mn>{numbers.MINUS}")


def _binding(tree: Term) -> int:
    return _BINDING.get(tree.op, ATOM)


def _power(tree: Term, leaf: Leaf) -> str:
    body, exponent = tree.args
    if exponent.op == "number" and exponent.value == 0.5:
        return f"<msqrt>{_written(body, leaf)}</msqrt>"
    raised = _inside(body, ATOM, leaf, first=False)
    if body.op in ("div", "pow", "call") or _is_power_of_ten(raised):
        raised = f"<mrow><mo>(</mo>{_written(body, leaf)}<mo>)</mo></mrow>"
    return f"<msup>{raised}<mrow>{_written(exponent, leaf)}</mrow></msup>"


def _is_power_of_ten(written: str) -> bool:
    return written.startswith("<mrow><mn>")


def _function(tree: Term, leaf: Leaf) -> str:
    inside = "<mo>,</mo>".join(_written(arg, leaf) for arg in tree.args)
    if tree.name == "sqrt":
        return f"<msqrt>{inside}</msqrt>"
    if tree.name == "abs":
        return f"<mrow><mo>|</mo>{inside}<mo>|</mo></mrow>"
    name = _ROOT_FUNCTIONS[tree.name]
    return f"<mrow><mi>{name}</mi><mo>(</mo>{inside}<mo>)</mo></mrow>"
