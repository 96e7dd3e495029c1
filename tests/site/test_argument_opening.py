"""What of the argument stands open at first, and what shares one card."""

from published_demo import demo

from assurance.model.assessment import Assessment
from assurance.model.kinds import Entry
from assurance.model.verdicts import Missing, Place, Reason, ReasonKind, Verdict
from assurance.site.argument_opening import MOST_CARDS, beneath, opening, together
from assurance.site.argument_tree import tree


def shown(branches, opened):
    """The places in sight: those whose whole way stands open, and no held one that shares a card."""
    found, shared = {0}, {one for at in opened for one in together(branches, at)}
    for at, one in enumerate(branches):
        if one.parent in found and one.parent in opened and at not in shared:
            found.add(at)
    return found


def of_demo():
    assessment = demo().assessment
    return assessment, tree(assessment, assessment.top_claims["use"])


def case_of(depends, causes, *, frees=None):
    """Claims that rest on claims; in each of `causes` something is open, and what lies above inherits it."""
    ids = sorted({*depends, *(one for below in depends.values() for one in below)})
    wrong = set(causes)
    while more := {one for one in depends if one not in wrong and wrong.intersection(depends[one])}:
        wrong |= more
    place = Place("claims/c.yml", 1)
    own = {one: (Reason(one, ReasonKind.OWNER_MISSING, Verdict.OPEN, "no owner", place),) for one in causes}
    missing = [
        Missing(one, one, ReasonKind.OWNER_MISSING, "no owner", "", "", None, Verdict.OPEN, count, place)
        for one, count in (frees or {}).items()
    ]
    others = ["used_by", "worked", "results", "checks", "arguments", "hazards", "failure_modes"]
    return Assessment(
        case="c", as_of=None, reached=frozenset(ids), scheme=None, missing=tuple(missing), reasons=own,
        entries={id_: Entry(id_, "claims", place, None) for id_ in ids}, top_claims={"use": "top"},
        verdicts={id_: Verdict.OPEN if id_ in wrong else Verdict.HOLDS for id_ in ids},
        depends=depends, **{name: {} for name in others},
    )  # fmt: skip


def test_every_cause_is_in_sight_and_the_cards_are_few():
    assessment, branches = of_demo()
    first = opening(assessment, branches)
    seen = shown(branches, first.opened)
    assert {at for at, one in enumerate(branches) if one.cause} <= seen
    assert len(seen) <= MOST_CARDS
    assert not first.more_causes


def test_what_only_inherits_stays_folded():
    assessment, branches = of_demo()
    opened = opening(assessment, branches).opened
    inheriting = [at for at, one in enumerate(branches) if one.troubled and not one.causes_below]
    assert inheriting
    assert not opened.intersection(inheriting)


def test_above_sixty_cards_what_frees_most_is_opened_and_the_rest_is_counted():
    groups = {f"g{n}": tuple(f"c{n}-{m}" for m in range(12)) for n in range(8)}
    causes = {f"c{n}-{m}" for n in range(8) for m in range(12)}
    depends = {"top": tuple(groups), **groups}
    assessment = case_of(depends, causes, frees=dict.fromkeys((f"c7-{m}" for m in range(12)), 9))
    branches = tree(assessment, "top")
    first = opening(assessment, branches)
    seen = {branches[at].id for at in shown(branches, first.opened)}
    assert {f"c7-{m}" for m in range(12)} <= seen
    assert len(seen) <= MOST_CARDS
    # 9 cards of the top and its groups leave room for 4 groups of 12; 4 groups of 12 causes stay folded
    assert first.more_causes == 48


def test_a_small_argument_stands_open_whole():
    assessment = case_of({"top": ("a", "b"), "a": ("c",), "b": ("d",)}, set())
    branches = tree(assessment, "top")
    assert len(shown(branches, opening(assessment, branches).opened)) == len(branches)


def test_what_holds_beside_trouble_shares_a_card_where_there_is_much_of_it():
    held = tuple(f"h{n}" for n in range(30))
    assessment = case_of({"top": ("mixed",), "mixed": ("bad", *held)}, {"bad"})
    branches = tree(assessment, "top")
    at = next(at for at, one in enumerate(branches) if one.id == "mixed")
    assert {branches[one].id for one in together(branches, at)} == set(held)
    assert beneath(branches, at) == "31 below, 1 open"


def test_a_claim_whose_assumption_nobody_confirmed_is_where_trouble_starts():
    _, branches = of_demo()
    found = {one.id for one in branches if one.cause}
    assert "bearing-press-fit" in found  # its assumption is a line of its card and stands nowhere else
