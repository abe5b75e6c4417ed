"""Calculations of the trade: pure functions, one module a subject.

Exact fractions where a tape or a table speaks in fractions, floats elsewhere. A name that ends in `_in`, `_ft`, `_mm`
or `_f` carries its unit; without one, all lengths of a call are in one unit. Limits and factors are arguments, or a
function says which row of the criteria files applies; the few tables and conditions that those files do not have stand
in their module with their source. What a figure means is for a verdict to say (`narrator.measure.verdict`).
"""
