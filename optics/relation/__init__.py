"""The symbolic engine: an equation is declared once and everything else comes from it.

A `Relation` holds a published equation and its *authored* solved forms. Nothing is
solved or simplified while the program runs: the test suite proves each form against
its equation, and this package only differentiates, compiles and prints. From one form
come the value, all partial derivatives, the LaTeX and the worked substitution.
"""

from optics.relation.bound import Bound
from optics.relation.form import Called, Form, Steps
from optics.relation.formula import Formula, Relation
from optics.relation.quantity import Quantity
from optics.relation.range import Array, Given, Range
from optics.relation.root import Root

__all__ = [
    "Array",
    "Bound",
    "Called",
    "Form",
    "Formula",
    "Given",
    "Quantity",
    "Range",
    "Relation",
    "Root",
    "Steps",
]
