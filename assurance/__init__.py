"""Holdwater: an assurance case and risk analysis as YAML, worked out and published as a static site."""

__version__ = "0.1.0"
