"""Ed25519 (RFC 8032): the keys that people sign with, and whether a signature is theirs.

A private key is held in memory for one act and never stored as it is; see ``credentials``.
"""

from hashlib import sha256
from typing import Final, Self

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

_NAME: Final = 32
"""Hex digits of a key's name."""


def key_name(public: str) -> str:
    """A key's name: the first half of the SHA-256 of its public half (64 hex digits)."""
    return sha256(bytes.fromhex(public)).hexdigest()[:_NAME]


def is_signature(public: str, line: bytes, signature: str) -> bool:
    """Whether a signature (128 hex digits) of a line was made with the private half that belongs
    to a public key (64 hex digits). What is neither is no signature."""
    try:
        key = Ed25519PublicKey.from_public_bytes(bytes.fromhex(public))
        key.verify(bytes.fromhex(signature), line)
    except (InvalidSignature, ValueError, TypeError):
        return False
    return True


class SigningKey:
    """A private key, unlocked. ``by`` is the key of the person whose it is."""

    def __init__(self, by: str, private: Ed25519PrivateKey) -> None:
        self.by = by
        self._private = private
        self.public = private.public_key().public_bytes_raw().hex()
        self.key = key_name(self.public)

    @classmethod
    def new(cls, by: str) -> Self:
        """A key that nobody has had before."""
        return cls(by, Ed25519PrivateKey.generate())

    @classmethod
    def of(cls, by: str, secret: bytes) -> Self:
        """A key from its 32 secret bytes; ValueError for anything else."""
        return cls(by, Ed25519PrivateKey.from_private_bytes(secret))

    def secret(self) -> bytes:
        """The 32 secret bytes, to be wrapped at once."""
        return self._private.private_bytes_raw()

    def sign(self, line: bytes) -> str:
        """The signature of a line, in hex digits."""
        return self._private.sign(line).hex()
