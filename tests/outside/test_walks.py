"""Walks against TSPLIB's instances (G. Reinelt, 'TSPLIB', 1991): shortest open walks from the first place.

The distances are TSPLIB's; the shortest open walks were reckoned from them by dynamic programming, which gives the
published tours as well (burma14 3323, ulysses16 6859, gr17 2085).
"""

from math import acos, cos
from random import Random

import pytest

from floorplan_circuits.rounds.walk import length_of, short_walk

BURMA14 = """
16.47 96.10 16.47 94.44 20.09 92.54 22.39 93.37 25.23 97.24 22.00 96.05 20.47 97.02 17.20 96.29 16.30 97.38
14.05 98.12 16.53 97.38 21.52 95.59 19.41 97.13 20.09 94.55
"""
ULYSSES16 = """
38.24 20.42 39.57 26.15 40.56 25.32 36.26 23.12 33.48 10.54 37.56 12.19 38.42 13.11 37.52 20.44 41.23 9.10
41.17 13.05 36.08 -5.21 38.47 15.13 38.15 15.35 37.51 15.17 35.49 14.32 39.36 19.56
"""
GR17 = """
0 633 0 257 390 0 91 661 228 0 412 227 169 383 0 150 488 112 120 267 0 80 572 196 77 351 63 0 134 530 154 105
309 34 29 0 259 555 372 175 338 264 232 249 0 505 289 262 476 196 360 444 402 495 0 353 282 110 324 61 208 292
250 352 154 0 324 638 437 240 421 329 297 314 95 578 435 0 70 567 191 27 346 83 47 68 189 439 287 254 0 211
466 74 182 243 105 150 108 326 336 184 391 145 0 268 420 53 239 199 123 207 165 383 240 140 448 202 57 0 246
745 472 237 528 364 332 349 202 685 542 157 289 426 483 0 121 518 142 84 297 35 29 36 236 390 238 301 55 96
153 336 0
"""


def geographical(text: str) -> list[list[float]]:
    """TSPLIB's GEO: whole kilometres on a sphere of 6378.388 km, degrees and minutes read as it says."""
    numbers = list(map(float, text.split()))
    spots = [(_radians(numbers[at]), _radians(numbers[at + 1])) for at in range(0, len(numbers), 2)]
    return [[0.0 if a == b else float(_kilometres(a, b)) for b in spots] for a in spots]


def _radians(value: float) -> float:
    degrees = int(value)
    return 3.141592 * (degrees + 5 * (value - degrees) / 3) / 180


def _kilometres(a: tuple[float, float], b: tuple[float, float]) -> int:
    q1, q2, q3 = cos(a[1] - b[1]), cos(a[0] - b[0]), cos(a[0] + b[0])
    return int(6378.388 * acos(0.5 * ((1 + q1) * q2 - (1 - q1) * q3)) + 1)


def triangle(text: str) -> list[list[float]]:
    """A lower triangle by rows, diagonal included."""
    numbers = list(map(float, text.split()))
    size = next(n for n in range(1, 100) if n * (n + 1) // 2 == len(numbers))
    rows = [numbers[n * (n + 1) // 2 : (n + 1) * (n + 2) // 2] for n in range(size)]
    return [[rows[max(a, b)][min(a, b)] for b in range(size)] for a in range(size)]


def test_the_distances_are_tsplibs() -> None:
    assert geographical(ULYSSES16)[0][1] == 509


@pytest.mark.parametrize(
    ("table", "shortest"),
    [(geographical(BURMA14), 2880), (geographical(ULYSSES16), 5201), (triangle(GR17), 1707)],
    ids=["burma14", "ulysses16", "gr17"],
)
def test_an_open_walk_is_within_a_twentieth_of_the_shortest(table, shortest) -> None:
    found = length_of(short_walk(table), table)
    assert shortest <= found <= shortest * 1.05


# --- against python-tsp -----------------------------------------------------------------------------------------------


def plane(count: int, seed: int) -> list[list[float]]:
    """Places strewn over a house of 20 by 12 m, and how far each is from each."""
    rng = Random(seed)
    spots = [complex(rng.uniform(0, 20), rng.uniform(0, 12)) for _ in range(count)]
    return [[abs(a - b) for b in spots] for a in spots]


def homeless(table: list[list[float]]):
    """The same distances with no way home to walk: a closed tour there is an open walk here."""
    numpy = pytest.importorskip("numpy")
    open_table = numpy.array(table)
    open_table[:, 0] = 0
    return open_table


# python-tsp asks for numpy below 2, which other checks here can't have: these two run where it is installed by hand.
@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("count", [5, 9, 12])
def test_up_to_a_dozen_rooms_a_walk_is_within_a_twentieth_of_python_tsps_exact_search(count, seed) -> None:
    exact = pytest.importorskip("python_tsp.exact")
    table = plane(count, seed)
    _, shortest = exact.solve_tsp_dynamic_programming(homeless(table))
    assert shortest - 1e-9 <= length_of(short_walk(table), table) <= shortest * 1.05


@pytest.mark.parametrize("seed", range(3))
def test_of_40_rooms_a_walk_is_within_a_twentieth_of_python_tsps_search(seed) -> None:
    heuristics = pytest.importorskip("python_tsp.heuristics")
    table = plane(40, seed)
    start = list(short_walk(plane(40, seed + 100)))  # anywhere but at our own answer
    _, found = heuristics.solve_tsp_local_search(
        homeless(table), x0=start, perturbation_scheme="two_opt", max_processing_time=1
    )
    assert length_of(short_walk(table), table) <= found * 1.05
