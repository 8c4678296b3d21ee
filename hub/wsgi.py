"""The application for a WSGI server, made from the settings in the environment, with its rounds begun."""

from hub.db.policies import refuse_a_mighty_role
from hub.rounds import start_rounds
from hub.web import pdf
from hub.web.caller import HOUSE
from hub.wiring import create_app

app = create_app()
refuse_a_mighty_role(app.extensions[HOUSE].engine)
start_rounds(app.extensions[HOUSE])
pdf.warm()
