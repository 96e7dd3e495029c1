"""Data written as a script holds plain values and ends nothing, wherever it is pasted."""

import json

from hypothesis import given
from hypothesis import strategies as st

from assurance.site.script_data import as_script

plain = st.recursive(
    st.text() | st.integers() | st.booleans() | st.none(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=8,
)


@given(st.dictionaries(st.text(), plain, max_size=4))
def test_any_data_comes_back(data):
    text = as_script("take", data).removeprefix("take(").removesuffix(");\n")
    # a script writes that one key in brackets, which JSON does not know
    assert json.loads(text.replace('["__proto__"]:', '"__proto__":')) == data


@given(st.text())
def test_no_text_ends_a_script_opens_a_comment_or_ends_a_line(text):
    script = as_script("take", {"text": text + "</script><!-- \u2028\u2029"})
    assert "</" not in script
    assert "<!" not in script
    assert not {"\u2028", "\u2029"} & set(script)
