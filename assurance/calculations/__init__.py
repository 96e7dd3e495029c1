"""Binds records to methods: what a calculation uses, and what it gives."""

from assurance.calculations.binding import work_out
from assurance.calculations.properties import properties, property_value
from assurance.calculations.uses import depends

__all__ = ["depends", "properties", "property_value", "work_out"]
