"""Private keys at rest: each is wrapped under a key that Argon2id makes of a passphrase.

The passphrase itself is stored nowhere, and nothing else tells a right one from a wrong one than
that the wrapped key opens. A wrapping is bound to its record, person and public key, so that one
that is copied from elsewhere opens nothing here; and what opens must still belong to the public
key that stands in the journal. Parameters: OWASP Password Storage Cheat Sheet (Argon2id, at least
19 MiB, two passes, one lane); RFC 9106; RFC 8439 for the wrapping (ChaCha20-Poly1305).
"""

import os
from dataclasses import dataclass
from typing import Final

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import ChaCha20Poly1305
from cryptography.hazmat.primitives.kdf.argon2 import Argon2id
from sqlalchemy import Connection

from crewtrack.records.canonical import canonical
from crewtrack.records.connecting import fetch
from crewtrack.records.signatures import SigningKey

LEAST: Final = (19_456, 2, 1)
"""KiB of memory, passes and lanes below which no wrapping is made or opened."""
_MOST: Final = (4_194_304, 64, 64)
"""Beyond these somebody wants to keep the machine busy."""
_SALT, _NONCE, _KEY = 16, 12, 32
_COLUMNS: Final = "key, salt, memory, passes, lanes, nonce, wrapped, tries, tried"


@dataclass(frozen=True, slots=True)
class Cost:
    """What one try costs: KiB of memory, passes over it, lanes."""

    memory: int = 65_536
    passes: int = 2
    lanes: int = 1

    def sound(self) -> bool:
        """Whether it is neither too cheap nor absurd."""
        values = (self.memory, self.passes, self.lanes)
        return all(
            least <= value <= most for least, value, most in zip(LEAST, values, _MOST, strict=True)
        )


USUAL: Final = Cost()
"""What a new wrapping costs to try: some tenths of a second."""


@dataclass(frozen=True, slots=True)
class Owner:
    """Whose key it is, in which record (``record`` is the id of its first act)."""

    record: str
    person: str
    key: str
    public: str

    def binding(self) -> bytes:
        """What a wrapping is bound to."""
        return canonical(
            {"record": self.record, "person": self.person, "key": self.key, "public": self.public}
        ).encode()


@dataclass(frozen=True, slots=True)
class Wrapped:
    """A private key at rest. ``tries`` counts wrong passphrases in a row, ``tried`` is the UTC
    text of the last one."""

    key: str
    salt: bytes
    cost: Cost
    nonce: bytes
    wrapped: bytes
    tries: int = 0
    tried: str | None = None


def wrap(secret: SigningKey, owner: Owner, passphrase: str, cost: Cost | None = None) -> Wrapped:
    """Wrap a private key under a passphrase."""
    cost = cost or USUAL
    salt, nonce = os.urandom(_SALT), os.urandom(_NONCE)
    sealing = ChaCha20Poly1305(_derived(passphrase, salt, cost))
    wrapped = sealing.encrypt(nonce, secret.secret(), owner.binding())
    return Wrapped(owner.key, salt, cost, nonce, wrapped)


def unwrap(held: Wrapped, owner: Owner, passphrase: str) -> SigningKey | None:
    """The private key; None where the passphrase is wrong, or the wrapping is not this owner's."""
    if not held.cost.sound():
        return None
    try:
        opening = ChaCha20Poly1305(_derived(passphrase, held.salt, held.cost))
        secret = opening.decrypt(held.nonce, held.wrapped, owner.binding())
        key = SigningKey.of(owner.person, secret)
    except (InvalidTag, ValueError):
        return None
    return key if key.public == owner.public and key.key == owner.key else None


def _derived(passphrase: str, salt: bytes, cost: Cost) -> bytes:
    made = Argon2id(
        salt=salt, length=_KEY, iterations=cost.passes, lanes=cost.lanes, memory_cost=cost.memory
    )
    return made.derive(passphrase.encode())


def held(connection: Connection, key: str) -> Wrapped | None:
    """The wrapping of a key; None where there is none."""
    rows = fetch(connection, f"SELECT {_COLUMNS} FROM credentials WHERE key = ?", (key,))
    for name, salt, memory, passes, lanes, nonce, wrapped, tries, tried in rows:
        return Wrapped(name, salt, Cost(memory, passes, lanes), nonce, wrapped, tries, tried)
    return None


def put(connection: Connection, wrapped: Wrapped) -> None:
    """Store a wrapping in place of the key's last one."""
    cost = wrapped.cost
    connection.exec_driver_sql(
        f"INSERT OR REPLACE INTO credentials ({_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (wrapped.key, wrapped.salt, cost.memory, cost.passes, cost.lanes, wrapped.nonce,
         wrapped.wrapped, wrapped.tries, wrapped.tried),
    )  # fmt: skip


def drop(connection: Connection, key: str) -> None:
    """Forget a wrapping: its private key is gone for good."""
    connection.exec_driver_sql("DELETE FROM credentials WHERE key = ?", (key,))


def tried(connection: Connection, key: str, tries: int, at: str | None) -> None:
    """Note how often in a row a wrong passphrase was tried, and when last."""
    connection.exec_driver_sql(
        "UPDATE credentials SET tries = ?, tried = ? WHERE key = ?", (tries, at, key)
    )
