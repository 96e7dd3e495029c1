"""Serves the published site while it is worked on: watches, tells what changed, and shows the open findings.

What it adds to a page is added on the way to the browser. The published folder never holds it.
"""

from assurance.serving.news import Board, News
from assurance.serving.rounds import Rounds
from assurance.serving.server import PortInUse, serve_site
from assurance.serving.watching import Watch

__all__ = ["Board", "News", "PortInUse", "Rounds", "Watch", "serve_site"]
