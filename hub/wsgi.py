"""The application for a WSGI server, made from the settings in the environment, with its rounds begun."""

from hub.db.policies import refuse_a_mighty_role
from hub.db.revision import refuse_another, seen_by
from hub.rounds import start_rounds
from hub.web import pdf
from hub.web.caller import HOUSE
from hub.wiring import create_app

app = create_app()
house = app.extensions[HOUSE]
refuse_a_mighty_role(house.engine)
with house.engine.connect().execution_options(reads_only=True) as connection:
    refuse_another(seen_by(connection))
start_rounds(house)
pdf.warm()
