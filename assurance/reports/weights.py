"""Which findings make `check` exit with 1."""

from assurance.model.verdicts import Weight

WEIGHTS = tuple(Weight)  # heaviest first


def failing_weights(fail_on: str) -> frozenset[Weight]:
    """The weights from the one named upwards; none for `never`."""
    return frozenset() if fail_on == "never" else frozenset(WEIGHTS[: WEIGHTS.index(Weight(fail_on)) + 1])
