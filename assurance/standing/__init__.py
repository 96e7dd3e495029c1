"""Whether evidence, words and answers stand: what a record says of itself, judged on the day of the case."""
