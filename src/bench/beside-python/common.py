"""What the benches share: where things lie, the class path, the machine, time taken."""

import os
import subprocess
import sys
import time

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(os.path.dirname(os.path.dirname(HERE)))
JAR = os.path.join(ROOT, "target", "snick.jar")
PYTHON = ["/usr/bin/python3"]


def java():
    """The start of a command for a class of the benches; compiles them."""
    paths = os.path.join(ROOT, "target", "bench-classpath.txt")
    subprocess.run(["mvn", "-q", "-B", "test-compile"], cwd=ROOT, check=True)
    subprocess.run(
        ["mvn", "-q", "-B", "dependency:build-classpath", f"-Dmdep.outputFile={paths}"]
        + ["-Dmdep.includeScope=test"],
        cwd=ROOT,
        check=True,
    )
    with open(paths, encoding="utf-8") as found:
        classes = f"{ROOT}/target/test-classes:{ROOT}/target/classes:{found.read().strip()}"
    return ["java", "-cp", classes]


def machine():
    with open("/proc/cpuinfo", encoding="utf-8") as lines:
        model = next(line.split(":")[1].strip() for line in lines if line.startswith("model name"))
    version = subprocess.run(["java", "-version"], check=True, capture_output=True, text=True)
    return (
        f"{model}, {os.cpu_count()} processors, Linux {os.uname().release},"
        f" {version.stderr.splitlines()[1]}, Python {sys.version.split()[0]},"
        f" load {os.getloadavg()[0]:.1f} at the start"
    )


def seconds(command):
    """Wall time of a command, and what it printed."""
    start = time.perf_counter()
    done = subprocess.run(command, check=True, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    return time.perf_counter() - start, done.stdout


def require(held, what):
    if not held:
        raise SystemExit(f"not as it must be: {what}")
