# Two commands do everything on a fresh machine: `make site` and `make test`.
PYTHON ?= python3
ifeq ($(OS),Windows_NT)
BIN := .venv/Scripts
else
BIN := .venv/bin
endif

.PHONY: site test golden clean

site: .venv/site-ready
	$(BIN)/sawside check
	$(BIN)/sawside build

test: .venv/test-ready
	$(BIN)/python -m pytest

# Renew the expected texts and pictures after a wanted change, then read the difference.
golden: .venv/test-ready
	$(BIN)/python -m pytest --golden

.venv/site-ready: pyproject.toml constraints.txt
	$(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --constraint constraints.txt --editable .
	@$(BIN)/python -c "import pathlib; pathlib.Path('.venv/site-ready').touch()"

.venv/test-ready: .venv/site-ready
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --constraint constraints.txt --editable ".[test]"
	@$(BIN)/python -c "import pathlib; pathlib.Path('.venv/test-ready').touch()"

clean:
	rm -rf .venv site build dist
