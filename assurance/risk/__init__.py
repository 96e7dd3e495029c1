"""Risk of one hazard and ratings of one failure mode, given the standing of what shows their controls."""
