"""The commands, a module each. Thin: they read, ask the layers below, and print."""
