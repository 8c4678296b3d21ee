"""The demo: the invented Halverin Vale, played through the hub's own actions in the order of its days."""

from hub.demo.building import build, days_ahead_in

__all__ = ["build", "days_ahead_in"]
