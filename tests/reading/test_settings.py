"""The settings that are taken from `mkdocs.yml`."""

from pathlib import Path

import pytest
from marked_text import write_case

from assurance.model.case import CaseText, SiteSettings
from assurance.reading import read_case


def with_settings(folder: Path, text: str) -> CaseText:
    write_case(folder, "")
    (folder / "mkdocs.yml").write_text(text, encoding="utf-8")
    return read_case(folder)


def test_without_settings_the_defaults_stand(tmp_path: Path) -> None:
    write_case(tmp_path, "")

    assert read_case(tmp_path).settings == SiteSettings(site_dir="site", docs_dir="guide")


def test_name_folders_and_extra_are_taken(tmp_path: Path) -> None:
    case = with_settings(
        tmp_path,
        "site_name: Boarding step\nsite_dir: out/site\ndocs_dir: site_templates/guide\n"
        "theme: {name: material}\nextra:\n  holdwater: {notice: Invented, issue: 3}\n  other: {a: b}\n",
    )

    assert case.findings == ()
    assert case.settings == SiteSettings(
        "Boarding step", "out/site", "site_templates/guide", {"notice": "Invented", "issue": "3"}
    )


def test_tags_in_the_settings_do_nothing(tmp_path: Path) -> None:
    case = with_settings(
        tmp_path,
        "site_name: !!python/object/apply:os.system [touch owned]\nsite_dir: !ENV [HOME, site]\n"
        "hooks: [hook.py]\nmarkdown_extensions:\n  - x: {y: !!python/name:os.system }\n",
    )

    assert case.findings == ()
    assert case.settings == SiteSettings()


@pytest.mark.parametrize("folder", ["..", "/srv/site", "out/../../elsewhere", ".", "claims", "claims/site"])
def test_a_site_folder_that_would_cover_or_leave_the_case_is_refused(folder: str, tmp_path: Path) -> None:
    case = with_settings(tmp_path, f"site_name: A\nsite_dir: {folder}\n")

    assert [(f.rule, str(f.place)) for f in case.findings] == [("folder-not-usable", "mkdocs.yml:2:11")]
    assert case.settings.site_dir == "site"


def test_a_docs_folder_outside_the_case_is_refused(tmp_path: Path) -> None:
    case = with_settings(tmp_path, "docs_dir: ../guide\n")

    assert [f.rule for f in case.findings] == ["folder-not-usable"]
    assert case.settings.docs_dir == "guide"


def test_a_site_folder_behind_a_link_out_of_the_case_is_refused(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    case_folder = tmp_path / "case"
    case_folder.mkdir()
    (case_folder / "out").symlink_to(tmp_path / "elsewhere")

    case = with_settings(case_folder, "site_dir: out\n")

    assert [f.rule for f in case.findings] == ["folder-not-usable"]


@pytest.mark.parametrize("text", ["site_name: [", "\tsite_name: A", "a: b: c", '"\\ud800"'])
def test_settings_that_do_not_parse_are_told_and_the_defaults_stand(text: str, tmp_path: Path) -> None:
    case = with_settings(tmp_path, text)

    assert [(f.rule, f.place.file) for f in case.findings] == [("yaml-not-readable", "mkdocs.yml")]
    assert case.settings == SiteSettings()


@pytest.mark.parametrize("text", ["[1]", "word"])
def test_a_settings_file_that_is_no_mapping_is_told_and_the_defaults_stand(text: str, tmp_path: Path) -> None:
    case = with_settings(tmp_path, text)

    assert [(f.rule, str(f.place)) for f in case.findings] == [("value-wrong", "mkdocs.yml:1:1")]
    assert case.settings == SiteSettings()


@pytest.mark.parametrize("text", ["", "site_name:\n", "extra: [1]", "extra: {holdwater: x}"])
def test_settings_of_another_shape_leave_the_defaults(text: str, tmp_path: Path) -> None:
    case = with_settings(tmp_path, text)

    assert case.findings == ()
    assert case.settings == SiteSettings()
