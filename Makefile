# Two commands do everything on a fresh machine: `make site` and `make test`.
PYTHON ?= python3
ifeq ($(OS),Windows_NT)
BIN := .venv/Scripts
else
BIN := .venv/bin
endif

.PHONY: site test quick test-lowest golden clean

site: .venv/site-ready
	$(BIN)/sawside check
	$(BIN)/sawside build

test: .venv/test-ready
	$(BIN)/python -m pytest --numprocesses auto --dist worksteal

# What a change most often breaks, in a minute (the list stands in tests/conftest.py).
quick: .venv/test-ready
	$(BIN)/python -m pytest --numprocesses auto --quick

# The lowest versions that pyproject.toml allows: the quick run and a build of the demonstration shop, in an environment apart.
test-lowest: .venv-lowest/ready
	.venv-lowest/$(notdir $(BIN))/python -m pytest --numprocesses auto --quick
	.venv-lowest/$(notdir $(BIN))/sawside build

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

.venv-lowest/ready: pyproject.toml constraints-lowest.txt
	$(PYTHON) -m venv .venv-lowest
	.venv-lowest/$(notdir $(BIN))/python -m pip install --quiet --disable-pip-version-check --constraint constraints-lowest.txt --editable ".[test]"
	@.venv-lowest/$(notdir $(BIN))/python -c "import pathlib; pathlib.Path('.venv-lowest/ready').touch()"

clean:
	rm -rf .venv .venv-lowest site build dist
