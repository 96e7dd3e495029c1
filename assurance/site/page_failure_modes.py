"""The Failure modes page: late actions, then each cause with its ratings, severity leading every tie."""

from dataclasses import dataclass

from assurance.site import wording
from assurance.site.links import Link
from assurance.site.mode_rows import ActionOn, CauseRow, cause_rows, modes_table
from assurance.site.tables import Table, table
from assurance.site.view import View

RPN_CAUTION = (
    "RPN puts rows in order. Equal numbers can hide unequal harm; read severity first. It is a product of "
    "ranks, so twice the number is not twice the risk."
)
MOST_LATE = 20  # late actions named above the table


@dataclass(frozen=True, slots=True)
class LateAction:
    """An action on a failure mode that is late."""

    what: Link
    on: Link
    owner: str
    late: str


@dataclass(frozen=True, slots=True)
class FailureModesPage:
    """What `failure-modes.html` shows."""

    summary: str
    grave: str
    late: tuple[LateAction, ...]
    more_late: str
    modes: Table | None
    scales: tuple[Link, ...]
    rpn_caution: str
    caution: str


def failure_modes_page(view: View) -> FailureModesPage:
    """The Failure modes page of a case."""
    count = len(view.assessment.of_kind("failure_modes"))
    rows = cause_rows(view)
    most = max((one.cause.rpn_before or one.cause.rpn_now or 0 for one in rows), default=0)
    grave = len({row.mode_id for row in rows if row.grave})
    late = _late(view, rows)
    return FailureModesPage(
        summary=wording.counted(count, "failure mode") if count else "Failure modes",
        grave=f"{wording.counted(grave, 'mode')} with severity 9 or 10" if grave else "",
        late=late[:MOST_LATE],
        more_late=f"{len(late) - MOST_LATE:,} more below" if len(late) > MOST_LATE else "",
        modes=table("failure-modes", modes_table(view, most=most), rows, root=view.links.root),
        scales=tuple(
            Link(view.links.name(id_), view.links.record(id_))
            for id_ in view.assessment.of_kind("rating_scales")
        ),
        rpn_caution=RPN_CAUTION,
        caution=wording.CAUTION,
    )


def _late(view: View, rows: list[CauseRow]) -> tuple[LateAction, ...]:
    """The late actions, those on the worst mode first, each once."""
    found: dict[str, LateAction] = {}
    for row in rows:
        for action in row.actions:
            if action.late and action.id not in found:
                found[action.id] = _late_action(view, row, action)
    return tuple(found.values())


def _late_action(view: View, row: CauseRow, action: ActionOn) -> LateAction:
    return LateAction(
        what=Link(action.record.what, view.links.record(action.id)),
        on=Link(view.links.name(row.mode_id), view.links.record(row.mode_id)),
        owner=view.who(action.record.owner or ""),
        late=action.late,
    )
