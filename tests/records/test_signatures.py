"""Ed25519 against RFC 8032, section 7.1."""

import pytest

from crewtrack.records.signatures import SigningKey, is_signature, key_name

RFC_8032: list[tuple[str, str, str, str]] = [
    # Secret, public, message, signature: tests 1, 2 and 3.
    (
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46b"
        "d25bf5f0595bbe24655141438e7a100b",
    ),
    (
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c"
        "387b2eaeb4302aeeb00d291612bb0c00",
    ),
    (
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc659"
        "4a7c15e9716ed28dc027beceea1ec40a",
    ),
]


@pytest.mark.parametrize(("secret", "public", "message", "signature"), RFC_8032)
def test_keys_and_signatures_are_those_of_the_published_tests(
    secret: str, public: str, message: str, signature: str
) -> None:
    key = SigningKey.of("K-01", bytes.fromhex(secret))
    line = bytes.fromhex(message)
    assert (key.public, key.sign(line)) == (public, signature)
    assert is_signature(public, line, signature)


def test_no_other_line_key_or_signature_will_do() -> None:
    key, other = SigningKey.new("K-01"), SigningKey.new("K-01")
    signature = key.sign(b"hand recovery: passed")
    assert is_signature(key.public, b"hand recovery: passed", signature)
    assert not is_signature(key.public, b"hand recovery: failed", signature)
    assert not is_signature(other.public, b"hand recovery: passed", signature)


@pytest.mark.parametrize("nonsense", ["", "zz", "00", "ab" * 64, "é"])
def test_what_is_no_signature_or_key_is_none(nonsense: str) -> None:
    key = SigningKey.new("K-01")
    assert not is_signature(key.public, b"x", nonsense)
    assert not is_signature(nonsense, b"x", key.sign(b"x"))


def test_a_key_is_named_after_its_public_half() -> None:
    key = SigningKey.new("K-01")
    assert (key.key, len(key.key)) == (key_name(key.public), 32)
