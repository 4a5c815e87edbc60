"""The work of a worker that was taken over: it tries what its walls are to keep it from, and tells what it could do."""

import os
import socket
import tempfile
from pathlib import Path

from booklet.walls.wire import receive_words, send_words


def prepare():
    return (os.path.dirname(os.__file__),)


def serve(requests, answers):
    asked = receive_words(requests)
    if "die" in asked:
        os.kill(os.getpid(), 9)
    if "memory" in asked:
        bytearray(asked["memory"])
    if "file" in asked:
        with tempfile.TemporaryFile() as file:
            file.write(b"x" * asked["file"])
    while "time" in asked:
        pass
    tried = {
        "read": lambda: Path(asked["secret"]).read_bytes(),
        "list": lambda: os.listdir(os.path.dirname(asked["secret"])),
        "write": lambda: Path(asked["secret"] + ".new").write_bytes(b""),
        "remove": lambda: os.unlink(asked["secret"]),
        "connect": lambda: socket.create_connection(("127.0.0.1", asked["port"]), 2).close(),
        "listen": lambda: socket.create_server(("127.0.0.1", 0)).close(),
        "start": lambda: os.posix_spawn("/bin/true", ["true"], {}),
        "signal": lambda: os.kill(os.getppid(), 0),
        "library": lambda: Path(os.__file__).read_bytes(),
        "aside": lambda: tempfile.TemporaryFile().close(),
    }
    done = []
    for name, attempt in tried.items():
        try:
            attempt()
            done.append(name)
        except OSError:
            pass
    send_words(answers, {"done": done})
