"""Where a workspace is: the folder named, the environment's, or upward."""

from fitlog.workspace.layout import ENVIRONMENT as ENVIRONMENT
from fitlog.workspace.layout import OWN_FOLDER as OWN_FOLDER
from fitlog.workspace.layout import find_root as find_root
