"""Causes of failure modes as rows: ratings before and now, the RPN bar, and the actions on each."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from assurance.model.argument_records import Action
from assurance.model.assessment import CauseOutcome
from assurance.model.risk_records import FailureMode
from assurance.site import wording
from assurance.site.cells import beneath, counted_line, to
from assurance.site.drawings_risk import rpn_bar
from assurance.site.links import Link
from assurance.site.pieces import anchor, span
from assurance.site.table_groups import Grouping
from assurance.site.tables import Choice, Column, Field, TableOf
from assurance.site.view import View

GRAVE = 9  # severity from which a mode is listed whatever its RPN (IEC 60812: 9 and 10)
NO_CAUSE = CauseOutcome("", "", None, None)
_RATINGS = (("S", "severity"), ("O", "occurrence"), ("D", "detection"))


@dataclass(frozen=True, slots=True)
class ActionOn:
    """An action on a cause or on its mode."""

    id: str
    record: Action
    state: str
    late: str


@dataclass(frozen=True, slots=True)
class CauseRow:
    """One cause of a failure mode with the actions on it."""

    mode_id: str
    mode: FailureMode
    cause: CauseOutcome
    actions: tuple[ActionOn, ...]

    @property
    def grave(self) -> bool:
        """Whether its severity now is 9 or 10."""
        return bool(self.cause.now and self.cause.now[0] >= GRAVE)

    @property
    def late(self) -> bool:
        """Whether an action on it is late."""
        return any(one.late for one in self.actions)


def cause_rows(view: View) -> list[CauseRow]:
    """Every cause, the worst severity first, then the largest RPN now; what is not rated on top."""
    on = _actions_on(view)
    found = [
        CauseRow(id_, entry.record, cause, _actions(view, id_, cause, on))
        for id_, entry in view.assessment.of_kind("failure_modes").items()
        if isinstance(entry.record, FailureMode)
        for cause in view.assessment.failure_modes.get(id_, ()) or (NO_CAUSE,)
    ]
    return sorted(found, key=lambda one: (*_weight(one.cause), one.mode_id, one.cause.id))


def _weight(cause: CauseOutcome) -> tuple[int, int]:
    rated = cause.now or cause.before
    return (-11, 0) if rated is None else (-rated[0], -(cause.rpn_now or 0))


def _actions_on(view: View) -> dict[str, list[str]]:
    on: dict[str, list[str]] = {}
    for id_, entry in view.assessment.of_kind("actions").items():
        if isinstance(entry.record, Action):
            on.setdefault(entry.record.on, []).append(id_)
    return on


def _actions(view: View, mode: str, cause: CauseOutcome, on: dict[str, list[str]]) -> tuple[ActionOn, ...]:
    ids = [*on.get(f"{mode}.{cause.id}", ()), *on.get(mode, ())]
    return tuple(_action(view, one, counts=one in cause.counted) for one in ids)


def _action(view: View, id_: str, *, counts: bool) -> ActionOn:
    record = view.assessment.entries[id_].record
    assert isinstance(record, Action)
    state = "done and shown" if counts else "done, not shown" if record.done else ""
    late = "" if record.done else wording.late(record.due, as_of=view.assessment.as_of)
    return ActionOn(id_, record, state, late)


def modes_table(view: View, *, most: int) -> TableOf[CauseRow]:
    """How causes are shown; `most` is the end of the axis of the RPN bars."""
    return TableOf(
        caption="Failure modes by severity, then RPN now",
        columns=(*_what_fails(view), *_ratings(), *_numbers(most), *_doing(view)),
        fields=_fields(view),
        groupings=(Grouping("item", lambda one: one.mode.item or "", _item_line(view)),),
        choices=(
            Choice("late actions", lambda one: one.late),
            Choice("severity 9 and 10", lambda one: one.grave),
        ),
        nothing="No failure mode matches.",
        css="modes",
    )


def _what_fails(view: View) -> tuple[Column[CauseRow], ...]:
    links = view.links
    return (
        Column("Verdict", lambda one: links.named(one.mode_id).mark, lambda one: -links.verdict(one.mode_id),
               "mk", unseen=True),
        Column("Item, mode", lambda one: _item_and_mode(view, one), lambda one: _item(view, one), "what",
               names_row=True),
        Column("Effects", _effects, _effects, "said", "Effects"),
        Column("Cause", _cause_cell, lambda one: one.cause.text or None, word="Cause"),
    )  # fmt: skip


def _ratings() -> tuple[Column[CauseRow], ...]:
    return tuple(
        Column(letter, _rating(place), _rated(place), "num after", word.capitalize(), falling=True)
        for place, (letter, word) in enumerate(_RATINGS)
    )


def _numbers(most: int) -> tuple[Column[CauseRow], ...]:
    return (
        Column("RPN before", lambda one: _rpn(one.cause.rpn_before), lambda one: one.cause.rpn_before,
               "num", "RPN before", falling=True),
        Column("RPN now", lambda one: _rpn_now(one.cause, most), lambda one: one.cause.rpn_now, "num",
               "RPN now", falling=True),
    )  # fmt: skip


def _doing(view: View) -> tuple[Column[CauseRow], ...]:
    return (
        Column("Action, owner", lambda one: _action_cells(view, one), _owners(view), word="Action"),
        Column("Due", _due_cell, _due, "nb", "Due"),
    )


def _item_and_mode(view: View, one: CauseRow) -> Markup:
    item = view.links.record(one.mode.item or "")
    named = to(Link(_item(view, one), item), "said") if one.mode.item else span("quiet", "item not stated")
    mode = anchor(view.links.record(one.mode_id), one.mode.mode or one.mode.title, "said")
    return named + Markup('<span class="do">{}</span>').format(mode)


def _item(view: View, one: CauseRow) -> str:
    return view.links.name(one.mode.item) if one.mode.item else ""


def _effects(one: CauseRow) -> str:
    return "; ".join(effect.text for effect in one.mode.effects)


def _cause_cell(one: CauseRow) -> Markup:
    """The cause, and today's controls folded beneath it."""
    if not one.cause.text:
        return Markup("No cause is named.")
    controls = one.mode.causes[one.cause.id].controls if one.cause.id in one.mode.causes else ()
    said = span("said", one.cause.text)
    if not controls:
        return said
    listed = Markup("").join(Markup('<li class="said">{}</li>').format(text) for text in controls)
    count = wording.counted(len(controls), "control")
    return said + Markup("<details><summary>{}</summary><ul>{}</ul></details>").format(count, listed)


