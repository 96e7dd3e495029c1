"""A record of every kind, with every field filled, and markup in every text that takes any.

The fields are found by walking the models, so that a field that is added is filled by itself.
"""

import types
from datetime import date
from typing import Annotated, Any, Literal, Union, get_args, get_origin

import yaml

from assurance.model.fields import FileName, Record, Refers, Who
from assurance.model.kinds import KINDS
from assurance.model.quantity import Quantity, Range

PAYLOAD = (
    '"><script>window.__hit=1;alert(1)</script><img src=x onerror=window.__hit=1> \'"><svg onload=alert(1)>'
    "</style></title></textarea></noscript><iframe src=//example.org></iframe>"
    " <a href=javascript:alert(1)>x</a>"
    "<b onclick=alert(1) style=color:red>b</b> ]]> --> {{ 7*7 }} {% raw %} <!--slot:main--> <!--slot:zz-->"
    " [x](javascript:alert(1)) ![x](https://example.org/x.png) {mark:holds} {at:a.b} `</code><script>`"
    " &lt;b&gt; data:text/html,<script>alert(1)</script>"
    " \u202eRTL\u202c \u2066x\u2069 \u2028 ${7*7} \\\\ \\u003cb\\u003e"
)
FILE_NAME = "data/x\"><img src=x onerror=alert(1)>{{7*7}}'&.csv"
COLUMN = 's"><img src=x onerror=alert(1)>'
CELL = "p'\"><script>alert(1)</script>"
ODD = {  # names that every object of a script has
    "claims": "constructor", "evidence": "hasOwnProperty", "hazards": "toString", "calculations": "valueOf",
    "parts": "prototype", "contexts": "isPrototypeOf", "actions": "then",
}  # fmt: skip
# Text fields that take only certain words, by model and field: anything else there is a finding.
WORDS = {
    ("Calculation", "method"): "reserve_factors",
    ("ResultTable", "unit"): "MPa",
    ("Input", "unit"): "mm",
    ("Case", "quantities"): [PAYLOAD],
    ("ClaimRecord", "quantity"): PAYLOAD,
    ("EvidenceRecord", "quantity"): PAYLOAD,
    ("RiskWith", "controls"): ["lead"],
    ("Case", "top_claims"): {"use": ODD["claims"]},
}
TABLE = {
    "file": FILE_NAME, "unit": "MPa",
    "columns": {"part": COLUMN + "p", "load_case": COLUMN + "l", "row": COLUMN},
    "parts": {CELL: ODD["parts"]}, "load_cases": {CELL: "n-load_cases"},
}  # fmt: skip
CRITERION = {"criterion": PAYLOAD[:200], "stress": COLUMN + "s", "allowable": "200 MPa"}


def id_of(kind):
    return ODD.get(kind, f"n-{kind}")


# Wrong in every way that a finding tells with the value in it.
BROKEN = {
    "key": {"contexts": {"k1": {"statement": "S", PAYLOAD[:200]: 1}}},
    "kind": {PAYLOAD[:200]: {}},
    "id": {"contexts": {PAYLOAD[:200]: {"statement": "S"}}},
    "reference": {"claims": {"k2": {"statement": "S", "context": [PAYLOAD[:200]], "owner": PAYLOAD[:200]}}},
    "result": {"claims": {"k3": {"statement": "S", "argument": {"checks": [{"result": PAYLOAD}]}}}},
    "value": {"requirements": {"k4": {"statement": "S", "value": PAYLOAD}}},
    "range": {"conditions": {"k5": {"title": "T", "range": PAYLOAD}}},
    "day": {"assumptions": {"k6": {"statement": "S", "review_date": PAYLOAD}}},
    "word": {"evidence": {"k7": {"title": "T", "kind": PAYLOAD}}},
    "file": {"evidence": {"k8": {"title": "T", "kind": "test", "files": [{"file": "../../" + COLUMN}]}}},
    "method": {"calculations": {"k9": {"title": "T", "method": PAYLOAD}}},
    "input": {"calculations": {"k10": {"title": "T", "method": "allowables", "inputs": {PAYLOAD: PAYLOAD}}}},
    "unit": {"calculations": {"k11": {"title": "T", "method": "allowables", "inputs": {
        "values": {"file": FILE_NAME, "column": PAYLOAD, "unit": PAYLOAD}}}}},
}  # fmt: skip


