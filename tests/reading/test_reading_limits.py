"""However much is wrong, reading ends soon and tells what it left out."""

from pathlib import Path

from marked_text import read_text


def test_a_record_lists_two_hundred_faults_and_counts_the_rest(tmp_path: Path) -> None:
    keys = "".join(f"    key{n}: 1\n" for n in range(300))

    case = read_text(tmp_path, f"claims:\n  top:\n    statement: A.\n{keys}")

    assert len(case.findings) == 201
    assert any("100 more faults" in f.message and f.place.line == 2 for f in case.findings)


def test_a_record_lists_two_hundred_wrong_names_and_counts_the_rest(tmp_path: Path) -> None:
    names = ", ".join(f"gone-{n}" for n in range(300))

    case = read_text(tmp_path, f"claims:\n  top: {{statement: A., about: [{names}]}}\n")

    assert len(case.findings) == 201
    assert any("100 more names" in f.message for f in case.findings)


def test_names_beyond_the_first_hundred_get_no_guess_but_a_remedy(tmp_path: Path) -> None:
    claims = "".join(f"  c{n}: {{statement: A., about: [bladee-{n}]}}\n" for n in range(150))

    case = read_text(tmp_path, f"claims:\n{claims}parts:\n  bladee: {{title: A}}\n")

    remedies = [f.remedy for f in case.findings]
    assert remedies.count("Did you mean `bladee`?") == 100
    assert remedies.count("Name a record under `parts`, `hazards` or `load_cases`.") == 50


def test_twice_written_keys_in_a_long_mapping_are_found_in_one_pass(tmp_path: Path) -> None:
    keys = "".join(f"    k{n}: x\n" for n in range(2000))

    case = read_text(tmp_path, f"claims:\n  top:\n    statement: A.\n{keys}{keys}")

    twice = [f for f in case.findings if f.rule == "key-twice"]
    assert len(twice) == 2000
    assert twice[0].message == "The key `k0` is written twice; the first is in line 4."
