"""Small random cases with every kind of link and slip; one seed, or one drawing, gives one case."""

import random
from collections.abc import Sequence
from typing import Any, Protocol, TypeVar

from oracle_facts import Plain
from plain_case import PlainCase, digest

QUANTITIES = ["strength", "fit"]


One = TypeVar("One")


class Source(Protocol):
    """Where the choices come from."""

    def choice(self, pool: Sequence[One], /) -> One:
        """One of several."""

    def sample(self, pool: Sequence[One], count: int, /) -> list[One]:
        """Some of several, each once."""

    def randint(self, lower: int, upper: int, /) -> int:
        """A whole number, both ends included."""

    def random(self) -> float:
        """A share from 0 to 1; what is below a stated share happens."""


class Maker:
    """Draws one case. `wrong` is how often anything is not as it should be."""

    def __init__(self, source: Source):
        self.rng = source
        self.wrong = self.rng.choice([0.0, 0.01, 0.02, 0.04, 0.08, 0.15, 0.35])
        self.records: dict[str, dict[str, Plain]] = {}
        self.files: dict[str, str] = {}

    def slip(self, times: float = 1.0) -> bool:
        return self.rng.random() < self.wrong * times

    def often(self, share: float = 0.5) -> bool:
        return self.rng.random() < share

    def some(self, pool: list[str], most: int) -> list[str]:
        return self.rng.sample(pool, min(len(pool), self.rng.randint(0, most)))

    def ids(self, kind: str) -> list[str]:
        return list(self.records.get(kind, {}))

    def make(self) -> PlainCase:
        """The whole case, with the kinds that others name drawn first."""
        draw = self.rng.randint
        self.add("case", "box", self.case())
        self.several("conditions", "k", draw(0, 1), lambda _: {"title": "Wave height", "range": "0 to 1 m"})
        self.several("requirements", "r", draw(0, 2), lambda _: self.requirement())
        self.several("contexts", "x", draw(0, 1), lambda _: {"statement": "A scope."})
        self.several("rating_scales", "s", draw(0, 1), lambda _: {"title": "A scale"})
        self.several("parts", "p", draw(0, 3), self.part)
        self.several("factors", "f", draw(0 if self.slip() else 1, 2), self.factor)
        self.several("load_cases", "l", draw(0, 2), lambda _: self.load_case())
        self.several("evidence", "e", draw(1, 5), self.evidence)
        self.several("materials", "m", 0 if self.slip() else 1, lambda _: self.material())
        self.several("calculations", "n", draw(0, 3), lambda _: self.calculation())
        self.claims = [f"c{i}" for i in range(draw(1, 8))]
        self.several("assumptions", "a", draw(0, 2), lambda _: self.assumption())
        self.several("failure_modes", "q", draw(0, 2), lambda _: self.failure_mode())
        self.hazards = [f"h{i}" for i in range(draw(0, 2))]
        for i, claim in enumerate(self.claims):
            self.add("claims", claim, self.claim(i))
        self.adopt()
        self.several("hazards", "h", len(self.hazards), lambda _: self.hazard())
        self.doubts()
        return self.broken(PlainCase(self.records, self.files))

    def several(self, kind: str, letter: str, count: int, draw: Any) -> None:
        for i in range(count):
            self.add(kind, f"{letter}{i}", draw(i))

    def add(self, kind: str, i: str, record: Plain) -> None:
        self.records.setdefault(kind, {})[i] = {k: v for k, v in record.items() if v not in (None, [], {})}

    def case(self) -> Plain:
        return {"title": "Random case", "top_claims": {"use": "c0"}, "quantities": QUANTITIES,
                "as_of": None if self.slip(0.3) else "2026-03-12",
                "people": {"lead": {"name": "Safety lead"}}}  # fmt: skip

    def owner(self) -> str | None:
        return None if self.slip(0.3) else "lead"

    def retired(self) -> Plain | None:
        if not self.slip(0.6):
            return None
        whole_one = {"because": "kept for later", "by": "lead", "date": "2026-01-05"}
        return {k: v for k, v in whole_one.items() if not self.slip(0.3)}

    def requirement(self) -> Plain:
        return {"statement": "At least so much.", "value": None if self.slip() else self.limit()}

    def limit(self) -> str | float:
        usual: list[str | float] = [0.5, 0.2, "40 %"]
        return self.rng.choice(["300 mm", "5 um"] if self.slip(0.5) else usual)

    def part(self, i: int) -> Plain:
        return {"title": "A part", "part_of": f"p{i - 1}" if i and self.often() else None,
                "load_path": self.rng.choice([None, "single", "redundant"])}  # fmt: skip

    def factor(self, i: int) -> Plain:
        taken = {factor["kind"] for factor in self.records.get("factors", {}).values()}
        kinds = [kind for kind in ("safety", "special", "multiply") if kind not in taken]
        first = i == 0 and not self.slip(2)
        kinds, narrow = (["safety"], 0.0) if first else (kinds, 0.3)
        where = {"parts": self.some(self.ids("parts"), 1)} if self.often(narrow) else {}
        return {"title": "A factor", "kind": self.rng.choice(kinds), "value": self.rng.choice([1.15, 1.5]),
                "applies_to": {k: v for k, v in where.items() if v}}  # fmt: skip

    def load_case(self) -> Plain:
        return {"title": "A load case", "already_in": self.some(self.ids("factors"), 1)}

    def evidence(self, i: int) -> Plain:
        kind = self.rng.choice(["test", "test", "inspection", "analysis", "certificate", "review"])
        outcomes = [None, "failed", "stopped early", "inconclusive"] if self.slip() else ["passed"]
        asked = kind in ("test", "inspection", "review")
        return {
            "title": "A report",
            "kind": kind,
            "files": self.data_files(i),
            "date": None if self.slip(0.5) else "2026-02-01",
            "parts": self.tested_parts(),
            "not_applicable": {} if self.ids("parts") else {"part": "none", "issue": "-", "serial": "-"},
            "quantity": self.rng.choice([None, *QUANTITIES]),
            "outcome": self.rng.choice(outcomes) if asked else None,
            "anomalies": [{"what": "a crack", "disposition": "harmless"}] if self.slip(0.3) else None,
            "results": {"stress": {"value": self.stress()}} if self.often(0.6) or self.slip() else None,
            "state": self.rng.choice(["draft", "superseded", "withdrawn", None]) if self.slip() else "issued",
            "superseded_by": "e0" if i and self.slip(0.3) else None,
        }  # fmt: skip

    def stress(self) -> str:
        half = self.rng.choice(["", " +/- 30", " +/- 5"])
        return f"{self.rng.choice([50, 110, 170, 230])}{half} MPa"

    def data_files(self, i: int) -> list[Plain]:
        if self.slip(0.5):
            return []
        name, text = f"data/e{i}.txt", f"invented report {i}\n"
        if not self.slip(0.3):
            self.files[name] = text
        sha256 = digest(text + ("changed" if self.slip(0.5) else ""))
        return [{"file": name} if self.slip(0.5) else {"file": name, "sha256": sha256}]

    def tested_parts(self) -> list[Plain]:
        named = self.rng.sample(self.ids("parts"), min(1, len(self.ids("parts"))))
        entry = {"issue": None if self.slip(0.5) else "A", "serial": None if self.slip(0.5) else "7"}
        return [{"part": part, **{k: v for k, v in entry.items() if v}} for part in named if not self.slip()]

    def material(self) -> Plain:
        basis = self.rng.choice(["B", "S", "mean", None]) if self.slip(2) else "A"
        origin = self.rng.choice(self.ids("evidence")) if self.often() else None
        source = None if origin or self.slip(2) else "A handbook"
        strength = {"value": None if self.slip(0.3) else "900 MPa", "basis": basis, "origin": origin,
                    "source": source}  # fmt: skip
        return {"title": "An alloy", "properties": {"strength": {k: v for k, v in strength.items() if v}}}

    def calculation(self) -> Plain:
        measured = [e for e in self.ids("evidence") if self.records["evidence"][e].get("results")]
        applied = {"result": f"{self.rng.choice(measured)}.stress"} if measured else {"value": "300 MPa"}
        allowable: Plain = {"material": "m0.strength"} if self.ids("materials") else {"value": "600 MPa"}
        inputs: Plain = {"applied": applied, "allowable": allowable, "criterion": {"text": "yield"}}
        record: Plain = {"title": "Reserve by hand", "method": "reserve_factors", "inputs": inputs}
        for name, kind in (("part", "parts"), ("load_case", "load_cases")):
            if self.ids(kind) and not self.slip():
                named = self.rng.choice(self.ids(kind))
                inputs[name] = {"text": named}
                record[kind] = [named]
        return record

    def assumption(self) -> Plain:
        state = self.rng.choice(["unconfirmed", "refuted", None]) if self.slip() else "confirmed"
        grounds = [] if self.slip(0.5) else [self.ground(len(self.claims))]
        return {"statement": "Taken as true.", "owner": self.owner(), "state": state, "confirmed_by": grounds,
                "review_date": self.rng.choice([None, "2026-03-12", "2026-12-01"])
                if not self.slip(0.5) else "2026-01-01", "retired": self.retired()}  # fmt: skip

    def ground(self, after: int) -> str:
        """Evidence, a calculation, or a claim further down; by a slip any claim, which may loop."""
        claims = self.claims if self.slip(0.5) else self.claims[after + 1 :]
        return self.rng.choice([*self.ids("evidence"), *self.ids("calculations"), *claims])

    def failure_mode(self) -> Plain:
        cause = {"text": "wear", "occurrence": 3, "detection": 4}
        return {"title": "It breaks", "item": next(iter(self.ids("parts")), None),
                "scale": next(iter(self.ids("rating_scales")), None), "causes": {"wear": cause},
                "effects": [{"text": "falls", "severity": 8}], "owner": "lead",
                "retired": self.retired()}  # fmt: skip

    def claim(self, i: int) -> Plain:
        record: Plain = {"statement": "It is so.", "about": self.about(i), "owner": self.owner(),
                         "quantity": self.rng.choice([None, *QUANTITIES]), "retired": self.retired(),
                         "assumes": self.some(self.ids("assumptions"), 1 if self.often() else 0),
                         "context": self.some(self.ids("contexts"), 1)}  # fmt: skip
        if self.slip(0.4):
            record["undeveloped"] = {"because": "to come", "owner": "lead", "due": "2026-06-01"}
        if self.slip(0.3):
            return record
        if self.often(0.25):
            record["arguments"] = {name: self.argument(i) for name in ("one", "two")}
            record["holds_if"] = self.rng.choice(["any", "all"])
        else:
            record["argument"] = self.argument(i)
        return record

    def about(self, i: int) -> list[str]:
        every = [*self.hazards, *self.ids("load_cases")]
        if i == 0 and not self.slip(3):
            return every + self.some(self.ids("parts"), 1)
        return self.some([*every, *self.ids("parts")], 2)

    def argument(self, i: int) -> Plain:
        rests_on = [self.ground(i) for _ in range(self.rng.randint(1, 2))]
        checks = [self.check() for _ in range(self.rng.randint(0, 1))]
        if self.slip(0.3):
            rests_on = []
        argument = {"because": "It follows.", "over": self.over(), "checks": [c for c in checks if c],
                    "rests_on": [{"record": x} for x in dict.fromkeys(rests_on)]}  # fmt: skip
        return {k: v for k, v in argument.items() if v}

    def over(self) -> Plain | None:
        if not self.slip() and not self.often(0.05):
            return None
        kind = self.rng.choice(["load_cases", "hazards", "parts"])
        members = self.some(self.hazards if kind == "hazards" else self.ids(kind), 2)
        if not members:
            return {"kind": kind}
        return {
            "kind": kind,
            "members": members,
            **({} if self.slip(0.5) else {"because": "the others rest"}),
        }

    def check(self) -> Plain | None:
        results = [
            f"{n}.{r}" for n in self.ids("calculations") for r in ("least_reserve_factor", "margin_of_safety")
        ]
        stresses = [f"{e}.stress" for e, r in self.records["evidence"].items() if r.get("results")]
        if not results + stresses:
            return None
        result = self.rng.choice(results + stresses)
        limits: list[Any] = ["300 MPa", "350000 kPa"] if result in stresses else [0.4, "75 %"]
        bound = "at_most" if result in stresses else "at_least"
        if self.slip(2):
            limits = [*limits, 4.0, "300 %", "150 MPa", "3 mm"]
            bound = self.rng.choice(["at_least", "at_most"])
        limit: Plain = {"value": self.rng.choice(limits)}
        stated = self.ids("requirements") + (self.ids("factors") if self.slip(3) else [])
        if bound == "at_least" and self.often(0.4) and stated:
            limit = {"record": self.rng.choice(stated)}
        check = {"result": None if self.slip(0.2) else result, bound: None if self.slip(0.2) else limit,
                 "because": None if self.slip(0.4) else "as agreed",
                 "judge_by": self.rng.choice([None, None, "nominal", "adverse"])}  # fmt: skip
        return {k: v for k, v in check.items() if v is not None}

    def adopt(self) -> None:
        """Each claim beneath the first is rested on by an earlier one, save by a slip."""
        for i, claim in enumerate(self.claims[1:], 1):
            parent = self.records["claims"][self.claims[self.rng.randint(0, i - 1)]]
            arguments = [a for a in (parent.get("argument"), *(parent.get("arguments") or {}).values()) if a]
            if arguments and not self.slip(0.4):
                supports = self.rng.choice(arguments).setdefault("rests_on", [])
                if {"record": claim} not in supports:
                    supports.append({"record": claim})

    def hazard(self) -> Plain:
        place = self.rng.randint(0, len(self.claims) - 1)
        controls = {
            f"w{i}": self.control(place) for i in range(0 if self.slip(0.4) else self.rng.randint(1, 3))
        }
        names = list(controls)
        rated = [{**self.rating(), "controls": self.some(names, 2)} for _ in range(self.rng.randint(0, 2))]
        causes = [{"record": x} for x in self.some(self.ids("failure_modes"), 1)] or [{"text": "a slip"}]
        before = {"severity": "Critical", "likelihood": "Probable"}
        if self.slip(0.4):
            before = self.rng.choice(
                [{}, {"severity": "Critical"}, {"severity": "Bad", "likelihood": "Remote"}]
            )
        return {"title": "It falls", "owner": self.owner(), "retired": self.retired(), "causes": causes,
                "before": before, "controls": controls, "risk_with": rated,
                "after": None if self.slip() else {**self.rating(), "controls": names},
                "claim": None if self.slip() else self.claims[place]}  # fmt: skip

    def rating(self) -> Plain:
        words = {"severity": ["Catastrophic", "Critical", "Marginal", "Negligible"],
                 "likelihood": ["Occasional", "Remote", "Improbable", "Eliminated"]}  # fmt: skip
        return {name: self.rng.choice(choice) for name, choice in words.items()}

    def control(self, place: int) -> Plain:
        kind = self.rng.choice(["design", "safeguard", "warning", "procedure", "protective"])
        control = {"text": "A guard", "type": kind,
                   "reduces": self.some(["severity", "likelihood"], 2) if self.often(0.4) else None,
                   "implemented_by": [] if self.slip(0.4) else [self.ground(place)],
                   "effective_by": [] if self.slip(0.4) else [self.ground(place)]}  # fmt: skip
        return {k: v for k, v in control.items() if v}

    def doubts(self) -> None:
        """Challenges and actions against anything, one argument, control or cause included."""
        for i in range(self.rng.randint(0, 2) if self.wrong else self.rng.randint(0, 1)):
            if self.wrong or self.often(0.3):
                self.add("challenges", f"d{i}", self.challenge())
        for i in range(self.rng.randint(0, 2)):
            self.add("actions", f"t{i}", self.action())

    def target(self) -> str:
        kind = self.rng.choice([kind for kind in self.records if kind != "case"])
        i = self.rng.choice(self.ids(kind))
        record = self.records[kind][i]
        names = {"claims": [*(["argument"] if "argument" in record else []), *record.get("arguments", {})],
                 "hazards": list(record.get("controls", {})),
                 "failure_modes": list(record.get("causes", {}))}.get(kind, [])  # fmt: skip
        return f"{i}.{self.rng.choice(names)}" if names and self.often(0.4) else i

    def challenge(self) -> Plain:
        state = self.rng.choice(["raised", "upheld", None]) if self.slip(3) else "answered"
        rests_on = [] if self.slip() else [self.ground(len(self.claims))]
        return {"against": self.target(), "doubt": "Is it so?", "state": state, "owner": self.owner(),
                "answer": "It is.", "answer_rests_on": rests_on}  # fmt: skip

    def action(self) -> Plain:
        done = "2026-05-01" if self.slip() else "2026-02-02"
        target, shown = self.target(), self.rng.choice(self.ids("evidence"))
        if shown == target and not self.slip():
            target = "c0"
        return {"what": "Do it.", "on": target, "owner": self.owner(),
                "needed_before": "use" if self.often(0.6) else None,
                "done": None if self.slip() else done,
                "closing_evidence": [] if self.slip() else [shown]}  # fmt: skip

    def broken(self, case: PlainCase) -> PlainCase:
        """The case, now and then with a record or a file that cannot be read whole."""
        kinds = [kind for kind in case.records if kind not in ("case", "factors", "load_cases", "parts")]
        if self.slip(0.3):
            case.misspelt.add(self.rng.choice(self.ids(self.rng.choice(kinds))))
        if self.slip(0.2):
            case.dangling.add(self.rng.choice(self.claims))
            case.dangling -= case.misspelt
        case.unreadable = self.slip(0.1)
        return case


def random_case(seed: int) -> PlainCase:
    """The case of that seed."""
    return Maker(random.Random(seed)).make()