def texts_of_every_kind(*, without):
    """The YAML text of a file for each kind of record."""
    for kind, model in KINDS.items():
        record = filled(model) | ({"title": f"{kind} {PAYLOAD}"} if "title" in model.model_fields else {})
        record = {name: value for name, value in record.items() if name not in without}
        if kind == "calculations":
            record |= {"inputs": {}, "table": TABLE, "criteria": [CRITERION]}
        yield kind, yaml.safe_dump({kind: {id_of(kind): record}}, allow_unicode=True, sort_keys=False)


def filled(model):
    """Every field of a record with a value."""
    return {
        name: WORDS.get((model.__name__, name))
        or value_of(field.annotation, tuple(field.metadata), model, name)
        for name, field in model.model_fields.items()
    }


def value_of(kind: Any, marks: tuple[Any, ...], model: type[Record], name: str) -> Any:
    """A value for a field of this type; a text says which field it stands in."""
    origin, inner = get_origin(kind), get_args(kind)
    if origin is Annotated:
        return value_of(inner[0], inner[1:], model, name)
    if origin in (Union, types.UnionType):
        return value_of(next(one for one in inner if one is not type(None)), marks, model, name)
    if origin is tuple:
        return [value_of(inner[0], (), model, name)]
    if origin is dict:
        return {key_of(inner[0]): value_of(inner[1], (), model, name)}
    if origin is Literal:
        return inner[0]
    if isinstance(kind, type) and issubclass(kind, Record):
        return filled(kind)
    return plain_value(kind, marks, f"{model.__name__}.{name}")


def key_of(kind):
    while get_origin(kind) is Annotated:
        kind = get_args(kind)[0]
    return get_args(kind)[0] if get_origin(kind) is Literal else "lead"


def plain_value(kind, marks, field):
    known = {Quantity: "1 mm", Range: "0 to 1 mm", date: "2026-03-12", int: 5, float: 0.5, bool: True}
    if kind is not str:
        return known[kind]
    for mark in marks:
        if isinstance(mark, Refers):
            return named(mark)
        if isinstance(mark, Who):
            return "lead"
        if isinstance(mark, FileName):
            return FILE_NAME
    if any("[0-9a-f]{64}" in str(getattr(mark, "pattern", "") or mark) for mark in marks):
        return "0" * 64
    return f"{field} {PAYLOAD}"


def named(mark):
    """The record of the first kind that may be named there, with the part that must follow."""
    kind = "claims" if mark.kinds == ("*",) else mark.kinds[0]
    part = {"result": ".least_reserve_factor", "property": ".lead"}.get(mark.part, "")
    return id_of(kind) + part


def write_case(folder, *, without=(), broken=False):
    """A case of nasty records in a folder, with nasty data and pages."""
    for name in ("claims/data", "hazards", "guide"):
        (folder / name).mkdir(parents=True)
    for kind, text in texts_of_every_kind(without=without):
        (folder / "claims" / f"{kind}.yml").write_text(text, "utf-8")
    rows = ",".join(
        '"' + one.replace('"', '""') + '"' for one in (COLUMN + "p", COLUMN + "l", COLUMN, COLUMN + "s")
    )
    cell = '"' + CELL.replace('"', '""') + '"'
    (folder / "claims" / FILE_NAME).write_text(f"{rows}\n{cell},{cell},7,100\n", "utf-8")
    (folder / "guide" / "index.md").write_text(
        f"# Notes {PAYLOAD}\n\n{PAYLOAD}\n\n```\n{PAYLOAD}\n```\n", "utf-8"
    )
    (folder / "mkdocs.yml").write_text(yaml.safe_dump({"site_name": PAYLOAD}, allow_unicode=True), "utf-8")
    for name, records in BROKEN.items() if broken else ():
        text = yaml.safe_dump(records, allow_unicode=True)
        (folder / "hazards" / f"{name} <img src=x onerror=alert(1)>.yml").write_text(text, "utf-8")
    if broken:
        (folder / "hazards" / "tag.yml").write_text(
            f"contexts: {{c: !<tag:{PAYLOAD[2:40]}> {{}}}}\n", "utf-8"
        )
        (folder / "hazards" / "twice.yml").write_text("contexts: {t: {'<b>': 1, '<b>': 2}}\n", "utf-8")
    return folder
