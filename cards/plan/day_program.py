"""A linear program with whole numbers, solved by HiGHS: the same answer every time."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

import highspy
import numpy as np

Terms = Mapping[int, float]
"""Coefficients by column."""


@dataclass(frozen=True, slots=True)
class Found:
    """Values of all columns, and whether nothing better is left, within the effort's gap."""

    values: tuple[float, ...]
    objective: float
    proven: bool
    bound: float
    """No solution has a lower objective."""


@dataclass(frozen=True, slots=True)
class Effort:
    """How far to search. Nodes and not seconds end it, so that every machine ends alike."""

    nodes: int = 20_000
    seconds: float = 600.0
    """A net for a slow machine only; an answer that it ends is told as not proven."""
    gap: float = 1e-6
    """How far from the best an answer may be: by this part of it, or by ``near``."""
    near: float = 1e-6
    enough: float = -math.inf
    """The search ends with the first answer that is no worse than this."""
    bare: bool = False
    """No search for better answers beside the tree: for a good answer that is to be proven."""


_BARE: tuple[tuple[str, bool | float | int], ...] = (
    ("mip_heuristic_effort", 0.0),
    ("mip_heuristic_run_rins", False),
    ("mip_heuristic_run_rens", False),
    ("mip_heuristic_run_root_reduced_cost", False),
    ("mip_pscost_minreliable", 0),
)


@dataclass(slots=True)
class Program:
    """Columns with bounds and rows, added one by one; several things may be asked of it."""

    lower: list[float] = field(default_factory=list)
    upper: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    rows: list[tuple[dict[int, float], float, float]] = field(default_factory=list)

    def column(self, low: float, high: float, *, whole: bool = False) -> int:
        """A new column; its number."""
        self.lower.append(low)
        self.upper.append(high)
        self.whole.append(whole)
        return len(self.lower) - 1

    def row(self, terms: Terms, low: float = -math.inf, high: float = math.inf) -> None:
        """``low <= sum of terms <= high``."""
        self.rows.append((dict(terms), low, high))

    def least(
        self,
        objective: Terms,
        effort: Effort,
        start: Sequence[float] = (),
        held: Terms = MappingProxyType({}),
    ) -> Found | None:
        """The solution with the least ``objective``; None where none was found.

        ``start`` are the values of a solution that is known, so that there is
        one; columns that are ``held`` keep the value given.
        """
        solver = highspy.Highs()  # type: ignore[no-untyped-call]
        for name, value in (
            ("output_flag", False),
            ("random_seed", 0),
            ("threads", 1),
            ("mip_rel_gap", effort.gap),
            ("mip_abs_gap", effort.near),
            ("mip_max_nodes", effort.nodes),
            ("time_limit", effort.seconds),
            ("objective_target", effort.enough),
        ):
            solver.setOptionValue(name, value)
        for name, value in _BARE if effort.bare else ():
            solver.setOptionValue(name, value)
        solver.passModel(self._model(objective, held))
        if start:
            known = highspy.HighsSolution()
            known.col_value = list(start)
            known.value_valid = True
            solver.setSolution(known)
        solver.run()
        if (
            solver.getInfo().primal_solution_status
            != highspy.SolutionStatus.kSolutionStatusFeasible
        ):
            return None
        values = tuple(float(v) for v in solver.getSolution().col_value)
        proven = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
        reached = sum(c * values[n] for n, c in objective.items())
        return Found(values, reached, proven, min(reached, solver.getInfo().mip_dual_bound))

    def _model(self, objective: Terms, held: Terms) -> highspy.HighsLp:
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = len(self.lower), len(self.rows)
        cost = np.zeros(len(self.lower))
        for column, value in objective.items():
            cost[column] = value
        model.col_cost_ = cost
        lower, upper = np.array(self.lower), np.array(self.upper)
        for column, value in held.items():
            lower[column] = upper[column] = value
        model.col_lower_, model.col_upper_ = lower, upper
        model.row_lower_ = np.array([low for _, low, _ in self.rows])
        model.row_upper_ = np.array([high for _, _, high in self.rows])
        kinds = highspy.HighsVarType
        model.integrality_ = [kinds.kInteger if w else kinds.kContinuous for w in self.whole]
        matrix = model.a_matrix_
        matrix.format_ = highspy.MatrixFormat.kRowwise
        matrix.num_col_, matrix.num_row_ = model.num_col_, model.num_row_
        lengths = [len(terms) for terms, _, _ in self.rows]
        matrix.start_ = np.concatenate(([0], np.cumsum(lengths))).astype(np.int32)
        matrix.index_ = np.array([c for t, _, _ in self.rows for c in t], dtype=np.int32)
        matrix.value_ = np.array([v for t, _, _ in self.rows for v in t.values()], dtype=float)
        return model
