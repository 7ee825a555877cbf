#!/usr/bin/env python3
"""Verifies a book from data/store/FORMAT.md alone: verify_book.py BOOK [CHAIN NUMBER HASH]...

What follows the book are heads noted elsewhere. Exit status: 0 sound, 1 damaged or no book (a line each), 2 used wrongly."""
import datetime
import hashlib
import sqlite3
import sys
import urllib.parse
import zlib

ZEROS = b"0" * 64
FOUR_CENTURIES = 146097 * 86400  # seconds; the calendar repeats


def iso_utc(at):
    centuries, rest = divmod(at, FOUR_CENTURIES)
    moment = datetime.datetime(1970, 1, 1) + datetime.timedelta(seconds=rest)
    year = moment.year + 400 * centuries
    return f"{year:04}-{moment:%m-%dT%H:%M:%SZ}" if 0 <= year <= 9999 else str(at)


def canonical(*fields):
    fields = [field if isinstance(field, bytes) else str(field).encode() for field in fields]
    return b"".join(len(field).to_bytes(4, "big") + field for field in fields)


def walk(book, chain, noted):
    number, before = 0, ZEROS
    heads = book.execute("SELECT number, hash FROM heads WHERE chain = ?", (chain,)).fetchall()
    if len(heads) != 1:
        yield f"{chain}: it has {len(heads)} heads"
    seen = {0: ZEROS}
    rows = book.execute(f"SELECT number, subject, at, who, desk, kind, kind_version, payload, hash FROM {chain} ORDER BY number")
    for found, subject, at, who, desk, kind, version, payload, stated in rows:
        if found != number + 1:
            yield f"{chain} {number + 1}: it is missing; the next number there is {found}"
        fields = canonical(chain, found, subject, iso_utc(at), who, desk, kind, version, payload, before)
        if hashlib.sha256(fields).hexdigest().encode() != stated:
            yield f"{chain} {found}: its hash is not that of what it says after the entry before it"
        number, before = found, stated
        seen[found] = stated
    if heads and heads[0] != (number, before):
        yield f"{chain}: it does not end where its head says"
    for name, noted_number, noted_hash in noted:
        if name == chain and seen.get(int(noted_number)) != noted_hash.encode():
            yield f"{chain} {noted_number}: it is not the entry that was noted"


def documents(book):
    for name, length, compressed in book.execute("SELECT hash, length, compressed FROM documents"):
        reader = zlib.decompressobj()
        try:
            plain = reader.decompress(compressed)
        except zlib.error:
            plain = b""
        whole = reader.eof and not reader.unused_data and len(plain) == length
        if not whole or hashlib.sha256(plain).hexdigest().encode() != name:
            yield f"documents: {name.decode(errors='replace')} is not what its hash says"


def verify(file, noted):
    book = sqlite3.connect(f"file:{urllib.parse.quote(file)}?mode=ro", uri=True)
    book.text_factory = bytes
    if book.execute("PRAGMA application_id").fetchone() != (0x46646179,):
        sys.exit("not a book")
    for line, in book.execute("PRAGMA integrity_check").fetchall():
        if line != b"ok":
            yield "pages: " + line.decode(errors="replace")
    for part in (walk(book, "journal", noted), walk(book, "looks", noted), documents(book)):
        yield from part


if len(sys.argv) % 3 != 2:
    print(__doc__)
    sys.exit(2)
try:
    damages = list(verify(sys.argv[1], [sys.argv[i:i + 3] for i in range(2, len(sys.argv), 3)]))
except sqlite3.DatabaseError as error:
    damages = [f"pages: {error}"]
print("\n".join(damages) or "sound")
sys.exit(1 if damages else 0)
