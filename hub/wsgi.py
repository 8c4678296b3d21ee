"""The application for a WSGI server, made from the settings in the environment."""

from hub.wiring import create_app

app = create_app()
