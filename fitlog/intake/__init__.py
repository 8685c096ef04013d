"""Shot files in, through an importer's map.

Bytes in, values out; no file is opened here.

``reading.read_shots`` reads, ``guessing.guess`` proposes a map, ``preview.preview`` shows what a map would give,
``source.content_hash`` names a file by what it holds.
"""
