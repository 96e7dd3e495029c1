"""Prints every message of the corpus in a row, to be read by a person: `python tests/tools/messages.py`."""

import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS / "corpus"), str(TESTS / "rules")]

from corpus_files import CorpusFile, corpus  # noqa: E402
from message_form import printed, written_at  # noqa: E402
from test_corpus import findings_of  # noqa: E402


def told(case: CorpusFile) -> Iterator[str]:
    """What one corpus file is about, and its messages with the line that each points at."""
    yield f"## {case.name}: {case.sentence}"
    with tempfile.TemporaryDirectory() as folder:
        written = case.write(Path(folder))
        for one in findings_of(written):
            yield f"{one.place} {one.weight.value} {one.rule}"
            yield f"    line:    {printed(written_at(one, written)).strip()[:160]}"
            yield f"    message: {one.message}"
            yield f"    remedy:  {one.remedy}"
    yield ""


if __name__ == "__main__":
    for each in corpus():
        print("\n".join(told(each)))
