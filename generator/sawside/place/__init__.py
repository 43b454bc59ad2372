"""Putting finished files where they belong, so that neither a kill nor a full disk nor an open file loses or tears anything.

`building` publishes a site, `new_folder` makes a folder at once, `write_files` replaces single files. Public: also `refusal`
(why a folder may not become a site) and `check_files`, both for asking before the long work begins.
"""

from sawside.place.building import building, refusal
from sawside.place.writing import check_files, new_folder, write_files

__all__ = ["building", "check_files", "new_folder", "refusal", "write_files"]
