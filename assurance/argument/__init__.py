"""One claim: its checks, its arguments, the sets it speaks of, and what is laid on it."""
