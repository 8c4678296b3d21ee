"""What a device is called, so that people can tell their sessions apart: no more than browser and system."""

from __future__ import annotations

# In this order: many browsers also claim to be the ones further down.
BROWSERS = {
    "Edg": "Edge",
    "OPR/": "Opera",
    "SamsungBrowser/": "Samsung Internet",
    "Firefox/": "Firefox",
    "FxiOS/": "Firefox",
    "Chrome/": "Chrome",
    "CriOS/": "Chrome",
    "Safari/": "Safari",
}
SYSTEMS = {
    "Android": "Android",
    "iPhone": "iPhone",
    "iPad": "iPad",
    "CrOS": "ChromeOS",
    "Windows": "Windows",
    "Macintosh": "Mac",
    "Linux": "Linux",
}


def device_name(user_agent: str) -> str:
    """``Firefox, Android``; an empty text for what is not known."""
    found = (first_in(names, user_agent) for names in (BROWSERS, SYSTEMS))
    return ", ".join(name for name in found if name)


def first_in(names: dict[str, str], user_agent: str) -> str:
    return next((name for sign, name in names.items() if sign in user_agent), "")
