# Two commands do everything on a fresh machine: `make site` and `make test`.
PYTHON ?= python3
VENV ?= .venv
# The versions to run with; those of the tools that only the tests need stand apart.
LOCK ?= constraints.txt
TEST_LOCK := constraints-test.txt
ifeq ($(OS),Windows_NT)
BIN := $(VENV)/Scripts
else
BIN := $(VENV)/bin
endif
PIP := $(BIN)/python -m pip install --quiet --disable-pip-version-check
TOUCH := @$(BIN)/python -c "import pathlib, sys; pathlib.Path(sys.argv[1]).touch()"
PYTEST := $(BIN)/python -m pytest --numprocesses auto --dist worksteal

.PHONY: site test quick lint golden test-lowest test-older clean

site: $(VENV)/site-ready
	$(BIN)/sawside check
	$(BIN)/sawside build

test: $(VENV)/test-ready
	$(PYTEST)

# What a change most often breaks, in a minute (the list stands in tests/conftest.py).
quick: $(VENV)/test-ready
	$(PYTEST) --quick

lint: $(VENV)/test-ready
	$(BIN)/ruff check --quiet generator tests
	$(BIN)/ruff format --quiet --check generator tests
	$(BIN)/mypy

# Renew the expected texts and pictures after a wanted change, then read the difference.
golden: $(VENV)/test-ready
	$(BIN)/python -m pytest --golden

# The lowest versions that pyproject.toml allows: the quick run and a build of the demonstration shop, in an environment apart.
test-lowest:
	$(MAKE) VENV=.venv-lowest LOCK=constraints-lowest.txt quick site

# A machine with older packages than those: installing renews them by itself, without any list of versions.
test-older:
	rm -rf .venv-older
	$(MAKE) VENV=.venv-older older

.PHONY: older
older:
	$(PYTHON) -m venv $(VENV)
	$(PIP) --requirement constraints-older.txt
	$(PIP) .
	$(BIN)/sawside check
	$(BIN)/sawside sheet lever-350 --to $(VENV)/sheet.pdf

$(VENV)/site-ready: pyproject.toml $(LOCK)
	$(PYTHON) -m venv $(VENV)
	$(PIP) --constraint $(LOCK) --editable .
	$(TOUCH) $@

$(VENV)/test-ready: $(VENV)/site-ready $(TEST_LOCK)
	$(PIP) --constraint $(LOCK) --constraint $(TEST_LOCK) --editable ".[test]"
	$(TOUCH) $@

clean:
	rm -rf .venv .venv-* site build dist
