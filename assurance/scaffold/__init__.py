"""Writes into a case folder: a new case, a new record, the schema for its editor; never more than asked."""

from assurance.scaffold.new_case import new_case
from assurance.scaffold.new_record import AddedRecord, Refused, add_record
from assurance.scaffold.schema_file import SCHEMA_FILE, schema_text, write_schema

__all__ = ["SCHEMA_FILE", "AddedRecord", "Refused", "add_record", "new_case", "schema_text", "write_schema"]
