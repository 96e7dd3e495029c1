"""A small case as plain mappings, written as files for the builder and as facts for the oracle.

Its calculations are reserve factors by hand, so that their results are worked out again here in
a few lines.
"""

import hashlib
from copy import deepcopy
from dataclasses import dataclass, field
from math import prod
from pathlib import Path
from typing import Any

import yaml
from oracle_facts import HOLDS, OPEN, Facts, Plain, whole

UNREADABLE = "claims: {half: [open\n"


@dataclass
class PlainCase:
    """A case in spelt-out form, its data files, and how some records are written wrongly."""

    records: dict[str, dict[str, Plain]]
    files: dict[str, str] = field(default_factory=dict)  # name beside the YAML file, to its text
    misspelt: set[str] = field(default_factory=set)  # records with a key that is not known
    dangling: set[str] = field(default_factory=set)  # claims that name a context which is not there
    unreadable: bool = False

    @property
    def top(self) -> str:
        return str((self.records["case"]["box"].get("top_claims") or {}).get("use", ""))

    def write(self, folder: Path) -> Path:
        """The case as files of a folder."""
        (folder / "claims" / "data").mkdir(parents=True)
        (folder / "hazards").mkdir()
        (folder / "mkdocs.yml").write_text("site_name: Random case\n")
        for name, text in self.files.items():
            (folder / "claims" / name).write_text(text)
        written = deepcopy(self.records)
        for held in written.values():
            for i, record in held.items():
                record.update({"misspelt": 1} if i in self.misspelt else {})
                if i in self.dangling:
                    record["context"] = [*(record.get("context") or []), "nowhere"]
        risk: Plain = {kind: written.pop(kind, {}) for kind in ("hazards", "failure_modes")}
        (folder / "claims" / "all.yml").write_text(_yaml(written))
        (folder / "hazards" / "all.yml").write_text(_yaml(risk))
        if self.unreadable:
            (folder / "hazards" / "half.yml").write_text(UNREADABLE)
        return folder

    def facts(self) -> Facts:
        """What the oracle is told: stubs for what was not read whole, and the sums by hand."""
        read = {
            kind: {i: ({} if i in self.misspelt else record) for i, record in held.items()}
            for kind, held in self.records.items()
        }
        facts = Facts(read, broken=self.misspelt | self.dangling, unreadable=self.unreadable)
        _disk(facts, self.files)
        for i, record in read.get("evidence", {}).items():
            for name, result in (record.get("results") or {}).items():
                facts.results[f"{i}.{name}"] = _stated(result["value"])
        for i in read.get("calculations", {}):
            _work_out(i, facts)
        return facts


def _yaml(records: dict[str, Any]) -> str:
    held = {kind: named for kind, named in records.items() if named}
    return yaml.safe_dump(held, sort_keys=False) if held else ""


def digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def _disk(facts: Facts, files: dict[str, str]) -> None:
    for i, record in facts.records.get("evidence", {}).items():
        for held in record.get("files") or []:
            if held["file"] not in files:
                facts.missing.add((i, held["file"]))
            elif held.get("sha256") not in (None, digest(files[held["file"]])):
                facts.changed.add((i, held["file"]))


def _stated(text: str | float) -> tuple[float, str, float, float]:
    """A typed value with the ends of its interval: `450 +/- 20 MPa`."""
    words = str(text).split()
    half = float(words[2]) if "+/-" in words else 0.0
    rest = words[3:] if "+/-" in words else words[1:]
    value = float(words[0])
    return value, " ".join(rest), value - half, value + half


def _pertinent(facts: Facts, part: str, load_case: str) -> dict[str, Plain]:
    """The factors that apply to this part and load case."""
    found = {}
    for i, factor in facts.records.get("factors", {}).items():
        where = factor.get("applies_to") or {}
        parts, cases = where.get("parts") or [part], where.get("load_cases") or [load_case]
        if factor and part in (*parts, "") and load_case in (*cases, ""):
            found[i] = factor
    return found


def _needed(factors: dict[str, Plain]) -> float:
    """Safety factor x the highest special factor x every other factor."""
    by_kind: dict[str, list[float]] = {"safety": [], "special": [], "multiply": []}
    for factor in factors.values():
        by_kind[factor["kind"]].append(_stated(factor["value"])[0])
    return prod([*by_kind["safety"], max(by_kind["special"], default=1.0), *by_kind["multiply"]])


def _work_out(i: str, facts: Facts) -> None:
    """Reserve factor by hand: allowable over applied load, with the factors put on once.

    The adverse ends are taken. What is in the load comes out where it is put on again, or where it is
    a factor of safety and another one is put on. Without any factor of safety nothing may rest on it.
    """
    record = facts.records["calculations"][i]
    inputs = record.get("inputs") or {}
    part, load_case = ((inputs.get(name) or {}).get("text", "") for name in ("part", "load_case"))
    named = {*(record.get("parts") or []), *(record.get("load_cases") or []), part, load_case} - {""}
    factors = _pertinent(facts, part, load_case)
    facts.worked_for[i] = named
    facts.uses[i] = [*sorted(named), *factors]
    applied, allowable = _input(inputs.get("applied"), facts, i), _input(inputs.get("allowable"), facts, i)
    safe = bool(applied and allowable) and _basis_does(inputs, part, facts)
    already = (facts.records.get("load_cases", {}).get(load_case) or {}).get("already_in") or []
    known = facts.records.get("factors", {})
    kinds = {one["kind"] for one in factors.values()}
    stay = {f for f in already if f not in factors and not known[f].get("kind") == "safety" in kinds}
    held = {*kinds, *(known[f].get("kind") for f in stay)}
    facts.calculated[i] = HOLDS if safe and "safety" in held else OPEN
    for name in ("least_reserve_factor", "margin_of_safety"):
        facts.results[f"{i}.{name}"] = None
    if not record or not applied or not allowable:
        return
    put_in = prod(_stated(known[f]["value"])[0] for f in already if f not in stay)
    reserve = allowable[2] / (applied[3] / put_in * _needed(factors))
    for name, value in (("least_reserve_factor", reserve), ("margin_of_safety", reserve - 1.0)):
        facts.results[f"{i}.{name}"] = (value, "", value, value)
        facts.inside[f"{i}.{name}"] = {*factors, *stay}


def _input(given: Plain | None, facts: Facts, i: str) -> tuple[float, str, float, float] | None:
    given = given or {}
    if "value" in given:
        return _stated(given["value"])
    if "result" in given:
        facts.uses[i].append(whole(given["result"]))
        return facts.results.get(given["result"])
    if "material" in given:
        material, name = given["material"].split(".")
        facts.uses[i].append(material)
        held = (facts.records["materials"][material].get("properties") or {}).get(name) or {}
        facts.uses[i] += [held["origin"]] if held.get("origin") else []
        return _stated(held["value"]) if held.get("value") else None
    return None


def _basis_does(inputs: Plain, part: str, facts: Facts) -> bool:
    """A basis for every part; B basis where another load path takes over. A typed basis needs a ground."""
    if "material" not in inputs["allowable"]:
        return False
    material, name = inputs["allowable"]["material"].split(".")
    held = facts.records["materials"][material]["properties"][name]
    basis = held.get("basis") if held.get("origin") or held.get("source") else None
    redundant = facts.records.get("parts", {}).get(part, {}).get("load_path") == "redundant"
    return basis == "A" or (redundant and basis in ("B", "S"))
