"""A pseudo-terminal with a name, into which a file is written as fast as its reader takes it."""

import os
import select
import threading
import time
import tty

SETTLE_S = 0.5


class Terminal:
    def __init__(self, link):
        self.master, slave = os.openpty()
        tty.setraw(slave)
        self.link = link
        os.symlink(os.ttyname(slave), link)
        os.close(slave)

    def await_reader(self):
        """Until somebody has opened it, and has had time to set it up."""
        poll = select.poll()
        poll.register(self.master, select.POLLIN)
        while any(event & select.POLLHUP for _, event in poll.poll(0)):
            time.sleep(0.01)
        time.sleep(SETTLE_S)

    def feed(self, path):
        """Begins to write a file; the thread that does."""
        thread = threading.Thread(target=self._write, args=(path,), daemon=True)
        thread.start()
        return thread

    def _write(self, path):
        with open(path, "rb") as log:
            for chunk in iter(lambda: log.read(1 << 16), b""):
                while chunk:
                    chunk = chunk[os.write(self.master, chunk) :]

    def __enter__(self):
        return self

    def __exit__(self, *failure):
        os.close(self.master)
        os.unlink(self.link)