def _rating(place: int) -> Callable[[CauseRow], Markup]:
    def shown(one: CauseRow) -> Markup:
        was, now = (str(rated[place]) if rated else "none" for rated in (one.cause.before, one.cause.now))
        text = Markup("{}").format(f"{was} → {now}" if was != now else now)
        return Markup("<b>{}</b>").format(text) if place == 0 and one.grave else text

    return shown


def _rated(place: int) -> Callable[[CauseRow], int | None]:
    return lambda one: one.cause.now[place] if one.cause.now else None


def _rpn(value: int | None) -> str:
    return "not rated" if value is None else f"{value:,}"


def _rpn_now(cause: CauseOutcome, most: int) -> Markup:
    return Markup("<b>{}</b>").format(_rpn(cause.rpn_now)) + rpn_bar(
        cause.rpn_before, cause.rpn_now, most=most
    )


def _action_cells(view: View, row: CauseRow) -> Markup:
    return Markup("").join(
        Markup('<span class="action">{} {}</span>').format(
            anchor(view.links.record(one.id), one.record.what, "said"), beneath(_terms(view, one))
        )
        for one in row.actions
    )


def _terms(view: View, action: ActionOn) -> str:
    owner = view.who(action.record.owner or "")
    return f"{owner}, {action.state}" if action.state else owner


def _owners(view: View) -> Callable[[CauseRow], str | None]:
    return lambda row: view.who(row.actions[0].record.owner or "") if row.actions else None


def _due_cell(row: CauseRow) -> Markup:
    """The days by which what is not done is due."""
    lines = []
    for one in row.actions:
        if not one.state:
            lines.append(Markup("{}").format(wording.day(one.record.due) or "no date"))
            lines += [beneath(one.late, "late")] if one.late else []
    return Markup("<br>").join(lines)


def _due(row: CauseRow) -> date | None:
    return min((one.record.due for one in row.actions if one.record.due and not one.state), default=None)


def _item_line(view: View) -> Callable[[str, Sequence[CauseRow]], Markup]:
    def line(_: str, rows: Sequence[CauseRow]) -> Markup:
        item = _item(view, rows[0])
        return counted_line(item or "Item not stated", wording.counted(len(rows), "cause"),
                            css="said" if item else "")  # fmt: skip

    return line


def _fields(view: View) -> tuple[Field[CauseRow], ...]:
    return (
        Field("failure mode", lambda one: one.mode_id),
        Field("cause id", lambda one: one.cause.id),
        Field("item", lambda one: one.mode.item or ""),
        Field("mode", lambda one: one.mode.mode or one.mode.title),
        Field("effects", _effects),
        Field("cause", lambda one: one.cause.text),
        *_rating_fields(),
        Field("RPN before", lambda one: one.cause.rpn_before),
        Field("RPN now", lambda one: one.cause.rpn_now),
        Field("actions", lambda one: "; ".join(action.record.what for action in one.actions)),
        Field("owners", lambda one: "; ".join(view.who(action.record.owner or "") for action in one.actions)),
        Field("due", _due),
        Field("late", lambda one: "yes" if one.late else ""),
    )


def _rating_fields() -> Iterator[Field[CauseRow]]:
    for place, (_, word) in enumerate(_RATINGS):
        yield Field(f"{word} before [1 to 10]", _rated_before(place))
        yield Field(f"{word} now [1 to 10]", _rated(place))


def _rated_before(place: int) -> Callable[[CauseRow], int | None]:
    return lambda one: one.cause.before[place] if one.cause.before else None
