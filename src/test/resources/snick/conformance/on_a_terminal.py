"""The independent device on a pseudo-terminal in raw mode: its link is the argument.

It prints a line when the terminal is there and ends when standard input is closed.
"""
import os
import pathlib
import pty
import select
import socket
import subprocess
import sys
import tty

program = pathlib.Path(__file__).with_name("independent_device.py")
device = subprocess.Popen([sys.executable, program], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
line = socket.create_connection(("127.0.0.1", int(device.stdout.readline())))
master, slave = pty.openpty()       # the slave stays open, so that the line outlives who opens it
tty.setraw(slave)
os.symlink(os.ttyname(slave), sys.argv[1])
print("there", flush=True)
while True:
    ready, _, _ = select.select([master, line, sys.stdin], [], [])
    if sys.stdin in ready:
        break
    if master in ready:
        line.sendall(os.read(master, 4096))
    if line in ready:
        os.write(master, line.recv(4096))
device.stdin.close()
device.wait()
