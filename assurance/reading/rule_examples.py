"""What puts right a fault of reading, with a bad and a good example where YAML text can show one."""

from collections.abc import Mapping
from dataclasses import dataclass

WHY = (
    "While a record or a file cannot be read whole, nobody knows what it would have said: a doubt, a failed "
    "test, a hazard. So the top claim is open for that reason."
)


@dataclass(frozen=True, slots=True)
class ReadingExample:
    """What puts one fault right; `bad` and `good` are files of YAML, empty where none can show it."""

    remedy: str
    bad: str = ""
    good: str = ""


EXAMPLES: Mapping[str, ReadingExample] = {
    "file-not-readable": ReadingExample(
        "Save the file as UTF-8. Split a file that is too large, or let this user read it."
    ),
    "file-outside-the-case": ReadingExample(
        "Copy the file into the folder of the case, and name it from there.",
        bad="""\
evidence:
  rig-report:
    title: Report of the rig
    kind: analysis
    files: [{file: ../../elsewhere/rig.txt}]  # here
    state: issued
""",
        good="""\
evidence:
  rig-report:
    title: Report of the rig
    kind: analysis
    files: [{file: reports/step-test.txt}]
    state: issued
""",
    ),
    "folder-not-usable": ReadingExample(
        "In `mkdocs.yml`, name a folder inside the case that holds none of its records."
    ),
    "records-misplaced": ReadingExample("Move the file into `claims/` or `hazards/`."),
    "yaml-not-readable": ReadingExample(
        "Look at the place that is named and at the line above it: a quote or bracket that is not closed, a "
        "tab, or a step of indentation that fits nothing.",
        bad="""\
contexts:
  calm-water:
    statement: "Waves below half a metre
  # the quote is not closed
""",
        good="""\
contexts:
  calm-water:
    statement: "Waves below half a metre"
""",
    ),
    "key-twice": ReadingExample(
        "Keep one of the two, or give the second a name of its own.",
        bad="""\
contexts:
  calm-water:
    statement: Waves below half a metre
    statement: Waves below a metre  # here
""",
        good="""\
contexts:
  calm-water:
    statement: Waves below half a metre
""",
    ),
    "key-unknown": ReadingExample(
        "Write the field as the reference has it; the message guesses the nearest one.",
        bad="""\
contexts:
  calm-water:
    statment: Waves below half a metre  # here
""",
        good="""\
contexts:
  calm-water:
    statement: Waves below half a metre
""",
    ),
    "key-not-text": ReadingExample(
        "Put the key in quotes, or give it a name in letters.",
        bad="""\
rating_scales:
  scale-of-ten:
    title: Ratings
    severity:
      10: Someone may be killed.  # here
""",
        good="""\
rating_scales:
  scale-of-ten:
    title: Ratings
    severity:
      "10": Someone may be killed.
""",
    ),
    "kind-unknown": ReadingExample(
        "Write the kind as the reference has it, in the plural.",
        bad="""\
context:  # here
  calm-water:
    statement: Waves below half a metre
""",
        good="""\
contexts:
  calm-water:
    statement: Waves below half a metre
""",
    ),
    "tag-not-read": ReadingExample(
        "Leave the tag out and write the plain value.",
        bad="""\
contexts:
  calm-water:
    statement: !text Waves below half a metre  # here
""",
        good="""\
contexts:
  calm-water:
    statement: Waves below half a metre
""",
    ),
    "merge-key-not-read": ReadingExample(
        "Write the keys out where they are to stand.",
        bad="""\
parts:
  ladder: &ladder
    title: Ladder
  short-ladder:
    <<: *ladder  # here
    title: Short ladder
""",
        good="""\
parts:
  ladder:
    title: Ladder
  short-ladder:
    title: Short ladder
""",
    ),
    "nested-too-deep": ReadingExample("Take brackets away: no record needs more than a handful of levels."),
    "too-many-values": ReadingExample("Write the values out instead of multiplying them by aliases."),
    "value-wrong": ReadingExample(
        "Write what the field takes, with a unit of the list; the message names the fault.",
        bad="""\
load_cases:
  shove:
    title: A shove
    value: 0.2 kilonewton  # here
""",
        good="""\
load_cases:
  shove:
    title: A shove
    value: 0.2 kN
""",
    ),
    "field-missing": ReadingExample(
        "Add the field; the reference marks those that are needed.",
        bad="""\
evidence:
  rig-report:  # here
    title: Report of the rig
""",
        good="""\
evidence:
  rig-report:
    title: Report of the rig
    kind: analysis
""",
    ),
    "id-wrong": ReadingExample(
        "Start with a letter, and use letters, digits, `_` and `-`.",
        bad="""\
contexts:
  calm water:  # here
    statement: Waves below half a metre
""",
        good="""\
contexts:
  calm-water:
    statement: Waves below half a metre
""",
    ),
    "id-twice": ReadingExample(
        "Give one of the two another id; capitals do not tell ids apart.",
        bad="""\
contexts:
  calm-water:
    statement: Waves below half a metre
  Calm-Water:  # here
    statement: Waves below a metre
""",
        good="""\
contexts:
  calm-water:
    statement: Waves below half a metre
  low-waves:
    statement: Waves below a metre
""",
    ),
    "reference-unknown": ReadingExample(
        "Correct the id, or write the record that it names.",
        bad="""\
parts:
  ladder:
    title: Ladder
    part_of: stepp  # here
""",
        good="""\
parts:
  ladder:
    title: Ladder
    part_of: step
""",
    ),
    "reference-of-another-kind": ReadingExample(
        "Name a record of a kind that the field takes.",
        bad="""\
parts:
  ladder:
    title: Ladder
    part_of: landing  # here
""",
        good="""\
parts:
  ladder:
    title: Ladder
    part_of: step
""",
    ),
    "name-unknown": ReadingExample(
        "Name a person, a role or an organisation that the case lists.",
        bad="""\
parts:
  ladder:
    title: Ladder
    made_by: nobody-known  # here
""",
        good="""\
parts:
  ladder:
    title: Ladder
    made_by: works
""",
    ),
    "quantity-unknown": ReadingExample(
        "Use a word that stands under `quantities` of the case, or add it there.",
        bad="""\
evidence:
  rig-report:
    title: Report of the rig
    kind: analysis
    quantity: stiffness  # here
""",
        good="""\
evidence:
  rig-report:
    title: Report of the rig
    kind: analysis
    quantity: strength
""",
    ),
    "cause-not-named": ReadingExample(
        "Name the cause behind a dot: `mode.cause`.",
        bad="""\
failure_modes:
  step-breaks:
    title: The step breaks
    causes:
      overload: {text: A load above the limit, occurrence: 3, detection: 4}
      corrosion: {text: Corrosion, occurrence: 2, detection: 4}
    owner: ben
actions:
  thicker-plate:
    what: Use a thicker plate.
    on: step-breaks  # here
    then: {occurrence: 2}
    owner: ben
""",
        good="""\
failure_modes:
  step-breaks:
    title: The step breaks
    causes:
      overload: {text: A load above the limit, occurrence: 3, detection: 4}
      corrosion: {text: Corrosion, occurrence: 2, detection: 4}
    owner: ben
actions:
  thicker-plate:
    what: Use a thicker plate.
    on: step-breaks.overload
    then: {occurrence: 2}
    owner: ben
""",
    ),
    "case-missing": ReadingExample("Write a record of kind `case`; `holdwater new case` shows one."),
    "case-twice": ReadingExample("Keep one `case` record: a folder argues to one conclusion."),
}
