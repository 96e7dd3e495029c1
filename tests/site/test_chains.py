"""The way from a record down to each cause of its verdict."""

from assurance.model.verdicts import Place, Reason, ReasonKind, Verdict
from assurance.site.chains import traced_causes


def needs(record):
    return Reason(record, ReasonKind.NEEDS, Verdict.OPEN, "", Place())


def fault(record, *, key="", verdict=Verdict.OPEN):
    return Reason(record, ReasonKind.UNDEVELOPED, verdict, f"{record} is not argued", Place(), key=key)


def ways(reasons, record, *, most=6):
    return {one.reason.record: (one.chain, one.others) for one in traced_causes(reasons, record, most=most)}


def test_a_cause_of_the_record_itself_has_no_way():
    assert ways({"a": (fault("a"),)}, "a") == {"a": ((), ())}


def test_the_way_leaves_out_both_ends():
    reasons = {"a": (needs("b"),), "b": (needs("c"),), "c": (fault("c"),)}
    assert ways(reasons, "a") == {"c": (("b",), ())}


def test_a_fault_that_lies_elsewhere_names_the_record_it_is_laid_on():
    reasons = {"a": (needs("b"),), "b": (fault("report", key="adverse"),)}
    assert ways(reasons, "a") == {"report": (("b",), ())}


def test_the_shortest_way_is_shown_and_the_others_are_named():
    reasons = {
        "a": (needs("long"), needs("short")),
        "long": (needs("longer"),),
        "longer": (needs("c"),),
        "short": (needs("c"),),
        "c": (fault("c"),),
    }
    assert ways(reasons, "a") == {"c": (("short",), ("longer",))}


def test_a_loop_is_walked_once():
    reasons = {"a": (needs("b"),), "b": (needs("a"), fault("b"))}
    assert ways(reasons, "a") == {"b": ((), ())}


def test_one_fault_laid_on_two_records_is_one_cause():
    reasons = {
        "a": (needs("b"), needs("c")),
        "b": (fault("test", key="adverse"),),
        "c": (fault("test", key="adverse"),),
    }
    assert ways(reasons, "a") == {"test": (("b",), ("c",))}


def test_the_worst_cause_comes_first():
    reasons = {"a": (fault("a"), needs("b")), "b": (fault("b", verdict=Verdict.FAILS),)}
    assert list(ways(reasons, "a")) == ["b", "a"]


def test_the_search_ends_at_the_level_on_which_enough_are_found():
    reasons = {"a": tuple(needs(f"c{n}") for n in range(9))}
    reasons |= {f"c{n}": (fault(f"c{n}"), needs("deep")) for n in range(9)}
    reasons["deep"] = (fault("deep"),)
    assert len(ways(reasons, "a", most=6)) == 9
