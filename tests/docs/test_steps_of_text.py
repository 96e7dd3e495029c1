"""The reader of pages does what the text says, and stops where it cannot."""

import pytest
from follow import Printed, Reader, changed, rewritten
from steps_of_text import Step, commands_of, steps_of


def only(text):
    (step,) = steps_of(text)
    return step


def test_a_block_is_written_to_the_file_that_the_paragraph_above_names():
    step = only("The numbers. In `data/a.csv`:\n\n```csv\na,b\n1,2\n```\n")
    assert (step.does, step.file, step.text) == ("write", "data/a.csv", "a,b\n1,2\n")


@pytest.mark.parametrize(
    ("said", "does"),
    [
        ("At the end of `a.yml`:", "append"),
        ("In `a.yml`, in the place of the record `x`:", "replace"),
        ("It looks like this:", "read"),
        ("Left out when this page is tested, because it never ends:", "left out"),
    ],
)
def test_the_paragraph_above_a_block_says_what_is_done_with_it(said, does):
    assert only(f"{said}\n\n```yaml\na: 1\n```\n").does == does


def test_a_paragraph_speaks_of_one_block_only():
    first, second = steps_of("In `a.yml`:\n\n```yaml\na: 1\n```\n\nSome words.\n\n```yaml\nb: 2\n```\n")
    assert (first.does, second.does) == ("write", "read")


def test_a_change_is_asked_for_in_a_sentence():
    step = only("In `a.yml`, change `x: 1` to `x: 2`.\n")
    assert changed("x: 1\ny: 1\n", step) == "x: 2\ny: 1\n"
    with pytest.raises(AssertionError, match="stands 2 times"):
        changed("x: 1\nx: 1\n", step)


def test_a_change_that_nobody_can_follow_is_not_passed_over():
    with pytest.raises(ValueError, match="line 1"):
        list(steps_of("In `a.yml`, change `x: 1` into something else.\n"))


def test_a_record_is_replaced_and_what_stands_around_it_stays():
    before = "hazards:\n  a:\n    x: 1\n\n  b:\n    y: 1\n    # z: 2\n\nclaims:\n"
    step = Step("replace", 1, text="  b:\n    y: 3\n", old="b")
    assert changed(before, step) == "hazards:\n  a:\n    x: 1\n\n  b:\n    y: 3\n\nclaims:\n"


def test_commands_stand_behind_a_dollar_and_what_they_print_below():
    step = only("```console\n$ one\nfirst\nsecond\n$ two\n```\n")
    assert [(one.text, one.printed) for one in commands_of(step)] == [("one", "first\nsecond\n"), ("two", "")]


def test_three_dots_stand_for_any_lines_and_nothing_else_does():
    assert all(Printed(1, "x", "a\n...\nz\n", real, 0).agrees for real in ("a\nz\n", "a\nb\nc\nz\n"))
    assert not Printed(1, "x", "a.c\n", "abc\n", 0).agrees


@pytest.mark.parametrize(
    ("command", "real", "code", "well"),
    [
        ("ls", "", 0, True),
        ("ls", "", 1, False),
        ("holdwater check", "1 blocking finding, 0 cautions, 0 notes\n", 1, True),
        ("holdwater check", "1 blocking finding, 0 cautions, 0 notes\n", 0, False),
        ("holdwater check", "0 blocking findings, 0 cautions, 0 notes\n", 1, False),
    ],
)
def test_a_command_has_to_end_with_the_code_that_it_promises(command, real, code, well):
    assert Printed(1, command, None, real, code).ended_well is well


def test_the_shell_keeps_its_folder_and_tells_the_code(tmp_path):
    text = "```console\n$ mkdir a && cd a\n$ pwd | sed 's|.*/||'\na\n$ false\n```\n"
    text += "\nIn `b.txt`:\n\n```text\nhi\n```\n"
    with Reader(tmp_path) as reader:
        printed = reader.follow(text)
    assert [one.agrees for one in printed] == [True, True, False]
    assert (tmp_path / "a" / "b.txt").read_text() == "hi\n"


def test_what_is_printed_without_a_line_end_is_not_lost(tmp_path):
    with Reader(tmp_path) as reader:
        (printed,) = reader.follow("```console\n$ printf abc\n```\n")
    assert (printed.real, printed.code) == ("abc", 0)


def test_a_page_is_written_again_with_what_was_really_printed():
    text = "```console\n$ one\nold\n$ two\nkept\n```\n"
    printed = [Printed(2, "one", "old\n", "new\nnewer\n", 0), Printed(4, "two", "kept\n", "kept\n", 0)]
    assert rewritten(text, printed) == "```console\n$ one\nnew\nnewer\n$ two\nkept\n```\n"
