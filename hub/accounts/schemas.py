"""What the account pages ask for."""

from __future__ import annotations

from hub.accounts.rules import LONGEST
from hub.web.fields import Email, Identifier, Password, Schema, Text, Whole


class SignInSchema(Schema):
    email = Email(required=True)
    password = Password(LONGEST, required=True)


class ResetSchema(Schema):
    email = Email(required=True)


class NewPasswordSchema(Schema):
    new = Password(LONGEST, required=True)


class ChangePasswordSchema(NewPasswordSchema):
    current = Password(LONGEST, required=True)


class PasswordSchema(Schema):
    password = Password(LONGEST, required=True)


class CodeSchema(Schema):
    code = Text(60, required=True)


class PasswordAndCodeSchema(CodeSchema):
    password = Password(LONGEST, required=True)


class TokenSchema(Schema):
    name = Text(80, required=True)
    days = Whole(1, 365, unit="days", required=True)
    code = Text(60, load_default="")


class SeatSchema(Schema):
    seat = Identifier(required=True)
