"""A signed paper may be a plain PDF or a photograph; a PDF that acts or carries something is refused."""

from __future__ import annotations

import io

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name
from PIL import Image
from werkzeug.datastructures import FileStorage

from hub.web.uploads import document
from hub.words import Refused


def sent(data):
    return FileStorage(io.BytesIO(data), filename="permission.pdf")


def pdf(change=lambda made: None, **options):
    made = pikepdf.new()
    made.add_blank_page(page_size=(200, 200))
    change(made)
    body = io.BytesIO()
    made.save(body, **options)
    return body.getvalue()


def script(made):
    made.Root.OpenAction = made.make_indirect(Dictionary(S=Name.JavaScript, JS="app.alert(1)"))


def launch(made):
    made.Root.OpenAction = Dictionary(S=Name.Launch, F="cmd.exe")


def cargo(made):
    made.attachments["x.exe"] = pikepdf.AttachedFileSpec(made, b"MZ", filename="x.exe")


def sends(made):
    action = Dictionary(S=Name.SubmitForm, F="http://example.org")
    made.pages[0].AA = Dictionary(O=action)


def xfa(made):
    made.Root.AcroForm = Dictionary(XFA=made.make_stream(b"<xdp/>"), Fields=Array([]))


def refusal_of(data):
    with pytest.raises(Refused) as refused:
        document(sent(data))
    return str(refused.value)


@pytest.mark.parametrize("packed", [pikepdf.ObjectStreamMode.disable, pikepdf.ObjectStreamMode.generate])
def test_a_plain_pdf_is_kept_byte_for_byte(packed):
    body = pdf(object_stream_mode=packed)
    found = document(sent(body))
    assert (found.body, found.ending) == (body, "pdf")


@pytest.mark.parametrize("packed", [pikepdf.ObjectStreamMode.disable, pikepdf.ObjectStreamMode.generate])
@pytest.mark.parametrize("change", [script, launch, cargo, sends, xfa])
def test_a_pdf_that_acts_or_carries_is_refused_in_the_open_and_packed(change, packed):
    assert "print it to a plain PDF" in refusal_of(pdf(change, object_stream_mode=packed))


def test_a_name_behind_escapes_is_still_seen():
    body = pdf(script, object_stream_mode=pikepdf.ObjectStreamMode.disable)
    assert b"/JavaScript" in body
    hidden = body.replace(b"/JavaScript", b"/J#61v#61Script")
    assert "print it to a plain PDF" in refusal_of(hidden)


def test_words_about_such_things_are_no_such_things():
    def write(made):
        made.pages[0].Contents = made.make_stream(b"BT (JavaScript and Launch, /Jav) Tj ET")

    assert document(sent(pdf(write))).ending == "pdf"


def test_a_locked_pdf_is_refused():
    assert "password" in refusal_of(pdf(encryption=pikepdf.Encryption(owner="a", user="b")))


def test_objects_packed_in_another_way_are_refused():
    body = pdf(script, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    packed = body.replace(b"/FlateDecode", b"/LZWDecode  ")
    assert refusal_of(packed)


def test_a_pdf_cut_short_is_refused():
    body = pdf()
    assert "cut short" in refusal_of(body[: len(body) // 2])


def test_a_photograph_of_the_paper_is_drawn_anew():
    body = io.BytesIO()
    Image.new("RGB", (90, 60)).save(body, "PNG")
    found = document(sent(body.getvalue()))
    assert found.ending == "webp"
    assert found.picture.width == 90


@pytest.mark.parametrize("data", [b"", b"MZ" + bytes(99), b"<html>", b" %PDF-1.7 %%EOF"])
def test_anything_else_is_refused(data):
    assert "Please send a PDF" in refusal_of(data)


def test_a_file_beyond_the_limit_is_refused():
    assert "at most 10 MB" in refusal_of(b"%PDF-1.7\n" + bytes(10 * 1024 * 1024) + b"%%EOF")


def test_a_pdf_of_our_own_passes(tmp_path):
    from hub.web.pdf import pdf_of

    assert document(sent(pdf_of("<html lang='en'><title>x</title><h1>Permission</h1></html>", tmp_path))).body
