"""A second, slow reading of the rules of verdicts, written from the rules alone.

It shares nothing with the builder: plain mappings in, words out, no cleverness. Every question
is asked anew by walking the records, so it serves cases of a few dozen records.
"""

from typing import Any

from oracle_facts import (
    FAILS,
    HOLDS,
    LIKELIHOODS,
    OPEN,
    OUT_OF_DATE,
    OWNED,
    PROVISIONAL,
    RETIRABLE,
    SEVERITIES,
    UNITS,
    Facts,
    Plain,
    adverse,
    each_argument,
    read,
    retired,
    whole,
)  # fmt: skip


class Oracle:
    """Verdicts of one case."""

    def __init__(self, facts: Facts):
        self.facts = facts
        self.record = {i: r for kind in facts.records.values() for i, r in kind.items()}
        self.kind = {i: kind for kind, held in facts.records.items() for i in held}
        self.known: dict[str, int] = {}
        self.case = next(iter(self.of("case").values()), {})
        self.tops = [t for t in (self.case.get("top_claims") or {}).values() if t in self.kind]

    def of(self, kind: str) -> dict[str, Plain]:
        return self.facts.records.get(kind, {})

    def laid_on(self, target: str) -> list[str]:
        """Challenges and actions that name exactly this record or part of one."""
        doubts = [c for c, record in self.of("challenges").items() if record.get("against") == target]
        return doubts + [a for a, record in self.of("actions").items() if record.get("on") == target]

    def argument_links(self, claim: str, name: str) -> list[str]:
        argument = each_argument(self.record[claim])[name]
        found = [support["record"] for support in argument.get("rests_on") or []]
        for check in argument.get("checks") or []:
            found.append(whole(check.get("result") or ""))
            for bound in ("at_least", "at_most"):
                found.append((check.get(bound) or {}).get("record") or "")
        return [i for i in found if i in self.kind] + self.laid_on(f"{claim}.{name}")

    def links(self, i: str) -> list[str]:
        """What a record depends on along the edges."""
        record, kind = self.record[i], self.kind[i]
        found = [x for kind_ in ("challenges", "actions") for x, r in self.of(kind_).items()
                 if whole(r.get("against") or r.get("on") or "") == i]  # fmt: skip
        for name in each_argument(record) if kind == "claims" else ():
            found += self.argument_links(i, name)
        if kind == "claims":
            found += [*(record.get("assumes") or []), *(record.get("context") or [])]
            found += self.hazards_of(i)
        for part in self.parts_of_claim(i):
            found += [c for c in self.laid_on(part) if self.kind[c] == "challenges"]
        found += (record.get("closing_evidence") or []) if record.get("needed_before") else []
        found += (record.get("confirmed_by") or []) if record.get("state") == "confirmed" else []
        found += (record.get("answer_rests_on") or []) if record.get("state") == "answered" else []
        for control in (record.get("controls") or {}).values() if kind == "hazards" else ():
            found += [*(control.get("implemented_by") or []), *(control.get("effective_by") or [])]
        if kind == "hazards":
            found += [cause.get("record") or "" for cause in record.get("causes") or []]
            found += list(self.of("risk_scheme"))
        if kind == "failure_modes":
            found.append(record.get("scale") or "")
        if kind == "load_cases":
            found += [whole(record.get("result") or ""), *(record.get("already_in") or [])]
        found += self.facts.uses.get(i, [])
        return [x for x in found if x in self.kind]

    def hazards_of(self, claim: str) -> list[str]:
        return [
            h for h, r in self.of("hazards").items() if r.get("claim") == claim and not retired(r, self.as_of)
        ]

    def parts_named(self, i: str) -> list[str]:
        if self.kind[i] == "claims":
            return [p for p in self.record[i].get("about") or [] if self.kind.get(p) == "parts"]
        if self.kind[i] == "evidence":
            return [entry["part"] for entry in self.record[i].get("parts") or []]
        return []

    def parts_of_claim(self, i: str) -> set[str]:
        """The parts a claim names, and those of the evidence that it rests on or checks."""
        if self.kind[i] != "claims":
            return set()
        parts = set(self.parts_named(i))
        for argument in each_argument(self.record[i]).values():
            named = [s["record"] for s in argument.get("rests_on") or []]
            named += [whole(check.get("result") or "") for check in argument.get("checks") or []]
            parts |= {p for x in named if self.kind.get(x) == "evidence" for p in self.parts_named(x)}
        return parts

    def closure(self, start: list[str], *, needs: bool) -> set[str]:
        """Everything that these records lead to, themselves included."""
        seen: set[str] = set()
        waiting = list(start)
        while waiting:
            i = waiting.pop()
            if i not in seen:
                seen.add(i)
                waiting += self.needs(i) if needs else self.links(i)
        return seen

    def needs(self, i: str) -> list[str]:
        """What a record depends on; a top claim also needs whatever it does not reach."""
        return self.links(i) + (self.top_needs() if i in self.tops else [])

    def top_needs(self) -> list[str]:
        reached = self.closure(self.tops, needs=False)
        left = [x for kind in (*RETIRABLE, "challenges") for x, r in self.of(kind).items()
                if x not in reached and (not retired(r, self.as_of) or self.relied_on(x))]  # fmt: skip
        return list(self.of("conditions")) + left

    def verdict(self, i: str) -> int:
        """The verdict of a record; all members of a loop have one, at best `open`."""
        if i not in self.known:
            beneath = self.closure(self.needs(i), needs=True)
            loop = [m for m in beneath if i in self.closure(self.needs(m), needs=True)]
            if loop:
                worst = max(OPEN, *(self.judge(m, set(loop)) for m in loop))
                self.known.update(dict.fromkeys(loop, worst))
            else:
                self.known[i] = self.judge(i, set())
        return self.known[i]

    def judge(self, i: str, loop: set[str]) -> int:
        """The verdict of a record, where each other member of its loop is read as open."""
        record, kind = self.record[i], self.kind[i]

        def look(other: str) -> int:
            return OPEN if other in loop else self.verdict(other)

        worst = [self.look_all(look, self.laid_on(i)), self.facts.calculated.get(i, HOLDS)]
        if i in self.facts.broken or (kind in OWNED and not record.get("owner")):
            worst.append(OPEN)
        if kind in RETIRABLE and retired(record, self.as_of) and self.relied_on(i):
            worst.append(OPEN)
        own = {"claims": self.claim, "evidence": self.evidence, "assumptions": self.assumption,
               "challenges": self.challenge, "actions": self.action, "hazards": self.hazard}  # fmt: skip
        worst.append(own[kind](i, look) if kind in own else self.look_all(look, self.links(i)))
        return max(worst)

    def relied_on(self, i: str) -> bool:
        """Whether something that still counts rests on this, speaks of it, or is the claim of it."""
        live = [
            x for x in self.kind if self.kind[x] not in RETIRABLE or not retired(self.record[x], self.as_of)
        ]
        spoken_of = {x for c in live for x in self.record[c].get("about") or []}
        named = self.kind[i] == "hazards" and self.record[i].get("claim") in live
        return i in self.tops or i in spoken_of or named or any(i in self.links(x) for x in live)

    def look_all(self, look: Any, ids: list[str]) -> int:
        return max((look(x) for x in ids), default=HOLDS)

    # -- one kind each ---------------------------------------------------------------------------

    def evidence(self, i: str, _look: Any) -> int:
        record = self.record[i]
        worst = [OPEN if adverse(record) or record.get("outcome") == "inconclusive" else HOLDS]
        if self.as_of and record.get("date") and record["date"] > self.as_of:
            worst.append(OPEN)
        state = record.get("state") or "draft"
        if state == "issued" and not record.get("files") and not record.get("results"):
            state = "draft"
        if record.get("superseded_by"):
            worst.append(OUT_OF_DATE)
        worst.append({"draft": PROVISIONAL, "issued": HOLDS, "superseded": OUT_OF_DATE}.get(state, OPEN))
        for held in record.get("files") or []:
            if (i, held["file"]) in self.facts.missing:
                worst.append(OPEN)
            elif not held.get("sha256"):
                worst.append(PROVISIONAL)
            elif (i, held["file"]) in self.facts.changed:
                worst.append(OUT_OF_DATE)
        if record.get("kind") == "test":
            worst.append(OPEN if self.test_says_too_little(record) else HOLDS)
        return max(worst)

    def test_says_too_little(self, record: Plain) -> bool:
        parts = record.get("parts") or []
        said = {"part": bool(parts), "date": bool(record.get("date"))}
        for word in ("issue", "serial"):
            said[word] = bool(parts) and all(entry.get(word) for entry in parts)
        excused = record.get("not_applicable") or {}
        return any(not told and not excused.get(word) for word, told in said.items())

    def assumption(self, i: str, look: Any) -> int:
        record = self.record[i]
        worst = [OPEN if record.get("state") == "refuted" else PROVISIONAL]
        if record.get("state") == "confirmed":
            worst = [self.confirmed([x for x in record.get("confirmed_by") or [] if x in self.kind], look)]
        if self.as_of and record.get("review_date") and record["review_date"] < self.as_of:
            worst.append(OUT_OF_DATE)
        return max(worst)

    def confirmed(self, grounds: list[str], look: Any) -> int:
        """What the word `confirmed` is worth: nothing without grounds that hold."""
        if any(look(x) == FAILS or (self.kind[x] == "evidence" and adverse(self.record[x])) for x in grounds):
            return OPEN
        return HOLDS if grounds and self.look_all(look, grounds) == HOLDS else PROVISIONAL

    @property
    def as_of(self) -> str:
        return self.case.get("as_of") or ""

    def challenge(self, i: str, look: Any) -> int:
        """What the challenge lays on its target."""
        record = self.record[i]
        if record.get("state") == "upheld" and self.kind.get(record["against"]) == "claims":
            return FAILS
        if record.get("state") == "answered" and record.get("answer_rests_on"):
            worst = self.look_all(look, [x for x in record["answer_rests_on"] if x in self.kind])
            return worst if worst <= PROVISIONAL else OPEN
        return OPEN if record else HOLDS

    def action(self, i: str, look: Any) -> int:
        record = self.record[i]
        if not record.get("needed_before"):
            return HOLDS
        done = record.get("done") and not (self.as_of and record["done"] > self.as_of)
        shown = record.get("closing_evidence") or []
        return HOLDS if done and shown and self.look_all(look, shown) == HOLDS else OPEN

    def hazard(self, i: str, look: Any) -> int:
        record = self.record[i]
        worst = [look(x) for x in self.links(i)]
        if not record.get("controls") or not self.known_words(record.get("before")):
            worst.append(OPEN)
        for control in (record.get("controls") or {}).values():
            if not control.get("implemented_by") or not control.get("effective_by"):
                worst.append(OPEN)
        return max(worst, default=HOLDS)

    def known_words(self, risk: Plain | None) -> bool:
        risk = risk or {}
        return risk.get("severity") in SEVERITIES and risk.get("likelihood") in LIKELIHOODS

    # -- claims ----------------------------------------------------------------------------------

    def claim(self, i: str, look: Any) -> int:
        record = self.record[i]
        worst = [look(x) for x in [*(record.get("assumes") or []), *(record.get("context") or [])]]
        worst += [look(h) for h in self.hazards_of(i)]
        for part in self.parts_of_claim(i):
            worst += [look(c) for c in self.laid_on(part) if self.kind[c] == "challenges"]
        if record.get("undeveloped") or not each_argument(record):
            worst.append(OPEN)
        if each_argument(record):
            worst.append(self.arguments(i, look))
        if self.adverse_on(i) or self.loses_its_ground(i):
            worst.append(OPEN)
        if i in self.tops:
            worst += [look(x) for x in self.top_needs()]
            worst.append(OPEN if self.top_lacks(i) else HOLDS)
        return max(worst, default=HOLDS)

    def arguments(self, i: str, look: Any) -> int:
        each = {name: self.argument(i, name, look) for name in each_argument(self.record[i])}
        if self.record[i].get("holds_if") != "any":
            return max(each.values())
        for name, verdict in each.items():
            below = self.closure(self.argument_links(i, name), needs=False)
            if verdict == FAILS or any(self.kind[x] == "evidence" and adverse(self.record[x]) for x in below):
                return max(OPEN, min(each.values()))
        return min(each.values())

    def argument(self, i: str, name: str, look: Any) -> int:
        argument = each_argument(self.record[i])[name]
        worst: list[int] = [look(x) for x in self.argument_links(i, name)]
        worst += [self.check(check) for check in argument.get("checks") or []]
        if not argument.get("rests_on") and not argument.get("checks"):
            worst.append(OPEN)
        over = argument.get("over")
        if over:
            members = over.get("members")
            if members is None:
                members = [x for x, r in self.of(over["kind"]).items() if not retired(r, self.as_of)]
            elif not over.get("because"):
                worst.append(OPEN)
            below = self.closure(self.argument_links(i, name), needs=False)
            argued = self.argued(below, argument.get("checks") or [])
            worst += [OPEN for x in members if x not in argued]
        return max(worst)

    def argued(self, below: set[str], checks: list[Plain]) -> set[str]:
        """Hazards, load cases and parts that these records and checks speak of."""
        claims = [self.record[x] for x in below if self.kind[x] == "claims"]
        found = {x for claim in claims for x in claim.get("about") or []}
        found |= {x for x in below if self.kind[x] == "hazards"}
        for claim in claims:
            for argument in each_argument(claim).values():
                checks = checks + (argument.get("checks") or [])
        for check in checks:
            found |= self.facts.worked_for.get(whole(check.get("result") or ""), set())
        return found

    def check(self, check: Plain) -> int:
        """The comparison alone; what its result and limit are worth is looked at apart."""
        limit = check.get("at_least") or check.get("at_most")
        found = self.facts.results.get(check.get("result") or "")
        if not limit or found is None:
            return OPEN
        if limit.get("record") in self.facts.inside.get(check["result"], set()):
            return OPEN
        worst = HOLDS
        if limit.get("value") is not None and not check.get("because"):
            worst = OPEN
        if check.get("judge_by") == "nominal" and not check.get("because"):
            worst = OPEN
        stated = limit.get("value", self.record.get(limit.get("record") or "", {}).get("value"))
        if stated is None or UNITS[read(stated)[1]][0] != UNITS[found[1]][0]:
            return OPEN
        return max(worst, self.compare(check, found, read(stated)))

    def compare(self, check: Plain, found: tuple[float, str, float, float], limit: tuple[float, str]) -> int:
        value, unit, lower, upper = found
        end = lower if check.get("at_least") else upper
        if check.get("judge_by") == "nominal" and check.get("because"):
            end = value
        scale = 1.0 if unit == limit[1] else UNITS[unit][1] / UNITS[limit[1]][1]
        kept = end * scale >= limit[0] if check.get("at_least") else end * scale <= limit[0]
        return HOLDS if kept else FAILS

    def adverse_on(self, i: str) -> bool:
        """Whether some evidence against the item concerns this claim."""
        record = self.record[i]
        parts = self.parts_of_claim(i)
        for e, evidence in self.of("evidence").items():
            if not adverse(evidence):
                continue
            hit = {above for p in self.parts_named(e) for above in self.assemblies(p)}
            quantities = [q for q in (record.get("quantity"), evidence.get("quantity")) if q]
            if i in self.tops or ((not parts or not hit or parts & hit) and len(set(quantities)) < 2):
                return True
        return False

    def assemblies(self, part: str) -> list[str]:
        """The part and every assembly it belongs to."""
        found: list[str] = []
        while part and part not in found:
            found.append(part)
            part = self.of("parts").get(part, {}).get("part_of") or ""
        return found

    def loses_its_ground(self, i: str) -> bool:
        """Whether it declares or inherits an assumption or context that is refuted or upheld against."""
        upheld = {r.get("against") for r in self.of("challenges").values() if r.get("state") == "upheld"}
        lost = {x for kind in ("assumptions", "contexts") for x, r in self.of(kind).items()
                if r.get("state") == "refuted" or x in upheld}  # fmt: skip
        for other, record in self.of("claims").items():
            if lost & {*(record.get("assumes") or []), *(record.get("context") or [])} and (
                other == i or i in self.closure(self.links(other), needs=False)
            ):
                return True
        return False

    def top_lacks(self, i: str) -> bool:
        """What opens a top claim besides all that it needs."""
        below = self.closure([i], needs=False)
        asked = [
            x
            for kind in ("hazards", "load_cases")
            for x, r in self.of(kind).items()
            if not retired(r, self.as_of)
        ]
        left = [x for x in asked if x not in self.argued(below, [])]
        return bool(left or self.facts.broken or self.facts.unreadable or not self.as_of)
