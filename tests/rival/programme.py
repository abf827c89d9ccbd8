"""Columns and rows of a mixed-integer programme in the making, and HiGHS to solve it.

Must not know what the columns stand for.
"""

from __future__ import annotations

import highspy
import numpy as np

#: Columns with their factors, and a constant.
Expr = tuple[dict[int, float], float]


class Programme:
    """Columns and rows in the making."""

    def __init__(self) -> None:
        self.cost: list[float] = []
        self.upper: list[float] = []
        self.whole: list[bool] = []
        self.rows: list[tuple[dict[int, float], float, float]] = []
        self.constant = 0.0

    def column(self, cost: float = 0, *, whole: bool = False, upper: float = 1) -> int:
        """A new column from 0 to `upper`; gives its place."""
        self.cost.append(cost)
        self.upper.append(upper)
        self.whole.append(whole)
        return len(self.cost) - 1

    def row(self, expr: Expr, least: float = -np.inf, most: float = np.inf) -> None:
        """`expr` is to lie from `least` to `most`."""
        parts, constant = expr
        self.rows.append((parts, least - constant, most - constant))

    def pay(self, expr: Expr, points: float) -> None:
        """Each whole of `expr` costs `points`."""
        for column, factor in expr[0].items():
            self.cost[column] += points * factor
        self.constant += points * expr[1]

    def solver(self, limit: float) -> highspy.Highs:
        """HiGHS with the programme in it, on one thread, for `limit` seconds."""
        highs = highspy.Highs()
        highs.setOptionValue("output_flag", False)
        highs.setOptionValue("time_limit", limit)
        highs.setOptionValue("threads", 1)
        highs.setOptionValue("mip_rel_gap", 0.0)
        # The objective is in whole tenths.
        highs.setOptionValue("mip_abs_gap", 0.9)
        highs.passModel(self._lp())
        return highs

    def _lp(self) -> highspy.HighsLp:
        lp = highspy.HighsLp()
        lp.num_col_, lp.num_row_ = len(self.cost), len(self.rows)
        lp.col_cost_, lp.col_upper_ = np.array(self.cost), np.array(self.upper)
        lp.col_lower_ = np.zeros(len(self.cost))
        lp.offset_ = self.constant
        kinds = highspy.HighsVarType
        lp.integrality_ = [kinds.kInteger if whole else kinds.kContinuous for whole in self.whole]
        lp.row_lower_ = np.array([row[1] for row in self.rows])
        lp.row_upper_ = np.array([row[2] for row in self.rows])
        lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        lp.a_matrix_.start_ = np.cumsum([0] + [len(row[0]) for row in self.rows])
        lp.a_matrix_.index_ = np.array([column for row in self.rows for column in row[0]], dtype=np.int32)
        lp.a_matrix_.value_ = np.array([factor for row in self.rows for factor in row[0].values()], dtype=float)
        return lp


def plus(*parts: tuple[float, Expr]) -> Expr:
    """A weighted sum."""
    columns: dict[int, float] = {}
    constant = 0.0
    for weight, (own, rest) in parts:
        constant += weight * rest
        for column, factor in own.items():
            columns[column] = columns.get(column, 0) + weight * factor
    return columns, constant


def one(column: int) -> Expr:
    """A column by itself."""
    return {column: 1.0}, 0.0


def number(value: float) -> Expr:
    """A constant."""
    return {}, value
