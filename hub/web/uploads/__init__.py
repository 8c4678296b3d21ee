"""Files from outside, read with care. Each reader gives back values, or refuses in a plain sentence.

Readers are named by the fields of a form: ``photo = Upload(picture)``. Nothing is stored here, and neither
the name nor the claimed type of a file is believed or kept.
"""

from hub.web.uploads.documents import Document, document
from hub.web.uploads.exif import Position
from hub.web.uploads.pictures import Picture, picture
from hub.web.uploads.tables import table

__all__ = ["Document", "Picture", "Position", "document", "picture", "table"]
