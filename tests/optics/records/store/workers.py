"""Writers that are processes of their own, and one that is ended without a warning."""

import multiprocessing
import os
import random
import signal
import time
from pathlib import Path

from optics.records.store import Store
from tests.optics.records.store.conftest import titled


def _write_until_killed(path: Path, acknowledged: int, first: int) -> None:
    """Save jobs one after the other; say each number only once the store has answered."""
    store = Store(path)
    for step in range(first, first + 1_000_000):
        if step % 5 == 4:
            number, title = 1, f"first, step {step}"
            store.save_job(number, titled(title))
        else:
            title = f"step {step}"
            number = store.add_job(titled(title))
        store.save_draft("page", {"typed": title})
        os.write(acknowledged, f"{number}\t{title}\n".encode())


def kill_a_writer(path: Path, rng: random.Random, first: int) -> dict[int, str]:
    """Start a writer, end it at a random moment with no chance to tidy up; what it had saved.

    The moment falls within its first few saves, however long one takes, or before the first.
    """
    heard, said = os.pipe()
    child = os.fork()
    if not child:
        os.close(heard)
        try:
            _write_until_killed(path, said, first)
        finally:
            os._exit(1)
    os.close(said)
    begun, text = time.perf_counter(), ""
    if rng.random() < 0.8:
        text = os.read(heard, 4096).decode()
    time.sleep(rng.uniform(0.0, max(0.02, 3 * (time.perf_counter() - begun))))
    os.kill(child, signal.SIGKILL)
    with os.fdopen(heard, "rb") as pipe:
        text += pipe.read().decode()
    os.waitpid(child, 0)
    lines = (line.split("\t") for line in text.splitlines() if "\t" in line)
    return {int(number): title for number, title in lines}


def _write_many(path: Path, writer: int, saves: int) -> None:
    store = Store(path)
    number = store.add_job(titled(f"writer {writer}"))
    for step in range(1, saves):
        store.save_job(number, titled(f"writer {writer}, save {step}"))


def write_together(path: Path, writers: int, saves: int) -> None:
    """Have several processes begin on the same new store at once and save so often each."""
    context = multiprocessing.get_context("fork")
    processes = [
        context.Process(target=_write_many, args=(path, writer, saves)) for writer in range(writers)
    ]
    for process in processes:
        process.start()
    for process in processes:
        process.join()
    assert [process.exitcode for process in processes] == [0] * writers
