"""What a case writes into `mkdocs.yml` is read by our own reader: of all its settings four are taken."""

import sys

import pytest
from click.testing import CliRunner
from hostile_case import leaves_canary, run, site_texts, write_case

from assurance.cli import main

pytestmark = pytest.mark.slow

MARK = "HOSTILE-7f3a"
ROUTES = {
    "a tag that calls": "site_name: !!python/object/apply:hostile.leave []\n",
    "a tag that imports": "site_name: !!python/name:hostile.leave\n",
    "a tag that imports in a setting": "edit_uri: !!python/name:hostile.leave\n",
    "the environment": f"site_name: !ENV [{MARK}_SECRET]\nextra: {{holdwater: {{a: !ENV {MARK}_SECRET}}}}\n",
    "hooks": "site_name: T\nhooks: [hostile.py]\n",
    "a plugin by path": "site_name: T\nplugins: [hostile, {search: {lang: hostile}}]\n",
    "a theme": "site_name: T\ntheme: {name: material, custom_dir: theme}\n",
    "a theme of its own": "theme: {name: null, custom_dir: theme, static_templates: [leave.html]}\n",
    "extensions of Markdown": "markdown_extensions: [hostile, {toc: {slugify: hostile.leave}}]\n",
    "another file": "INHERIT: parent.yml\n",
    "scripts and styles": f"site_name: T\nextra_javascript: [{MARK}.js]\nextra_css: [{MARK}.css]\n",
    "folders outside": "site_name: T\ndocs_dir: ../outside\nsite_dir: ../outside/site\n",
    "absolute folders": "site_name: T\ndocs_dir: {outside}\nsite_dir: {outside}\n",
    "folders behind links": "site_name: T\ndocs_dir: away\nsite_dir: away/site\n",
}


@pytest.fixture(scope="module")
def cache(tmp_path_factory):
    return tmp_path_factory.mktemp("cache")


@pytest.fixture
def case(tmp_path, cache, monkeypatch):
    """A case with code that would leave a canary, and a folder outside with a page and a file to keep."""
    case = write_case(tmp_path / "case")
    (case / "hostile.py").write_text(
        f"def leave(*a, **k):\n    open({str(tmp_path / 'canary')!r}, 'w')\nleave()\n"
    )
    (case / "parent.yml").write_text("site_name: P\nhooks: [hostile.py]\n")
    (case / "theme").mkdir()
    for name in ("base.html", "main.html", "leave.html"):
        (case / "theme" / name).write_text(f"{MARK} {{{{ config.site_name }}}}")
    (tmp_path / "outside").mkdir()
    (tmp_path / "outside" / "index.md").write_text(f"# {MARK}\n")
    (case / "away").symlink_to(tmp_path / "outside")
    monkeypatch.setenv("HOLDWATER_CACHE", str(cache))
    monkeypatch.setenv(f"{MARK}_SECRET", f"{MARK} secret")
    monkeypatch.chdir(case)
    return case


@pytest.mark.parametrize("route", ROUTES)
def test_no_setting_of_a_case_runs_code_or_leads_out(case, tmp_path, route):
    (case / "mkdocs.yml").write_text(ROUTES[route].replace("{outside}", str(tmp_path / "outside")))
    done = CliRunner().invoke(main, ["build"], catch_exceptions=False)
    assert done.exit_code == 0, done.output
    assert not (tmp_path / "canary").exists()
    assert not any(MARK in text for text in site_texts(case / "site").values())
    assert [one.name for one in (tmp_path / "outside").iterdir()] == ["index.md"]


@pytest.mark.slow
@pytest.mark.parametrize("route", ["a tag that calls", "hooks", "another file"])
def test_the_loader_of_mkdocs_itself_would_have_run_it(case, tmp_path, route):
    """The control: were a case given to that loader, its code would run."""
    (case / "mkdocs.yml").write_text(ROUTES[route] + "docs_dir: guide\n")
    run(sys.executable, "-m", "mkdocs", "build", "-d", str(tmp_path / "thrown"), folder=case)
    assert (tmp_path / "canary").exists()


def test_a_canary_is_left_by_the_code_of_the_case(tmp_path):
    with pytest.raises(SystemExit):
        exec(leaves_canary(tmp_path / "canary"))
    assert (tmp_path / "canary").exists()
