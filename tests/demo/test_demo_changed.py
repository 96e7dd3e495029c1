"""One change to a copy of the demo does what it must, and what is put right frees the top claim."""

from pathlib import Path

import pytest
from demo_case import assess_folder, copy_of_demo, digest, line_of, swap

from assurance.model.risk_records import Hazard
from assurance.model.verdicts import Verdict, Weight
from assurance.reading import read_case

TOP = "fit-for-supervised-use"


def test_a_limit_raised_out_of_reach_fails_everything_above_it(tmp_path: Path) -> None:
    case = copy_of_demo(tmp_path / "case")
    swap(case / "claims/motion.yml", "    value: 0.55\n", "    value: 0.75\n")
    changed = assess_folder(case, tmp_path / "cache")
    assert changed.verdicts["grip-when-wet"] == changed.verdicts["slip-risk-controlled"] == Verdict.FAILS
    assert changed.verdicts[TOP] == Verdict.FAILS
    assert (changed.missing[0].record, changed.missing[0].verdict) == ("grip-when-wet", Verdict.FAILS)
    assert Weight.BLOCKING in {finding.weight for finding in changed.findings}


def test_withdrawing_what_shows_a_control_raises_the_risk_now_and_opens_the_claim(tmp_path: Path) -> None:
    case = copy_of_demo(tmp_path / "case")
    swap(case / "claims/motion.yml", "read_by: rig-engineer}\n    state: issued\n  damper-certificate:",
         "read_by: rig-engineer}\n    state: withdrawn\n  damper-certificate:")  # fmt: skip
    changed = assess_folder(case, tmp_path / "cache")
    now, after = changed.hazards["fall-on-rebound"].now, changed.hazards["fall-on-rebound"].after
    assert now is not None
    assert after is not None
    assert now.rank > after.rank
    assert changed.verdicts["rebound-risk-controlled"] == Verdict.OPEN


@pytest.mark.parametrize("position", [0, 1, 2])
def test_a_doubt_about_any_one_control_raises_the_risk_now(tmp_path: Path, position: int) -> None:
    case = copy_of_demo(tmp_path / "case")
    hazards = read_case(case).of_kind("hazards")
    doubted = {id_: tuple(entry.record.controls)[position] for id_, entry in hazards.items()
               if isinstance(entry.record, Hazard) and len(entry.record.controls) > position}  # fmt: skip
    lines = ["# INVENTED", "challenges:"]
    for hazard, control in doubted.items():
        lines += [
            f"  doubt-{hazard}: {{against: {hazard}.{control}, doubt: Is it there?, owner: safety-lead}}"
        ]
    (case / "hazards/doubts.yml").write_text("\n".join(lines) + "\n", "utf-8")
    changed = assess_folder(case, tmp_path / "cache")
    for hazard, control in doubted.items():
        outcome = changed.hazards[hazard]
        assert control in outcome.lifted
        assert outcome.now is not None
        assert outcome.after is not None
        assert outcome.now.rank > outcome.after.rank, f"{hazard} without {control}"


def test_a_misspelt_key_in_the_challenge_leaves_the_top_claim_open(tmp_path: Path) -> None:
    case = copy_of_demo(tmp_path / "case")
    swap(case / "claims/durability.yml", "    against: bracket-fatigue\n", "    agianst: bracket-fatigue\n")
    changed = assess_folder(case, tmp_path / "cache")
    assert changed.verdicts[TOP] == Verdict.OPEN
    (finding,) = [one for one in changed.input_findings if one.rule == "key-unknown"]
    assert finding.place.file == "claims/durability.yml"
    assert "`against`" in finding.message + finding.remedy


def test_a_stress_table_that_is_gone_opens_its_claim_without_a_traceback(tmp_path: Path) -> None:
    case = copy_of_demo(tmp_path / "case")
    (case / "claims/data/bracket-frame-stress.csv").unlink()
    changed = assess_folder(case, tmp_path / "cache")
    assert changed.verdicts["bracket-and-frame"] == changed.verdicts["metal-parts-strong"] == Verdict.OPEN


def test_a_limit_in_a_unit_of_another_dimension_opens_its_claim_alone(tmp_path: Path) -> None:
    case = copy_of_demo(tmp_path / "case")
    swap(case / "claims/motion.yml", "    value: 50 mm\n", "    value: 50 kg\n")
    changed = assess_folder(case, tmp_path / "cache")
    assert changed.verdicts["toe-gap-kept"] == Verdict.OPEN
    assert changed.input_findings == ()


def test_a_unit_that_does_not_exist_is_reported_at_its_line(tmp_path: Path) -> None:
    case = copy_of_demo(tmp_path / "case")
    swap(case / "claims/motion.yml", "    value: 50 mm\n", "    value: 50 mn\n")
    changed = assess_folder(case, tmp_path / "cache")
    (finding,) = changed.input_findings
    line = line_of("claims/motion.yml", "    value: 50 mm")
    assert (finding.record, finding.place.line) == ("toe-gap-least", line)
    assert changed.verdicts[TOP] == Verdict.OPEN


def test_a_loop_opens_all_its_members_and_names_them(tmp_path: Path) -> None:
    case = copy_of_demo(tmp_path / "case")
    swap(case / "hazards/hazards.yml", "        effective_by: [grip-when-wet]\n",
         "        effective_by: [slip-risk-controlled]\n")  # fmt: skip
    changed = assess_folder(case, tmp_path / "cache")
    assert changed.verdicts["slip-risk-controlled"] == changed.verdicts["slip-on-wet-pad"] == Verdict.OPEN
    (finding,) = [one for one in changed.findings if one.rule == "loop"]
    assert "slip-risk-controlled" in finding.message
    assert "slip-on-wet-pad" in finding.message


def test_with_the_planted_gaps_put_right_the_top_claim_holds(tmp_path: Path) -> None:
    case = copy_of_demo(tmp_path / "case")
    swap(case / "claims/fits.yml", "    state: unconfirmed\n",
         "    state: confirmed\n    confirmed_by: [pin-inspection]\n")  # fmt: skip
    swap(case / "claims/durability.yml", "    state: raised\n",
         "    state: answered\n    answer: The report is extended.\n    answer_rests_on: [fatigue-report]\n"
         "    closed_by: safety-lead\n")  # fmt: skip
    _soak_twenty_one_coupons(case / "claims")
    changed = assess_folder(case, tmp_path / "cache")
    assert [(one.record, one.text) for one in changed.missing] == []
    assert changed.verdicts[TOP] == Verdict.HOLDS


def _soak_twenty_one_coupons(claims: Path) -> None:
    """The dry values, read as soaked ones: 21 coupons in place of two, with the digest of the new file."""
    data = claims / "data/bond-soaked-coupons.csv"
    before = digest(data)
    dry = (claims / "data/bond-dry-coupons.csv").read_text("utf-8").splitlines()[1:]
    cells = [row.split(",") for row in dry]
    rows = [
        f"bond-wet-{number:02d},{group},90,{mpa}" for number, (_, group, mpa) in enumerate(cells, start=1)
    ]
    data.write_text("\n".join(["coupon,group,days_in_sea_water,shear_mpa", *rows]) + "\n", "utf-8")
    swap(claims / "materials.yml", before, digest(data))
