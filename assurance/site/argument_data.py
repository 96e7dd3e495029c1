"""The argument as data for the map: every place of the tree, every record once, nothing left to work out."""

from collections import Counter
from collections.abc import Container, Iterable, Sequence
from typing import Any

from assurance.model.assessment import Assessment
from assurance.model.engineering_records import Calculation, EvidenceRecord
from assurance.model.kinds import SINGULAR
from assurance.model.verdicts import Verdict
from assurance.site import marks, wording
from assurance.site.argument_facets import facets
from assurance.site.argument_opening import beneath, opening, together
from assurance.site.argument_tree import Branch, any_of, card_of, counts_below, first_top, tree
from assurance.site.links import Links, name_of
from assurance.site.result_rows import listed_value, result_phrase
from assurance.site.script_data import as_script

LEADING_RESULT = "least_reserve_factor"


def argument_script(assessment: Assessment) -> str:
    """The data as a script that hands it to the map; where no claim concludes there is none."""
    top = first_top(assessment)
    if not top:
        return ""
    return as_script(
        "holdwaterArgument", argument_data(assessment, Links(assessment, ""), tree(assessment, top))
    )


def argument_data(assessment: Assessment, links: Links, branches: Sequence[Branch]) -> dict[str, Any]:
    """Verdicts, records and places, each list in a fixed order; a place names its record by position."""
    ids = list(dict.fromkeys(one.id for one in branches))
    at = {id_: position for position, id_ in enumerate(ids)}
    opened = opening(assessment, branches)
    return {
        "verdicts": [_verdict(one) for one in Verdict],
        "records": _records(assessment, links, ids, branches),
        "places": _places(branches, at) | _folds(branches, opened.opened),
        "more_causes": wording.counted(opened.more_causes, "more cause") if opened.more_causes else "",
        **_filters(assessment, ids, at),
    }


def _verdict(verdict: Verdict) -> dict[str, str]:
    return {"word": verdict.word, "css": marks.css_class(verdict), "path": marks.VERDICT_PATHS[verdict]}


def _records(
    assessment: Assessment, links: Links, ids: Sequence[str], branches: Sequence[Branch]
) -> dict[str, Any]:
    """The records in columns; a column of few values names the record by its position."""
    cards = [card_of(assessment, links, id_) for id_ in ids]
    places = Counter(one.id for one in branches if not one.missing)
    checked = {one.result for checks in assessment.checks.values() for one in checks}
    lines = [(*card.lines, *_second(assessment, id_, checked)) for id_, card in zip(ids, cards, strict=True)]
    return {
        "id": list(ids),
        "kind": [SINGULAR[assessment.entries[id_].kind] for id_ in ids],
        "verdict": [int(card.verdict) for card in cards],
        "text": [card.text for card in cards],
        "href": [card.href for card in cards],
        "lines": _some(lines),
        "used": _some(f"used {places[id_]:,} times" if places[id_] > 1 else "" for id_ in ids),
        "any": [position for position, id_ in enumerate(ids) if any_of(assessment, id_)],
    }


def _some(values: Iterable[Any]) -> dict[int, Any]:
    return {position: one for position, one in enumerate(values) if one}


def _second(assessment: Assessment, id_: str, checked: Container[str]) -> tuple[tuple[str, str], ...]:
    """What stands under the name of a leaf: the day of evidence, the checked result of a calculation."""
    record = assessment.entries[id_].record
    if isinstance(record, EvidenceRecord):
        return ((wording.day(record.date), ""),) if record.date else ()
    if not isinstance(record, Calculation) or id_ not in assessment.worked:
        return ()
    results = assessment.worked[id_].results
    found = [one for one in results if f"{id_}.{one}" in checked or one == LEADING_RESULT] or list(results)
    if not found:
        return ()
    name = found[0]
    return ((f"{result_phrase(record.method, name)} {listed_value(name, results[name])}", ""),)


def _places(branches: Sequence[Branch], at: dict[str, int]) -> dict[str, Any]:
    """The places of the tree in columns, each after the one above it, and what is special about some."""
    homes = {one.number: position for position, one in enumerate(branches) if not one.see}
    return {
        "record": [at[one.id] for one in branches],
        "above": [one.parent for one in branches],
        "number": [one.number for one in branches],
        "see": {position: homes[one.see] for position, one in enumerate(branches) if one.see},
        "missing": _some([int(one.verdict), one.missing] if one.missing else None for one in branches),
        "cause": [position for position, one in enumerate(branches) if one.cause],
        "counts": _some([counts_below(one), _short(one)] if one.below else None for one in branches),
    }


def _short(branch: Branch) -> str:
    """The count beneath where there is room for little."""
    return f"{branch.troubled_below:,} of {branch.below:,}" if branch.troubled_below else f"{branch.below:,}"


def _folds(branches: Sequence[Branch], opened: Iterable[int]) -> dict[str, Any]:
    """What stands open at first, what is said on opening, and what holds and so shares one card."""
    groups = {at: together(branches, at) for at, one in enumerate(branches) if one.children}
    return {
        "opened": sorted(opened),
        "beneath": {at: beneath(branches, at) for at, one in enumerate(branches) if one.children},
        "together": {at: held for at, held in groups.items() if held},
        "together_says": {at: held_words(branches, held) for at, held in groups.items() if held},
    }


def held_words(branches: Sequence[Branch], held: Sequence[int]) -> str:
    """How many hold on one card, with all that lies beneath them."""
    below = sum(branches[one].below for one in held)
    return f"{len(held):,} hold" + (f", {below:,} below" if below else "")


def _filters(assessment: Assessment, ids: Sequence[str], at: dict[str, int]) -> dict[str, Any]:
    """Whose each record is and what it is about, and the choices that this gives."""
    found = facets(assessment, ids)
    who = wording.People(assessment)
    owners = sorted(set(found.owners.values()), key=lambda one: (one == "", who(one)))
    parts = sorted({one for about in found.parts.values() for one in about})
    hazards = sorted({one for about in found.hazards.values() for one in about})
    return {
        "owners": [[one, who(one)] for one in owners],
        "parts": [[one, name_of(assessment, one)] for one in parts],
        "hazards": [[one, name_of(assessment, one)] for one in hazards],
        "owner_of": [owners.index(found.owners[id_]) for id_ in ids],
        "parts_of": {at[id_]: [parts.index(one) for one in about] for id_, about in found.parts.items()},
        "hazards_of": {at[id_]: [hazards.index(one) for one in found.hazards[id_]]
                       for id_ in ids if id_ in found.hazards},
    }  # fmt: skip
