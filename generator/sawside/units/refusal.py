"""What a refusal is made of: its words, safe to print, and the digits that letters were taken for."""

import re


class NotUnderstood(ValueError):
    """A quantity that cannot be read: what is wrong, what to write, and which part of the text (start, length)."""

    def __init__(self, what: str, hint: str, start: int = 0, length: int = 1) -> None:
        super().__init__(_printable(what))
        self.what, self.hint = _printable(what), _printable(hint)
        self.start, self.length = start, max(1, length)


def _printable(words: str) -> str:
    """Return words with control characters made visible: they quote what was written."""
    return "".join(c if c.isprintable() else " " if c.isspace() else "?" for c in words)


#: Letters taken for digits.
_LOOKALIKES = {"O": "0", "o": "0", "I": "1", "l": "1", "|": "1"}
#: A first word of digits and at least one of those letters.
LETTERS_IN_NUMBER = re.compile(r"(?=\S*[OoIl|])[0-9OoIl|.]+(?:\s|$)")


def digits(text: str) -> str:
    """Return the advice to write digits where letters look like them."""
    number, _, rest = text.partition(" ")
    for letter, digit in _LOOKALIKES.items():
        number = number.replace(letter, digit)
    return f"write the digits 0 and 1, not the letters O and l: {number} {rest}".rstrip()
