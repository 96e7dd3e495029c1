"""Text that is near a fault but sound brings no finding."""

from pathlib import Path

import pytest
from marked_text import read_text

SOUND = {
    "an empty file": "",
    "a file of comments": "# nothing yet\n",
    "an empty kind": "claims:\n",
    "no as text": "claims:\n  no: {statement: No}\n",
    "a number in quotes as text": 'evidence:\n  drop: {title: Drop, kind: test, revision: "3"}\n',
    "a time of day as text": "claims:\n  top: {statement: 12:30}\n",
    "a number with a power of ten": "requirements:\n  most: {statement: Small., value: 1e-3}\n",
    "an octal number": "requirements:\n  most: {statement: Fifteen., value: 0o17}\n",
    "an uncertainty": "requirements:\n  most: {statement: A., value: 12.50 +/- 0.02 mm (k=1)}\n",
    "a range": "conditions:\n  air: {title: Air, range: -5 to 35 degC}\n",
    "a role as owner": "claims:\n  top: {statement: A., owner: stress-lead}\n",
    "an organisation as producer": "evidence:\n  drop: {title: A, kind: test, producer: works}\n",
    "a word of the case": "claims:\n  top: {statement: A., quantity: strength}\n",
    "an id of 64 characters": f"parts:\n  {'b' * 64}: {{title: A}}\n",
    "an id that ends like another": "parts:\n  blade-2: {title: A}\n",
    "a short form of a limit": (
        "claims:\n  top:\n    statement: A.\n    argument:\n      checks:\n"
        "        - {result: rig.set, at_most: 0.10 mm}\n"
        "        - {result: reserve.least_reserve_factor, at_least: least-reserve}\n"
    ),
    "a challenge against an argument": (
        "claims:\n  top: {statement: A., argument: {because: so}}\n"
        "challenges:\n  doubt: {against: top.argument, doubt: Cold.}\n"
    ),
    "a challenge against a control and a cause": (
        "challenges:\n  one: {against: fall.rail, doubt: A.}\n  two: {against: crack.notch, doubt: B.}\n"
    ),
    "an action on the only cause": ("actions:\n  paint: {what: Paint., on: rust, then: {occurrence: 2}}\n"),
    "an action that names its cause": (
        "actions:\n  polish: {what: Polish., on: crack.notch, then: {occurrence: 2}}\n"
    ),
    "an action that changes no rating": "actions:\n  look: {what: Look., on: crack}\n",
    "a set with its members": (
        "claims:\n  top: {statement: A., argument: {over: {kind: parts, members: [blade, deck]}}}\n"
    ),
    "a set in its short form": "claims:\n  top: {statement: A., argument: {over: hazards}}\n",
    "a file beside the text": "evidence:\n  drop: {title: A, kind: test, files: [around.yml]}\n",
    "a file that is not there": "evidence:\n  drop: {title: A, kind: test, files: [gone.csv]}\n",
    "a file reached over the folder above": (
        "evidence:\n  drop: {title: A, kind: test, files: [../claims/around.yml]}\n"
    ),
    "an alias": ("claims:\n  top: {statement: &same It is so.}\n  more: {statement: *same}\n"),
    "a reference to a later record": (
        "claims:\n  top: {statement: A., argument: {rests_on: [low]}}\n  low: {statement: B.}\n"
    ),
    "a property of a material": (
        "calculations:\n  least: {title: A, method: reserve_factors,"
        " inputs: {allowable: {material: carbon.compression}}}\n"
    ),
    "text over several lines": "claims:\n  top:\n    statement: >\n      It is\n      safe.\n",
    "Windows line ends": "claims:\r\n  top:\r\n    statement: It is safe.\r\n",
    "a byte order mark": "\ufeffclaims:\n  top: {statement: It is safe.}\n",
    "markup as text": "claims:\n  top: {statement: '<script>alert(1)</script>'}\n",
    "28 levels of text": "claims:\n  top: {statement: '" + "[" * 28 + "'}\n",
}


@pytest.mark.parametrize("name", SOUND)
def test_sound_text_brings_no_finding(name: str, tmp_path: Path) -> None:
    case = read_text(tmp_path, SOUND[name])

    assert case.findings == ()
    assert all(entry.record is not None for entry in case.entries.values())
