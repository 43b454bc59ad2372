"""From formulas in Python to the same formulas in JavaScript, by their syntax trees, so that each is written once.

`translate.script` takes functions and gives one script with them and all they call. What has no translation that means the
same is refused with its file and line when the site is built; nothing is left to fail on a telephone.
"""
