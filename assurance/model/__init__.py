"""Records, quantities and the result types; nothing here reads or writes a file of a case."""
