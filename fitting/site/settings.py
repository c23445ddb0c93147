"""Settings of the whole program, read from a few environment variables (README lists them).

PLATE_DATA          folder for the database, the key, photographs and dossiers (default: .data in the project)
DATABASE_URL        a PostgreSQL address instead of the embedded SQLite file
PLATE_HOSTS         host names that may be asked for, comma separated (default: this machine only)
PLATE_HTTPS         1 behind a proxy that speaks HTTPS: cookies become Secure, plain requests redirected
PLATE_PROXY         the address from which that proxy asks (default: this machine)
PLATE_DEBUG         1 shows tracebacks in the browser; never on a machine that others reach
"""

import os
from pathlib import Path

import dj_database_url

from fitting.site import provision
from fitting.site.data_folder import open_data_folder, secret_key

BASE_DIR = Path(__file__).resolve().parents[2]
DATA_DIR = open_data_folder(Path(os.environ.get("PLATE_DATA", BASE_DIR / ".data")))

# What the page says where a PDF cannot be made.
HOW_TO_GET_PANGO = provision.how_to_get(provision.PANGO)

SECRET_KEY = secret_key(DATA_DIR)
DEBUG = os.environ.get("PLATE_DEBUG") == "1"
HTTPS = os.environ.get("PLATE_HTTPS") == "1"
# The one whose word is taken for who asks, and whether by HTTPS. The server asks (server.py), Django is told.
PROXY = os.environ.get("PLATE_PROXY", "127.0.0.1") if HTTPS else None
ALLOWED_HOSTS = [host for host in os.environ.get("PLATE_HOSTS", "").split(",") if host] or [
    "127.0.0.1",
    "localhost",
]
CSRF_TRUSTED_ORIGINS = [f"https://{host}" for host in ALLOWED_HOSTS] if HTTPS else []

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django.contrib.humanize",
    # Widgets and fault lists, which templates/forms/ builds upon.
    "django.forms",
    "django_filters",
    "catalogue",
    "fitting",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "fitting.site.security.content_security_policy",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.auth.middleware.LoginRequiredMiddleware",
    "catalogue.workroom.guard.current_workroom",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "fitting.site.security.impossible_numbers",
]

ROOT_URLCONF = "fitting.site.urls"
WSGI_APPLICATION = "fitting.site.wsgi.application"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "catalogue.workroom.guard.workroom_context",
            ],
            "builtins": [
                f"catalogue.templatetags.{subject}"
                for subject in ("lengths", "sources", "plates", "tracing", "finding")
            ],
            "libraries": {},
        },
    }
]
FORM_RENDERER = "catalogue.workroom.forms.renderer.PageForms"

if os.environ.get("DATABASE_URL"):
    DATABASES = {"default": dj_database_url.parse(os.environ["DATABASE_URL"], conn_max_age=60)}
    # By itself PostgreSQL takes a page out of a file's middle to cost four in a row, as on turning discs, and
    # reads every card from end to end where its index of words would find them.
    DATABASES["default"].setdefault("OPTIONS", {}).setdefault("options", "-c random_page_cost=1.1")
else:
    DATABASES = {
        "default": {
            "ENGINE": "django.db.backends.sqlite3",
            "NAME": DATA_DIR / "workroom.sqlite3",
            "OPTIONS": {
                # IMMEDIATE takes the write lock at BEGIN, so two writers wait instead of failing half-way.
                "transaction_mode": "IMMEDIATE",
                "timeout": 20,
                # secure_delete: an erased wearer's figures are overwritten in the file, not only forgotten.
                "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA secure_delete=ON;",
            },
        }
    }
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTH_USER_MODEL = "catalogue.User"
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.NumericPasswordValidator"},
]
LOGIN_URL = "sign-in"
LOGIN_REDIRECT_URL = "home"
LOGOUT_REDIRECT_URL = "sign-in"

LANGUAGE_CODE = "en-gb"
TIME_ZONE = "UTC"
USE_I18N = False
USE_TZ = True

STATIC_URL = "static/"
# Served through the finders: nothing to collect, the same on a laptop and behind a proxy.
WHITENOISE_USE_FINDERS = True
STORAGES = {
    "default": {
        "BACKEND": "catalogue.workroom.files.LocalFiles",
    },
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
# The most that one request may bring: an archive with its scans. Text alone is held to less.
MOST_SENT_BYTES = 1024 * 1024 * 1024
DATA_UPLOAD_MAX_MEMORY_SIZE = 5 * 1024 * 1024
DATA_UPLOAD_MAX_NUMBER_FIELDS = 5000
FILE_UPLOAD_PERMISSIONS = 0o600

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "filters": {"without_secrets": {"()": "fitting.site.security.WithoutSecrets"}},
    "formatters": {"trace": {"()": "catalogue.workroom.faults.Trace"}},
    "handlers": {
        "terminal": {"class": "logging.StreamHandler", "formatter": "trace", "level": "ERROR"},
        "file": {"class": "catalogue.workroom.faults.FaultFile", "formatter": "trace", "level": "ERROR"},
    },
    "root": {"handlers": ["terminal", "file"]},
    "loggers": {
        # These name the path of a request.
        "django.request": {"filters": ["without_secrets"]},
        "django.server": {"filters": ["without_secrets"]},
        "waitress": {"filters": ["without_secrets"]},
        # Whoever asks in a way that is refused has not met a fault of the program.
        "django.security": {"level": "CRITICAL"},
        # What a command fails with stands on its terminal already.
        "catalogue.workroom.faults.command": {"handlers": ["file"], "propagate": False},
    },
}

SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
SECURE_SSL_REDIRECT = HTTPS
SECURE_HSTS_SECONDS = 31536000 if HTTPS else 0
# Secure cookies over plain HTTP would make sign-in on 127.0.0.1 impossible.
SESSION_COOKIE_SECURE = HTTPS
CSRF_COOKIE_SECURE = HTTPS
SESSION_COOKIE_HTTPONLY = True
CSRF_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"

SILENCED_SYSTEM_CHECKS: list[str] = []
