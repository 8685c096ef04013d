"""The name that git gives to a file's bytes, without asking git."""

WIDE = 64  # digits of an id where the repository has the longer ones


def hash_blob(data: bytes, wide: bool = False) -> str:
    """git's id of these bytes: SHA-256 in a repository of ``wide`` ids, else SHA-1.

    Source: git's own format, the hash of ``blob SIZE``, a zero byte and the bytes.

    >>> hash_blob(b"")
    'e69de29bb2d1d6434b8b29ae775ad8c2e48c5391'
    """
    import hashlib

    whole = b"blob %d\0" % len(data) + data
    if wide:
        return hashlib.sha256(whole).hexdigest()
    return hashlib.sha1(whole, usedforsecurity=False).hexdigest()
