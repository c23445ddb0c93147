"""The first run: make the project's own environment, put the pinned packages into it, and go on inside.

`.venv` carries a stamp, written last: the Python line and the checksum of each set of pins installed. A stamp
that holds costs one small read and no network. Where it does not hold, or is absent because an earlier run
was stopped midway, the environment is made anew under a file lock: of two runs that start together one
installs and the other waits. Who works in another environment keeps it: nothing is made or installed.

Only the standard library, and grammar that Python 2.7 can read: an old Python shall print a sentence, no
traceback. What is said here and what pip prints goes to standard error; standard output is the command's.
"""

import contextlib
import hashlib
import os
import subprocess
import sys
import time

FIRST_PYTHON, LAST_PYTHON = (3, 11), (3, 13)
ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.realpath(__file__))))
MANAGE = os.path.join(ROOT, "manage.py")
ENVIRONMENT = os.path.join(ROOT, ".venv")
PYTHON = os.path.join(ENVIRONMENT, *(("Scripts", "python.exe") if os.name == "nt" else ("bin", "python")))
STAMP = os.path.join(ENVIRONMENT, "installed.txt")
PINS = os.path.join(ROOT, "fitting", "site", "pins")
# A package of each set, by which another environment shows that it has the set.
SIGNS = {"run": "django", "test": "pytest"}


def enter(arguments):
    """Return inside an environment with the packages that the command needs; this process may be replaced."""
    refuse_unsupported_python()
    wanted = ["run", "test"] if arguments[:1] == ["test"] else ["run"]
    inside = os.path.realpath(sys.prefix) == os.path.realpath(ENVIRONMENT)
    if sys.prefix != sys.base_prefix and not inside:
        require_here(wanted)
        return
    try:
        made = make_ready(wanted)
    except KeyboardInterrupt:
        sys.exit(130)
    except OSError as error:
        fail("The environment could not be made in %s:\n  %s" % (ROOT, error))
    if made or not inside:
        go_on_inside()


def refuse_unsupported_python():
    version = sys.version_info[:2]
    if not FIRST_PYTHON <= version <= LAST_PYTHON:
        fail(
            "Plate & Toile needs Python 3.11, 3.12 or 3.13; this is %d.%d.\n" % version
            + "If one of them is installed, name it: python3.12 manage.py ...\n"
            + "If not, get it from your system's packages or from python.org."
        )


def require_here(wanted):
    """In an environment that is not ours, say which line installs what is missing."""
    for name in wanted:
        try:
            __import__(SIGNS[name])
        except ImportError:
            pins = quoted(os.path.join(PINS, name + ".txt"))
            line = "%s -m pip install --require-hashes -r %s" % (quoted(sys.executable), pins)
            fail("The active environment (%s) lacks packages. Type:\n  %s" % (sys.prefix, line))


def make_ready(wanted):
    """Make or complete the environment if it needs that; True if anything was done."""
    promised = [stamp_line(name) for name in wanted]
    if is_stamped(promised):
        return False
    with one_at_a_time():
        # The run that held the lock before this one may have done the work.
        if not is_stamped(promised):
            install(wanted, promised)
    return True


def stamp_line(name):
    with open(os.path.join(PINS, name + ".txt"), "rb") as pins:
        return "%s %s %d.%d" % ((name, hashlib.sha256(pins.read()).hexdigest()) + sys.version_info[:2])


def is_stamped(promised):
    if not os.path.exists(PYTHON) or not os.path.exists(STAMP):
        return False
    with open(STAMP) as stamp:
        return set(promised) <= set(stamp.read().splitlines())


def install(wanted, promised):
    # Over a half-made environment pip takes a package that lacks its files for installed, hence made anew.
    anew = not is_stamped(promised[:1])
    if os.path.exists(STAMP):
        os.remove(STAMP)
    if anew:
        require_ensurepip()
        say("Making the environment in %s" % ENVIRONMENT)
        run([getattr(sys, "_base_executable", sys.executable), "-I", "-m", "venv", "--clear", ENVIRONMENT])
    for name in wanted if anew else wanted[1:]:
        say("Installing the packages listed in %s (once; this takes a minute or two)" % name)
        pins = os.path.join(PINS, name + ".txt")
        pip = [PYTHON, "-I", "-m", "pip", "--disable-pip-version-check", "install", "--progress-bar", "off"]
        run(pip + ["--require-hashes", "-r", pins])
    with open(STAMP, "w") as stamp:
        stamp.write("\n".join(promised) + "\n")


def require_ensurepip():
    """Debian and its kin keep what makes an environment in a package of its own."""
    try:
        import ensurepip  # noqa: F401
    except ImportError:
        from fitting.site import provision

        for sentence in provision.provide(provision.VENV):
            fail(sentence)


def run(command):
    # close_fds: the child keeps the lock, so that nobody starts anew beside a pip whose parent was killed.
    code = subprocess.call(command, stdin=subprocess.DEVNULL, stdout=sys.stderr, close_fds=False)
    if code:
        fail(
            "This did not work (its own words are above): %s\n" % " ".join(quoted(word) for word in command)
            + "The first run needs a network; later ones do not. Type the same command again to retry."
        )


@contextlib.contextmanager
def one_at_a_time():
    with open(ENVIRONMENT + ".lock", "a") as lock:
        os.set_inheritable(lock.fileno(), True)
        waited = False
        while not taken(lock):
            if not waited:
                say("Waiting for another run that is making the environment")
            waited = True
            time.sleep(0.2)
        yield


def taken(lock):
    """Try to take the lock, which the system gives back however this process ends."""
    try:
        if os.name == "nt":
            import msvcrt

            lock.seek(0)
            msvcrt.locking(lock.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    return True


def go_on_inside():
    command = [PYTHON, MANAGE] + sys.argv[1:]
    if os.name == "nt":
        sys.exit(subprocess.call(command))
    os.execv(PYTHON, command)


def quoted(word):
    import shlex

    return shlex.quote(word)


def say(sentence):
    sys.stderr.write(sentence + "\n")
    sys.stderr.flush()


def fail(sentence):
    say(sentence)
    sys.exit(1)
