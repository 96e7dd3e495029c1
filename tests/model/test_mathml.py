"""Formulas as MathML: readable, escaped, parentheses only where they are needed."""

import re
from xml.etree import ElementTree

import pytest

from assurance.methods.registry import METHODS
from assurance.model.mathml import mathml, sign, with_numbers
from assurance.model.steps import call, print_step, product, symbol, term

A, B, C = symbol("a"), symbol("b"), symbol("c")


def plain(markup):
    """The text of a formula as a reader would speak it; a fraction as over/under in brackets."""
    ElementTree.fromstring(markup)  # well formed, or this raises
    text = re.sub(r"<mfrac><mrow>(.*?)</mrow><mrow>(.*?)</mrow></mfrac>", r"[\1/\2]", markup)
    return re.sub(r"<[^>]*>", "", text)


@pytest.mark.parametrize(
    ("tree", "text"),
    [
        (A + B - C, "a+b−c"),
        (A - (B + C), "a−(b+c)"),
        (A - (B - C), "a−(b−c)"),
        (A * (B + C), "a·(b+c)"),
        (A * B + C, "a·b+c"),
        (product(A, B, C), "a·b·c"),
        ((A + B) / C, "[a+b/c]"),
        ((A + B) ** 2, "(a+b)2"),
        (A**2, "a2"),
        ((A / B) ** 2, "([a/b])2"),
        (call("max", A, B) * C, "max(a,b)·c"),
        (call("abs", A - B), "|a−b|"),
        (term(-0.48) + A, "−0.48+a"),
        (A * term(-2.0), "a·(−2)"),
        (term(3.141592653589793) / A, "[π/a]"),
    ],
)
def test_a_formula_has_parentheses_only_where_they_are_needed(tree, text):
    assert plain(mathml(tree)) == text


def test_a_sign_with_an_index_is_greek_with_a_subscript():
    assert sign("sigma_vm") == "<msub><mi>σ</mi><mi>vm</mi></msub>"
    assert sign("RF") == "<mi>RF</mi>"


def test_a_sign_with_a_star_has_it_raised():
    assert sign("A_star") == "<msup><mi>A</mi><mo>*</mo></msup>"
    assert sign("sigma_x_star") == "<msubsup><mi>σ</mi><mi>x</mi><mo>*</mo></msubsup>"


@pytest.mark.parametrize("text", ["x_m", "k_B", "sigma_vm", "A_star", "", "_", "a__b", "f_in1", "J_2"])
def test_every_sign_is_well_formed_and_spells_nothing_out(text):
    shown = plain(f"<math>{sign(text)}</math>")
    assert "_" not in shown
    assert "star" not in shown
    assert "sigma" not in shown


def test_roots_fractions_and_powers_are_drawn_as_such():
    markup = mathml(call("sqrt", A**2 + B) / C)
    for element in ("<msqrt>", "<mfrac>", "<msup>"):
        assert element in markup


def test_numbers_stand_where_the_symbols_stood():
    markup = with_numbers(A - B * C, {"a": "141.9", "b": "1.974", "c": "−6.398"})
    assert plain(markup) == "141.9−1.974·(−6.398)"


def test_a_power_of_ten_is_written_as_one():
    assert plain(with_numbers(A**2, {"a": "1.234e−5"})) == "(1.234·10−5)2"


def test_nothing_of_a_name_becomes_markup():
    nasty = "<script>alert(1)</script>&"
    assert "<script" not in mathml(symbol("a"), {"a": nasty})
    assert "<script" not in with_numbers(A, {"a": nasty})
    ElementTree.fromstring(mathml(A, {"a": nasty}))


def test_every_step_of_a_sheet_has_both_lines():
    values = tuple(float(value) for value in (12, 15, 11, 18, 14, 13, 16, 12.5, 15.5, 14.5))
    sheet = METHODS["allowables"].work({"values": values}, {"values": "MPa"}).sheet
    named = sheet.named()
    for step in sheet.steps:
        if step.tree is not None:
            signs = {name: one.symbol for name, one in named.items()}
            numbers = print_step(step, named)
            assert plain(mathml(step.tree, signs))
            assert plain(with_numbers(step.tree, numbers.inputs))
