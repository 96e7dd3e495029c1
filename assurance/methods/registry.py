"""Every method that is offered, by name. Importing this imports no numerical library."""

from assurance.methods import agreement, allowables, reserve_factors
from assurance.model.methods import Method

METHODS: dict[str, Method] = {
    method.name: method for method in (agreement.METHOD, allowables.METHOD, reserve_factors.METHOD)
}
