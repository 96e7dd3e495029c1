"""What `check` found, written down for a terminal, for a code host and for a build server."""
