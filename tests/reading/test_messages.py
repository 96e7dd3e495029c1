"""What a finding says: the value, what is wrong with it, and what would put it right."""

import re
from pathlib import Path

import pytest
from marked_text import read_text
from test_faults_at_their_line import FAULTY

CLAIM = "claims:\n  top:\n    statement: It is safe.\n"
SAID = {
    "misspelt key": (
        CLAIM + "    asumes: [calm]\n",
        "`asumes` is not a key of claim `top`.",
        "Did you mean `assumes`?",
    ),
    "misspelt kind": (
        "hazard:\n  slip: {title: Slip}\n",
        "`hazard` is not a kind of record.",
        "Did you mean `hazards`?",
    ),
    "misspelt id": (
        CLAIM + "    about: [blad]\n",
        "`blad` names no record of the case.",
        "Did you mean `blade`?",
    ),
    "another kind": (
        CLAIM + "    about: [rig]\n",
        "`rig` is evidence, which cannot stand here.",
        "Name a record under `parts`, `hazards` or `load_cases`.",
    ),
    "misspelt result": (
        CLAIM + "    argument: {checks: [{result: rig.sett}]}\n",
        "`sett` is no result of evidence `rig`.",
        "Did you mean `set`?",
    ),
    "misspelt result of a method": (
        CLAIM + "    argument: {checks: [{result: reserve.least_reserve}]}\n",
        "`least_reserve` is no result of calculation `reserve`.",
        "Did you mean `least_reserve_factor`?",
    ),
    "number for text": (
        "evidence:\n  drop: {title: Drop, kind: test, revision: 3}\n",
        "`revision` is `3`, a number, where text is expected.",
        'Put it in quotes: `"3"`.',
    ),
    "one item for a list": (
        CLAIM + "    argument: {rests_on: rig}\n",
        "`rests_on` holds `rig` where a list is expected.",
        "Write each item on a line of its own after `- `, or all in `[...]`.",
    ),
    "misspelt word": (
        CLAIM + "    holds_if: eny\n",
        "`holds_if` is `eny`, not one of `all` or `any`.",
        "Did you mean `any`?",
    ),
    "rating": (
        "failure_modes:\n  bend: {title: Bend, effects: [{text: A, severity: 12}]}\n",
        "`severity` is `12`; at most 10 is allowed.",
        "Write a whole number of at most 10.",
    ),
    "comma": (
        "requirements:\n  most: {statement: A, value: '12,5 mm'}\n",
        "`value`: `12,5 mm` has a comma in the number.",
        "Write a point, and no comma between thousands.",
    ),
    "unit": (
        "requirements:\n  most: {statement: A, value: 12.5 kPA}\n",
        "`value`: `12.5 kPA`: `kPA` is not a unit of the list.",
        "Did you mean `kPa`?",
    ),
    "missing": (
        "evidence:\n  drop: {title: Drop}\n",
        "`kind` is missing in evidence `drop`.",
        "Add `kind:`.",
    ),
    "id in other capitals": (
        "parts:\n  BLADE: {title: B}\n",
        "The id `BLADE` is already used as `blade` for a part at claims/around.yml:15:3.",
        "Give one of the two another id.",
    ),
    "person": (
        CLAIM + "    owner: stress-led\n",
        "`stress-led` is no person, role or organisation of the case.",
        "Did you mean `stress-lead`?",
    ),
    "nothing near": (
        CLAIM + "    owner: xyz\n",
        "`xyz` is no person, role or organisation of the case.",
        "Add it under `people` or `organisations` of the case.",
    ),
}
NEVER = re.compile(r"\b(error|invalid|please|simply|just)\b", re.IGNORECASE)


@pytest.mark.parametrize("name", SAID)
def test_a_message_names_the_value_and_the_remedy(name: str, tmp_path: Path) -> None:
    text, message, remedy = SAID[name]

    (finding,) = read_text(tmp_path, text).findings

    assert (finding.message, finding.remedy) == (message, remedy)


@pytest.mark.parametrize("name", FAULTY)
def test_messages_are_whole_sentences_in_plain_words(name: str, tmp_path: Path) -> None:
    for finding in read_text(tmp_path, FAULTY[name]).findings:
        assert finding.message.endswith("."), finding.message
        assert finding.remedy.endswith((".", "?")), finding.remedy
        assert not NEVER.search(finding.message + finding.remedy)
        assert "\n" not in finding.message + finding.remedy
