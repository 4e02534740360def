"""Sentences about the making up of a toy or a thing: eyes placed, limbs sewn on, wire put in. They ask for no stitch."""

from __future__ import annotations

from .cursor import Cursor

_VERBS = frozenset(
    "place insert attach put position add sew fix glue embroider stitch pin secure use join thread push slide tie wrap draw give".split()  # noqa: SIM905
)
_THINGS = frozenset(
    "eye eyes nose nostril nostrils mouth smile cheek cheeks eyebrows eyelids eyelashes eyelash ear ears snout muzzle beak leg legs arm arms foot feet paw paws "  # noqa: SIM905, E501
    "wing wings fin fins flipper flippers head body belly horn horns antenna antennae hair mane whisker whiskers face safety washer washers wire bead beads "  # noqa: E501
    "button buttons felt magnet keyring keychain ribbon zipper zip lining elastic bell rattle squeaker pellets cardboard interfacing clasp snap charm "  # noqa: E501
    "pom pompom pompoms tassel tassels bow leaf leaves stem stalk hat scarf collar spots patch".split()
)
_WORK = frozenset(("st", "ch", "inc", "dec", "skip", "grp", "mring", "turn"))


def made_up(c: Cursor, end: int) -> bool:
    """Whether the sentence that begins here tells of the making up: a verb of it, a thing it is done to, and no stitch to work."""
    first = c.t[c.i]
    words = {str(first.val), first.text.lower()}
    if not words & _VERBS and not (first.kind == "idle" and c.look().text.lower() in _VERBS):
        return False
    found = False
    k = c.i
    while k < end and c.t[k].kind not in (".", "!", ";"):
        token = c.t[k]
        if token.kind in _WORK and token.text.lower() not in ("stitch", "leaf", "leaves", "bow"):
            return False
        found = found or (k > c.i and token.text.lower() in _THINGS)
        k += 1
    return found
