"""The Failure modes page: each cause with its ratings before and now, severity leading every tie."""

from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.argument_records import Action
from assurance.model.assessment import CauseOutcome
from assurance.model.risk_records import FailureMode
from assurance.site import wording
from assurance.site.drawings_risk import rpn_bar
from assurance.site.links import Link
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.view import View

GRAVE = 9  # severity from which a mode is listed whatever its RPN (IEC 60812: 9 and 10)
RPN_CAUTION = (
    "RPN puts rows in order. Equal numbers can hide unequal harm; read severity first. It is a product of "
    "ranks, so twice the number is not twice the risk."
)


@dataclass(frozen=True, slots=True)
class ActionLine:
    """An action on a cause or mode."""

    what: str
    href: str
    owner: str
    due: str
    late: str
    state: str


@dataclass(frozen=True, slots=True)
class CauseLine:
    """One cause of a failure mode."""

    mode: str
    href: str
    item: Link | None
    effect: str
    cause: str
    severity: str
    occurrence: str
    detection: str
    rpn_before: str
    rpn_now: str
    bar: Markup
    actions: tuple[ActionLine, ...]
    grave: bool
    mark: Markup


@dataclass(frozen=True, slots=True)
class FailureModesPage:
    """What `failure-modes.html` shows."""

    summary: str
    grave: str
    late: str
    rows: tuple[CauseLine, ...]
    more: str
    scales: tuple[Link, ...]
    rpn_caution: str
    caution: str


def failure_modes_page(view: View) -> FailureModesPage:
    """The Failure modes page of a case."""
    modes = view.assessment.of_kind("failure_modes")
    found = [
        (id_, entry.record, cause)
        for id_, entry in modes.items()
        if isinstance(entry.record, FailureMode)
        for cause in view.assessment.failure_modes.get(id_, ()) or (CauseOutcome("", "", None, None),)
    ]
    found.sort(key=lambda one: (*_weight(one[2]), one[0], one[2].id))
    on = _actions_on(view)
    most = max((one.rpn_before or one.rpn_now or 0 for _, _, one in found), default=0)
    rows = tuple(
        _line(view, id_, record, cause, on=on, most=most) for id_, record, cause in found[:MOST_ROWS]
    )
    late = {action.href for row in rows for action in row.actions if action.late}
    grave = {row.href for row in rows if row.grave}
    return FailureModesPage(
        summary=wording.counted(len(modes), "failure mode") if modes else "Failure modes",
        grave=f"{wording.counted(len(grave), 'mode')} with severity 9 or 10" if grave else "",
        late=f"{wording.counted(len(late), 'action')} late" if late else "",
        rows=rows,
        more=more_rows(len(found)),
        scales=tuple(
            Link(view.links.name(id_), view.links.record(id_))
            for id_ in view.assessment.of_kind("rating_scales")
        ),
        rpn_caution=RPN_CAUTION,
        caution=wording.CAUTION,
    )


def _weight(cause: CauseOutcome) -> tuple[int, int]:
    """Severity now first, then RPN now; what is not rated stands on top."""
    rated = cause.now or cause.before
    return (-11, 0) if rated is None else (-rated[0], -(cause.rpn_now or 0))


def _actions_on(view: View) -> dict[str, list[str]]:
    on: dict[str, list[str]] = {}
    for id_, entry in view.assessment.of_kind("actions").items():
        if isinstance(entry.record, Action):
            on.setdefault(entry.record.on, []).append(id_)
    return on


def _line(
    view: View, id_: str, record: FailureMode, cause: CauseOutcome, *, on: dict[str, list[str]], most: int
) -> CauseLine:
    before, now = _ratings(cause.before), _ratings(cause.now)
    shown = [f"{was} → {is_}" if was != is_ else is_ for was, is_ in zip(before, now, strict=True)]
    item = Link(view.links.name(record.item), view.links.record(record.item)) if record.item else None
    ids = [*on.get(f"{id_}.{cause.id}", ()), *on.get(id_, ())]
    return CauseLine(
        mode=record.mode or record.title,
        href=view.links.record(id_),
        item=item,
        effect="; ".join(effect.text for effect in record.effects),
        cause=cause.text,
        severity=shown[0],
        occurrence=shown[1],
        detection=shown[2],
        rpn_before=_rpn(cause.rpn_before),
        rpn_now=_rpn(cause.rpn_now),
        bar=rpn_bar(cause.rpn_before, cause.rpn_now, most=most),
        actions=tuple(_action(view, one, cause) for one in ids),
        grave=bool(cause.now and cause.now[0] >= GRAVE),
        mark=view.links.named(id_).mark,
    )


def _ratings(rated: tuple[int, int, int] | None) -> tuple[str, str, str]:
    if rated is None:
        return ("none", "none", "none")
    return (str(rated[0]), str(rated[1]), str(rated[2]))


def _rpn(value: int | None) -> str:
    return "not rated" if value is None else f"{value:,}"


def _action(view: View, id_: str, cause: CauseOutcome) -> ActionLine:
    record = view.assessment.entries[id_].record
    assert isinstance(record, Action)
    counts = id_ in cause.counted
    state = "done and shown" if counts else "done, not shown" if record.done else ""
    return ActionLine(
        what=record.what,
        href=view.links.record(id_),
        owner=view.who(record.owner or ""),
        due=wording.day(record.due),
        late="" if record.done else wording.late(record.due, as_of=view.assessment.as_of),
        state=state,
    )
