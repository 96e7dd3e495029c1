"""Makes the data files of the demo case from a stated seed; the same seed gives the same bytes.

Every number is invented. Run it from the repository: `python tests/demo/make_data.py claims/data`.
"""

import random
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from statistics import NormalDist

SEED = 20260312
ROUGHNESS = 0.45  # standard deviations of noise laid on an even spread
NODES_PER_PART = 320
LOAD_CASES = ("LC1", "LC2", "LC3", "LC4", "LC5", "LC6")
# Largest principal stress of each part at limit load, one figure a load case [MPa]; invented.
PEAKS = {
    "bracket": (151.0, 384.0, 297.0, 212.0, 431.0, 263.0),
    "frame": (48.2, 112.5, 95.1, 87.6, 130.4, 123.8),
}
PEAK_NODE = {"LC1": 0, "LC2": 7, "LC3": 7, "LC4": 41, "LC5": 0, "LC6": 113}  # where that figure stands
COMPRESSED = 0.06  # share of nodes under compression in every direction
Rows = Iterable[Iterable[object]]


class Draws:
    """Repeatable draws: only `random.random` is used, whose sequence Python keeps between versions."""

    def __init__(self, name: str) -> None:
        """Draws of their own for each file, so that one file can change without the others."""
        self._source = random.Random(f"{SEED} {name}")

    def uniform(self, lower: float = 0.0, upper: float = 1.0) -> float:
        """A number between the two bounds, each equally likely."""
        return lower + (upper - lower) * self._source.random()

    def normal(self, mean: float, deviation: float) -> float:
        """A number from a normal distribution."""
        return NormalDist(mean, deviation).inv_cdf(self._source.random())

    def scatter(self, count: int, *, mean: float, deviation: float) -> list[float]:
        """Values spread as a normal sample is on average, in shuffled order, roughened by noise."""
        scores = [NormalDist().inv_cdf((rank - 0.375) / (count + 0.25)) for rank in range(1, count + 1)]
        for last in range(count - 1, 0, -1):
            other = int(self._source.random() * (last + 1))
            scores[last], scores[other] = scores[other], scores[last]
        widened = (1.0 + ROUGHNESS**2) ** 0.5
        rough = (score + self.normal(0.0, ROUGHNESS) for score in scores)
        return [mean + deviation * score / widened for score in rough]


