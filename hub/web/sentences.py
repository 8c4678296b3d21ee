"""What each kind of problem means in plain words: what was wrong, and what to do next."""

from __future__ import annotations

from dataclasses import dataclass

from hub.words import Words, say


@dataclass(frozen=True)
class Explanation:
    """The words of one problem page."""

    title: Words
    what: Words
    next: Words


GO_BACK = say("Go back with your browser’s back button: what you typed should still be there.")
LOAD_AGAIN = say("Load the page again and look at what it shows now. Nothing of yours was changed.")

EXPIRED = Explanation(
    say("This page was open too long"),
    say("A form works only for a while, and only in the browser that opened it. Nothing was saved."),
    say("Go back, copy what you typed, load the page again and send it once more."),
)
CHANGED_MEANWHILE = Explanation(
    say("Somebody was quicker"),
    say("Somebody else changed this at the same moment, or it exists already. Nothing was saved."),
    say("Go back, load the page again to see what changed, then decide again."),
)

BY_STATUS: dict[int, Explanation] = {
    400: Explanation(
        say("This could not be read"),
        say("The page that was sent, or its address, was damaged or incomplete. Nothing was saved."),
        GO_BACK,
    ),
    401: Explanation(
        say("Please sign in"),
        say("You are not signed in, or were signed out after a while without activity. Nothing was saved."),
        say("Sign in, then go back and send it once more."),
    ),
    403: Explanation(
        say("Not with this seat"),
        say("The seat that you work in does not allow this. Nothing was changed."),
        say("Change to another seat at the top of the page if you have one, or ask whoever runs your group."),
    ),
    404: Explanation(
        say("Nothing here"),
        say("There is nothing at this address, or nothing that you may see."),
        say("Check the address, or start again from the first page."),
    ),
    405: Explanation(
        say("Not this way"),
        say("This address cannot be used in this way. Nothing was changed."),
        say("Open the page from the menu and use its buttons."),
    ),
    406: Explanation(
        say("Not in this form"),
        say("This cannot be had in the form that was asked for."),
        say("Open the page from the menu and choose a form that it offers."),
    ),
    409: Explanation(say("This cannot be done now"), CHANGED_MEANWHILE.what, LOAD_AGAIN),
    410: Explanation(
        say("No longer here"),
        say("This link was used already, was withdrawn, or has run out."),
        say("Ask whoever sent it to you for a new one."),
    ),
    412: Explanation(
        say("Changed since you looked"),
        say("This was changed after you opened it, so your change was not made."),
        LOAD_AGAIN,
    ),
    413: Explanation(
        say("This is too large"),
        say("What was sent is larger than this hub takes in. Nothing was saved."),
        say("Choose a smaller file, or send fewer at once."),
    ),
    414: Explanation(
        say("This address is too long"),
        say("The address holds more than this hub reads."),
        say("Ask for less at once, for example with fewer filters."),
    ),
    415: Explanation(
        say("This kind of file cannot be read"),
        say("What was sent is not of a kind that is taken here. Nothing was saved."),
        GO_BACK,
    ),
    422: Explanation(
        say("Something needs another look"),
        say("What was sent could not be used as it stands. Nothing was saved."),
        GO_BACK,
    ),
    428: Explanation(
        say("Please look first"),
        say("Changing this needs to know which version you looked at. Nothing was changed."),
        LOAD_AGAIN,
    ),
    429: Explanation(
        say("Too often in a short time"),
        say("This was tried too often in a short time. Nothing was changed."),
        say("Wait a while, then try again."),
    ),
    431: Explanation(
        say("This could not be read"),
        say("Your browser sent more beside the page than this hub reads."),
        say("Delete this site’s cookies in your browser, then sign in again."),
    ),
    500: Explanation(
        say("Something broke on our side"),
        say("This was not your fault. Nothing was saved by this step; what was saved before is safe."),
        say("Go back and try again in a few minutes."),
    ),
    503: Explanation(
        say("Not available just now"),
        say("This cannot be done at the moment. Nothing was changed."),
        say("Try again in a few minutes."),
    ),
}


def explanation(status: int, description: Words | str | None = None) -> Explanation:
    """The words for a status. A ``Words`` given to ``abort`` takes the place of the general sentence."""
    found = BY_STATUS.get(status) or BY_STATUS[400 if status < 500 else 503]
    if isinstance(description, Words):
        return Explanation(found.title, description, found.next)
    return found


def refused(words: Words) -> Explanation:
    """The words of a rule that said no, on a page of their own."""
    return Explanation(BY_STATUS[409].title, words, LOAD_AGAIN)
