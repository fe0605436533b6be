"""Ids of what is new, made so that they may stand in links and in names of files."""

import re
import unicodedata


def plain_name(title: str) -> str:
    """Return a title in plain letters; none where it has none."""
    letters = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", letters.lower()).strip("-")[:40].strip("-")


def name_in_links(title: str, key: str) -> str:
    """Return the id of something new: its title in plain letters, and a part of the form's key.

    The key keeps two of one title apart, and lets a form that is sent twice make one.
    """
    return f"{plain_name(title) or 'job'}-{key[:6]}"
