"""Private keys at rest."""

from dataclasses import replace

import pytest
from cryptography.hazmat.primitives.kdf.argon2 import Argon2id

from crewtrack.records.credentials import LEAST, Cost, Owner, Wrapped, unwrap, wrap
from crewtrack.records.signatures import SigningKey

WORDS = "heron lantern tide"


@pytest.fixture
def key() -> SigningKey:
    return SigningKey.new("K-01")


@pytest.fixture
def owner(key: SigningKey) -> Owner:
    return Owner("act-1", "K-01", key.key, key.public)


@pytest.fixture
def wrapped(key: SigningKey, owner: Owner) -> Wrapped:
    return wrap(key, owner, WORDS)


def test_argon2id_is_that_of_the_published_test() -> None:
    # RFC 9106, section 5.3.
    made = Argon2id(
        salt=b"\x02" * 16, length=32, iterations=3, lanes=4, memory_cost=32,
        secret=b"\x03" * 8, ad=b"\x04" * 12,
    )  # fmt: skip
    assert made.derive(b"\x01" * 32).hex() == (
        "0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659"
    )


def test_the_usual_cost_is_at_least_what_is_recommended() -> None:
    # OWASP Password Storage Cheat Sheet: 19 MiB of memory, two passes, one lane.
    assert LEAST == (19 * 1024, 2, 1)
    usual = Cost()
    assert usual.memory >= 19_456
    assert usual.passes >= 2


def test_the_right_passphrase_opens_the_key(
    key: SigningKey, owner: Owner, wrapped: Wrapped
) -> None:
    opened = unwrap(wrapped, owner, WORDS)
    assert opened is not None
    assert (opened.by, opened.key, opened.public) == ("K-01", key.key, key.public)
    assert opened.secret() == key.secret()


def test_neither_the_passphrase_nor_the_secret_stands_in_what_is_kept(
    key: SigningKey, wrapped: Wrapped
) -> None:
    kept = wrapped.salt + wrapped.nonce + wrapped.wrapped
    assert key.secret() not in kept
    assert WORDS.encode() not in kept


@pytest.mark.parametrize("other", ["", "heron lantern tid", "Heron lantern tide", WORDS + " "])
def test_no_other_passphrase_opens_it(owner: Owner, wrapped: Wrapped, other: str) -> None:
    assert unwrap(wrapped, owner, other) is None


def test_it_opens_for_its_owner_in_its_record_alone(owner: Owner, wrapped: Wrapped) -> None:
    for other in (
        replace(owner, record="act-2"),
        replace(owner, person="K-02"),
        replace(owner, key="0" * 32),
        replace(owner, public=SigningKey.new("K-01").public),
    ):
        assert unwrap(wrapped, other, WORDS) is None


def test_another_key_in_its_place_is_not_taken(owner: Owner) -> None:
    other = wrap(SigningKey.new("K-01"), owner, WORDS)
    assert unwrap(other, owner, WORDS) is None


@pytest.mark.parametrize("cost", [Cost(8, 2, 1), Cost(19_456, 1, 1), Cost(2**30, 2, 1)])
def test_one_that_is_too_cheap_or_absurd_is_not_tried(
    owner: Owner, wrapped: Wrapped, cost: Cost
) -> None:
    assert unwrap(replace(wrapped, cost=cost), owner, WORDS) is None


def test_a_damaged_wrapping_opens_nothing(owner: Owner, wrapped: Wrapped) -> None:
    for damaged in (
        replace(wrapped, wrapped=wrapped.wrapped[:-1]),
        replace(wrapped, wrapped=bytes(len(wrapped.wrapped))),
        replace(wrapped, nonce=b"short"),
        replace(wrapped, salt=b""),
    ):
        assert unwrap(damaged, owner, WORDS) is None