def _rotation(draws: Draws) -> list[list[float]]:
    """A rotation matrix from a random unit quaternion."""
    parts = [draws.normal(0.0, 1.0) for _ in range(4)]
    length = sum(part * part for part in parts) ** 0.5
    w, x, y, z = (part / length for part in parts)
    return [
        [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
        [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
        [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
    ]


def _components(principal: tuple[float, float, float], turn: list[list[float]]) -> list[float]:
    """The six stress components that have these principal stresses in the turned axes."""

    def entry(i: int, j: int) -> float:
        return sum(turn[i][k] * principal[k] * turn[j][k] for k in range(3))

    return [entry(0, 0), entry(1, 1), entry(2, 2), entry(0, 1), entry(1, 2), entry(2, 0)]


def stress_rows(part: str) -> Iterator[list[object]]:
    """One row for each node and load case: one node carries the peak, the others less."""
    draws = Draws(f"stress {part}")
    first = 10_001 if part == "bracket" else 40_001
    for node in range(NODES_PER_PART):
        share = 0.985 * draws.uniform() ** 1.8
        sign = -1.0 if draws.uniform() < COMPRESSED and node not in PEAK_NODE.values() else 1.0
        second, third = draws.uniform(0.05, 0.40), draws.uniform(-0.25, 0.04) * sign
        turn = _rotation(draws)
        for load_case, peak in zip(LOAD_CASES, PEAKS[part], strict=True):
            below = share * draws.uniform(0.94, 1.0)
            largest = sign * peak * (1.0 if PEAK_NODE[load_case] == node else below)
            stresses = _components((largest, second * largest, third * largest), turn)
            yield [first + node, part, load_case, *(f"{stress:.2f}" for stress in stresses)]


def stress_table() -> Rows:
    """The stress result table of the bracket and the frame."""
    yield ["node", "component", "case", "sxx", "syy", "szz", "sxy", "syz", "szx"]
    for part in PEAKS:
        yield from stress_rows(part)


def coupons(name: str, groups: tuple[str, ...], each: int, columns: dict[str, tuple[float, float]]) -> Rows:
    """Coupons in groups, with a column for each property: its mean and standard deviation."""
    draws = Draws(f"coupons {name}")
    yield ["coupon", "group", *columns]
    count = each * len(groups)
    values = [draws.scatter(count, mean=mean, deviation=spread) for mean, spread in columns.values()]
    for index in range(count):
        measured = (f"{column[index]:.1f}" for column in values)
        yield [f"{name}-{index + 1:02d}", groups[index // each], *measured]


def load_line(name: str, *, stiffness: float, reach: float, rows: int, noise: float) -> Rows:
    """A load-displacement record [mm, N] of a straight line with slack at the start and noise."""
    draws = Draws(f"line {name}")
    yield ["displacement_mm", "load_n"]
    for index in range(rows):
        displacement = reach * index / (rows - 1)
        taken_up = min(1.0, displacement / (0.06 * reach))  # the fixture settles over the first 6 %
        load = stiffness * displacement * (0.55 + 0.45 * taken_up) + draws.normal(0.0, noise)
        yield [f"{displacement:.3f}", f"{load:.1f}"]


def soaked_coupons() -> Rows:
    """The first two of the soaked bond coupons; the others are still in the tank."""
    yield ["coupon", "group", "days_in_sea_water", "shear_mpa"]
    yield ["bond-wet-01", "batch-d", 90, "18.7"]
    yield ["bond-wet-02", "batch-d", 90, "17.9"]


def rebound_record() -> Rows:
    """Rebound speed of the pad at the damper's exit, by air temperature [degC, m/s]."""
    draws = Draws("rebound")
    yield ["air_temperature_degc", "run", "rebound_speed_m_per_s"]
    for temperature, mean in ((5, 0.243), (15, 0.231), (25, 0.222)):
        for run in range(1, 11):
            yield [temperature, run, f"{draws.normal(mean, 0.006):.3f}"]


def tables() -> dict[str, Rows]:
    """Every data file of the demo by name."""
    titanium = {"ultimate_mpa": (986.0, 11.5), "yield_mpa": (907.0, 13.0), "elongation_pct": (12.4, 0.9)}
    aluminium = {"ultimate_mpa": (322.0, 4.4), "yield_mpa": (284.0, 4.6)}
    return {
        "bracket-frame-stress.csv": stress_table(),
        "titanium-bars.csv": coupons("ti", ("build-11", "build-12", "build-14"), 6, titanium),
        "aluminium-plate.csv": coupons("al", ("plate-1", "plate-2", "plate-3", "plate-4"), 5, aluminium),
        "laminate-coupons.csv": coupons(
            "lam", ("batch-a", "batch-b", "batch-c"), 10, {"compression_mpa": (1152.0, 46.0)}
        ),
        "bond-dry-coupons.csv": coupons(
            "bond-dry", ("batch-a", "batch-b", "batch-c"), 7, {"shear_mpa": (24.1, 1.05)}
        ),
        "bond-soaked-coupons.csv": soaked_coupons(),
        "pin-bars.csv": coupons("pin", ("heat-1", "heat-2", "heat-3"), 6, {"ultimate_mpa": (1106.0, 12.5)}),
        "blade-rig.csv": load_line("blade", stiffness=213.4, reach=24.0, rows=61, noise=9.0),
        "frame-rig.csv": load_line("frame", stiffness=2910.0, reach=3.2, rows=41, noise=16.0),
        "rebound.csv": rebound_record(),
    }


def write_all(folder: Path) -> None:
    """Write every data file into the folder, with plain line ends on every platform."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, rows in tables().items():
        text = "".join(",".join(str(cell) for cell in row) + "\n" for row in rows)
        (folder / name).write_bytes(text.encode("utf-8"))


if __name__ == "__main__":
    write_all(Path(sys.argv[1] if len(sys.argv) > 1 else "claims/data"))
