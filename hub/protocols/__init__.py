"""The protocol rules and the sheet: what may be taken here, how, and why."""
