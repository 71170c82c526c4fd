"""Django's settings. Everything that differs between workshops is in the folder."""

import os
import tempfile
from pathlib import Path

from throwbench.web.folder import ENVIRONMENT, Folder
from throwbench.web.scripts import ask_each_time
from throwbench.web.tls.authority import Authority

os.environ.setdefault(ENVIRONMENT, str(Path(tempfile.gettempdir()) / "throwbench-no-folder"))
FOLDER = Folder(Path(os.environ[ENVIRONMENT]))
_kept = FOLDER.read() if FOLDER.exists() else None

SECRET_KEY = _kept.secret_key if _kept else "only for commands that serve nothing"
DEMO_OFFSET_S = _kept.demo_offset_s if _kept else None
DEBUG = False
ALLOWED_HOSTS = os.environ.get("THROWBENCH_HOSTS", "localhost,127.0.0.1,[::1]").split(",")
NETWORK_ADDRESSES: list[str] = []
"""Where devices on the network reach the server; the server says so when it opens its door."""
AUTHORITY: Authority | None = None
"""What a device trusts to reach the server over https; None where it has no such door."""
CSRF_TRUSTED_ORIGINS: list[str] = []

INSTALLED_APPS = [
    "django.contrib.contenttypes",
    "django.contrib.auth",
    "django.contrib.sessions",
    "django.contrib.staticfiles",
    "throwbench.web",
    "throwbench.workshop.house",
    "throwbench.workshop.shelf",
    "throwbench.workshop.trials",
    "throwbench.workshop.panel",
    "throwbench.workshop.line",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "throwbench.web.middleware.headers",
    "throwbench.web.middleware.notes_are_here",
    "throwbench.web.entry.door.door",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "throwbench.web.entry.door.whose",
    "django.contrib.auth.middleware.LoginRequiredMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "throwbench.web.middleware.clock",
    "throwbench.web.reached.reached",
    "throwbench.web.keep.pages.whose_page",
    "throwbench.web.middleware.who_may",
    "throwbench.web.middleware.begun",
    "throwbench.web.middleware.Unkeepable",
]
ROOT_URLCONF = "throwbench.web.urls"
WSGI_APPLICATION = "throwbench.web.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "throwbench.web.context.frame",
            ],
        },
    }
]
DATABASES = {
    "default": {
        "ENGINE": "django.db.backends.sqlite3",
        # Opened to be read and written, never made: one that is gone is not begun anew.
        "NAME": f"{FOLDER.database.absolute().as_uri()}?mode=rw" if _kept else ":memory:",
        "CONN_MAX_AGE": None,
        "OPTIONS": {
            "transaction_mode": "IMMEDIATE",
            "timeout": 20,
            "init_command": (
                "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;"
            ),
        },
    }
}
AUTH_USER_MODEL = "house.Person"
AUTHENTICATION_BACKENDS = ["throwbench.workshop.house.sign_in.OneTimeLink"]
LOGIN_URL = "house:sign_in"
# A browser keeps one set of cookies for all ports of a machine: the workshop and the demo beside
# it would sign each other out if theirs had one name.
# None is Secure: http and https share them by host, and an entry kept on a page over http could
# not be sent from there any more (decision 0019).
SESSION_COOKIE_NAME = f"throwbench-{FOLDER.mark}"
SESSION_COOKIE_AGE = 60 * 60 * 24 * 90
SESSION_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_NAME = f"throwbench-form-{FOLDER.mark}"
# "no-referrer" would make browsers send "Origin: null" with our own forms, which the check against
# forged forms refuses; "same-origin" tells other sites just as little.
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CONTENT_TYPE_NOSNIFF = True
CSRF_FAILURE_VIEW = "throwbench.web.errors.not_sent"
X_FRAME_OPTIONS = "DENY"
SILENCED_SYSTEM_CHECKS = ["security.W002", "security.W004", "security.W008", "security.W012"]

USE_TZ = True
TIME_ZONE = "UTC"
LANGUAGE_CODE = "en-gb"
USE_I18N = True
STATIC_URL = "static/"
WHITENOISE_USE_FINDERS = True
# Lengths kept from the start are wrong for a file that an update changed under a running server.
WHITENOISE_AUTOREFRESH = True
WHITENOISE_MAX_AGE = 3600
WHITENOISE_ADD_HEADERS_FUNCTION = ask_each_time
DATA_UPLOAD_MAX_MEMORY_SIZE = 2 * 1024 * 1024
FILE_UPLOAD_MAX_MEMORY_SIZE = 8 * 1024 * 1024
DATA_UPLOAD_MAX_NUMBER_FIELDS = 2000
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
FORM_RENDERER = "throwbench.web.forms.HouseRenderer"
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "filters": {"no_tokens": {"()": "throwbench.web.logs.NoTokens"}},
    "handlers": {
        "window": {
            "class": "logging.StreamHandler",
            "level": "ERROR",
            "filters": ["no_tokens"],
        },
        "nowhere": {"class": "logging.NullHandler"},
    },
    "loggers": {
        name: {"handlers": ["window"], "level": "INFO", "propagate": False}
        for name in ("django", "throwbench")
    }
    # Whoever asks under a made-up name would fill the window with pages of what the code did.
    | {"django.security": {"handlers": ["nowhere"], "propagate": False}},
}
