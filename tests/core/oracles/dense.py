"""The forecast's sums a second way: one dense Gaussian over every knot, bead, step of tension and shared unknown.

numpy, written apart from the program's own: no running sums, no growing factor; the whole piece is written out as one
vector of independent standard normals, every length as a row of coefficients on them, and conditioned in one go.
"""

from __future__ import annotations

import numpy as np

from companion.core.values.design import Bead, Knot, Space


class Dense:
    def __init__(self, plan, assumptions):
        self.plan, self.a = plan, assumptions
        self.piece_cv = assumptions.practised_piece_cv if plan.cord.practised else assumptions.piece_cv
        self.unknowns = []  # names of independent standard normals
        self.rows = {}
        self.knots_mm = {}
        for entry, strand in enumerate(plan.strands):
            self._entry(entry, strand)

    def _unknown(self, name):
        if name not in self.unknowns:
            self.unknowns.append(name)
        return self.unknowns.index(name)

    def _entry(self, entry, strand):
        a = self.a
        knots = sum(isinstance(e, Knot) for e in strand.elements)
        tied = [self.plan.cord.knot(e.kind).length_mm for e in strand.elements if isinstance(e, Knot)]
        self.knots_mm[entry] = sum(tied)
        strand_mean, cord_mean, row_s, row_c = 0.0, 0.0, {}, {}
        self.rows[entry, 0] = (0.0, 0.0, {}, {})
        tension, made = {}, 0
        for number, element in enumerate(strand.elements, start=1):
            w, t = {}, {}
            if isinstance(element, Space):
                length = element.length_mm
                take = 0.0
            elif isinstance(element, Bead):
                length, take = self.plan.bead(element.key).length_mm, 0.0
                w[self._unknown(("lot", element.key))] = a.bead_lot_cv * length
                w[self._unknown(("bead", entry, number))] = a.bead_scatter_cv * length
            else:
                made += 1
                f = self.plan.cord.knot(element.kind)
                length, take = f.length_mm, f.take_up_mm
                pairs = (
                    (("card", element.kind), f.length_sd_mm, f.take_up_sd_mm, a.knot_correlation),
                    (("piece",), self.piece_cv * length, self.piece_cv * take, a.piece_correlation),
                    (("knot", entry, number), f.length_scatter_mm, f.take_up_scatter_mm, a.knot_correlation),
                )
                for name, sd_w, sd_t, rho in pairs:  # correlated pair from two independent ones
                    w[self._unknown((*name, 0))] = sd_w
                    t[self._unknown((*name, 0))] = rho * sd_t
                    t[self._unknown((*name, 1))] = np.sqrt(1 - rho * rho) * sd_t
                tension[self._unknown(("walk", entry, made))] = a.tension_walk_by_end_cv / np.sqrt(knots)
                for unknown, weight in tension.items():
                    w[unknown] = w.get(unknown, 0) + weight * length
                    t[unknown] = t.get(unknown, 0) + weight * take
            strand_mean += length
            cord_mean += length + take
            row_s, row_c = dict(row_s), dict(row_c)
            for unknown, weight in w.items():
                row_s[unknown] = row_s.get(unknown, 0) + weight
                row_c[unknown] = row_c.get(unknown, 0) + weight
            for unknown, weight in t.items():
                row_c[unknown] = row_c.get(unknown, 0) + weight
            self.rows[entry, number] = (strand_mean, cord_mean, row_s, row_c)

    def condition(self, readings, wanted):
        """A reading: entry, elements, "strand" or "cord", value, its variance; wanted: lists of entry, elements, which;
        "settled" is a whole strand as it will be worn.

        Mean and sd of each wanted sum.
        """
        n = len(self.unknowns)
        size = n + 2 + len(readings)  # and the ruler's scale, each reading's own noise, and how knots settle
        table, values, means = np.zeros((len(readings), size)), [], []
        for number, (entry, elements, which, value, noise) in enumerate(readings):
            strand_mean, cord_mean, row_s, row_c = self.rows[entry, elements]
            for unknown, weight in (row_s if which == "strand" else row_c).items():
                table[number, unknown] = weight
            if which == "strand":
                table[number, n] = self.a.strand_scale_cv * strand_mean
            table[number, n + 1 + number] = np.sqrt(noise)
            values.append(value)
            means.append(strand_mean if which == "strand" else cord_mean)
        results = []
        for sums in wanted:
            row, mean = np.zeros(size), 0.0
            for entry, elements, which in sums:
                strand_mean, cord_mean, row_s, row_c = self.rows[entry, elements]
                mean += cord_mean if which == "cord" else strand_mean
                if which == "settled":
                    mean -= self.a.settling_share * self.knots_mm[entry]
                    row[n + 1 + len(readings)] += self.a.settling_cv * self.knots_mm[entry]
                for unknown, weight in (row_c if which == "cord" else row_s).items():
                    row[unknown] += weight
            if readings:
                gain = np.linalg.solve(table @ table.T, table @ row)
                mean += gain @ (np.array(values) - np.array(means))
                left = row - table.T @ gain
            else:
                left = row
            results.append((mean, float(np.sqrt(left @ left))))
        return results


def closures_knots_mm(plan, entry, number):
    """The knots that French wire has tied among the beads after so many steps, mm: written out as letters, the gap
    behind each of the three outermost beads has one knot at least, and the last of the end's own is one more."""
    strand = plan.strands[entry]
    step = strand.steps[number - 1]
    letters = "".join({"Bead": "b", "Knot": "k", "Space": "s"}[type(one).__name__] for one in strand.elements)
    count = 0
    if strand.start_closure.startswith("French"):
        count += sum("k" not in gap for gap in letters[: step.elements].split("b")[1:4])
    closes = [one.number for one in strand.steps if one.closes]
    if strand.end_closure.startswith("French") and step.elements and number >= closes[0]:
        count += 3 - sum("k" in gap for gap in letters[::-1].split("b")[1:3])
    return count * plan.cord.single.length_mm
