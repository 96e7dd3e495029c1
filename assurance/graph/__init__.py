"""Order, loops and reach on plain ids, and the formulas that verdicts are worked out by."""
