"""`python -m throwbench.web COMMAND`: Django's own commands, for who builds Throwbench."""

import os
import sys

from django.core.management import execute_from_command_line

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "throwbench.web.settings")
execute_from_command_line(sys.argv)
