"""What a round tells after an edit: the findings of the edited files, and the pages of what was edited."""

import pytest

from assurance.assess import assess
from assurance.reading import read_case
from assurance.scaffold import new_case
from assurance.serving import Rounds


@pytest.fixture
def case(tmp_path):
    new_case(tmp_path / "mine")
    return tmp_path / "mine"


@pytest.fixture
def rounds(case):
    def again():
        read = read_case(case)
        return read, assess(read)

    started = Rounds(again, lambda *_: 40)
    started.work(())
    return started


def edit(case, file, old, new):
    path = case / file
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


def pages(news):
    return [page.href for page in news.pages]


def test_an_edited_record_leads_to_its_page(case, rounds):
    edit(case, "claims/bracket.yml", "Bracket, aluminium plate 12 mm", "Bracket of plate")
    _, news = rounds.work(("claims/bracket.yml",))
    assert news.published
    assert pages(news) == ["parts/bracket.html"]


def test_a_new_record_leads_to_its_page_and_those_that_moved_down_do_not(case, rounds):
    edit(case, "claims/bracket.yml", "parts:\n", "parts:\n  bolt: {title: Bolt}\n")
    _, news = rounds.work(("claims/bracket.yml",))
    assert pages(news) == ["parts/bolt.html"]


def test_a_data_file_leads_to_the_records_that_name_it(case, rounds):
    (case / "claims" / "data" / "bars.csv").write_text("a,b\n1,2\n")
    _, news = rounds.work(("claims/data/bars.csv",))
    assert pages(news) == ["calculations/bar-strength.html", "evidence/bars.html"]
    assert "file-changed" in {one.rule for one in news.findings}


def test_a_page_of_the_case_leads_to_itself(rounds):
    _, news = rounds.work(("guide/index.md", "mkdocs.yml"))
    assert pages(news) == ["guide/index.html", "index.html"]


def test_a_broken_key_is_told_with_place_and_remedy(case, rounds):
    edit(case, "claims/bracket.yml", "    quantity: strength", "    quantiti: strength")
    _, news = rounds.work(("claims/bracket.yml",))
    told = next(one for one in news.findings if one.rule == "key-unknown")
    assert told.place.startswith("claims/bracket.yml:")
    assert told.remedy == "Did you mean `quantity`?"
    assert told.href == "claims/bracket-strong-enough.html#as-written"
    assert news.published


def test_what_blocks_in_other_files_is_counted(case, rounds):
    edit(case, "claims/bracket.yml", "    quantity: strength", "    quantiti: strength")
    _, news = rounds.work(("hazards/hazards.yml",))
    assert "1 blocking finding in other files" in news.elsewhere
    assert not [one for one in news.findings if one.place.startswith("claims/")]


def test_without_a_case_record_nothing_is_published_and_every_finding_is_told(case, rounds):
    edit(case, "claims/case.yml", "case:\n", "cases:\n")
    _, news = rounds.work(("hazards/hazards.yml",))
    assert not news.published
    assert "kind-unknown" in {one.rule for one in news.findings}
    assert "stays as it was" in news.said


@pytest.mark.parametrize("fault", [OSError("disk full"), ValueError("the folder is not empty")])
def test_a_site_that_cannot_be_written_is_told(case, fault):
    def refuse(*_):
        raise fault

    read = read_case(case)
    _, news = Rounds(lambda: (read, assess(read)), refuse).work(())
    assert not news.published
    assert str(fault) in news.said


def steps_of_a_round(case, *, slow):
    def publish(*_):
        steps.append("published")
        return 40

    steps = []
    read = read_case(case)
    again = (read, assess(read))
    rounds = Rounds(lambda: again, publish, meanwhile=lambda news: steps.append(news.said), slow=slow)
    rounds.work(("claims/case.yml",))
    return steps


def test_where_publishing_takes_long_the_findings_are_told_before_it(case):
    assert steps_of_a_round(case, slow=3600.0) == ["published"]
    assert steps_of_a_round(case, slow=-1.0) == ["The site is being published.", "published"]


def test_a_flood_of_findings_is_cut_and_the_rest_counted(case, rounds):
    lines = (f"  c{number}: {{x: 1}}\n" for number in range(200))
    (case / "claims" / "flood.yml").write_text("claims:\n" + "".join(lines))
    _, news = rounds.work(("claims/flood.yml",))
    assert len(news.findings) == 50
    assert news.left_out >= 150
    assert len(news.pages) == 12
