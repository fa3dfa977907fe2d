"""What the oracles share: the rows of tests/reference that an oracle answers for, recomputed and compared."""
import csv
import math
import os
import sys

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..")
PSI, FOOT, INCH, GPM, ATMOSPHERE = 6894.757293168361, 0.3048, 0.0254, 6.30901964e-5, 101325.0


def read(path):
    with open(os.path.join(ROOT, path), encoding="utf-8") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def number(text):
    return float(text) if text else math.nan


class Checked:
    """Compares, and ends the script: 0 where every row was reproduced and none was forgotten."""

    def __init__(self, script):
        self.script, self.rows, self.values, self.failed = script, set(), 0, 0

    def value(self, path, row, got, want, tolerance, relative):
        self.values += 1
        off = abs(got - want)
        if not off <= tolerance * (abs(want) if relative else 1.0):
            self.failed += 1
            print(f"{path}: {row['case']}: {got!r} here, {want!r} there")

    def table(self, name, relative, recompute, tolerance="tolerance", want="expected"):
        """recompute(row) gives a number, or a dict of columns to numbers, for each row that names this script."""
        path = f"tests/reference/{name}.csv"
        count = 0
        for place, row in enumerate(read(path)):
            if self.script not in row["source"]:
                continue
            got = recompute(row)
            for column, value in (got if isinstance(got, dict) else {want: got}).items():
                expected = number(row[column])
                if not math.isnan(expected):
                    count += 1
                    self.rows.add((path, place))
                    self.value(path, row, value, expected, float(row[tolerance]), relative)
        if count == 0:
            self.failed += 1
            print(f"{path}: nothing compared for {self.script}")

    def end(self):
        print(f"{self.script}: {len(self.rows)} rows, {self.values} values, {self.failed} not reproduced")
        sys.exit(1 if self.failed else 0)
