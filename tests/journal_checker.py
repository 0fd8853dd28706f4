"""Check an exported journal as DEVELOPERS.md describes it: python tests/journal_checker.py FILE."""

import json
import sys
from hashlib import sha256
from pathlib import Path
from typing import Any

import rfc8785
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

ORDER = """editions people assignments vessels aircraft sorties performances signoffs certifications
    certificates waivers standdowns keys occurrences disputes policies seals""".split()  # noqa: SIM905
MALFORMED = (ValueError, KeyError, IndexError, TypeError, AttributeError)
Told = dict[str, Any]


def check(journal: bytes) -> list[str]:
    acts: list[tuple[Told, list[bytes]]] = []
    wrong: list[str] = []
    keys: dict[str, Told] = {}
    for number, line in enumerate(journal.removesuffix(b"\n").split(b"\n"), start=1):
        try:
            told = json.loads(line)
            if rfc8785.dumps(told) != line:
                raise ValueError("not in canonical form")
            acts.append((told, [])) if "act" in told else acts[-1][1].append(line)
        except MALFORMED as error:
            wrong.append(f"line {number}: {error!r}")
    before = "0" * 64
    for number, (told, lines) in enumerate(acts, start=1):
        try:
            act, rows = told["act"], [json.loads(line) for line in lines]
            own = {"act": act, "digest": sha256(rfc8785.dumps(act)).hexdigest()}
            placed = (act["previous"], act["seq"]) == (before, number)
            if told != own or not placed or not tallied(act, rows, lines):
                wrong.append(f"act {number}: it, its rows or its place are not as they were")
            now = follow(keys, rows)
            if not all(signed(act, one, keys or now) for one in act.get("signatures", [])):
                wrong.append(f"act {number}: a signature is not one of it")
            before, keys = told["digest"], now
        except MALFORMED as error:
            wrong.append(f"act {number}: {error!r}")
    return wrong


def tallied(act: Told, rows: list[Told], lines: list[bytes]) -> bool:
    digests: dict[str, bytes] = {}
    for row, line in zip(rows, lines, strict=True):
        own = bytes.fromhex(row["sealed"]) if "sealed" in row else sha256(line).digest()
        digests[row["kind"]] = digests.get(row["kind"], b"") + own
    tallies = {kind: {"count": len(held) // 32, "digest": sha256(held).hexdigest()}
               for kind, held in digests.items()}  # fmt: skip
    kinds = [row["kind"] for row in rows]
    return act["facts"] == tallies and kinds == sorted(kinds, key=ORDER.index)


def signed(act: Told, one: dict[str, str], keys: dict[str, Told]) -> bool:
    key = keys.get(one["key"], {"public": "", "person": None})
    line = rfc8785.dumps({name: value for name, value in act.items() if name != "signatures"})
    try:
        public = Ed25519PublicKey.from_public_bytes(bytes.fromhex(key["public"]))
        public.verify(bytes.fromhex(one["signature"]), line)
        return bool(key["person"] == one["by"])
    except (InvalidSignature, ValueError):
        return False


def follow(keys: dict[str, Told], rows: list[Told]) -> dict[str, Told]:
    for row in rows:
        if row["kind"] == "keys":
            ended = {"public": "", "person": None}
            keys = {**keys, row["row"]["key"]: ended if "struck" in row else row["row"]}
    return keys


if __name__ == "__main__":
    sys.exit("\n".join(check(Path(sys.argv[1]).read_bytes())) or 0)
