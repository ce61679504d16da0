# `make handbook` builds the demo handbook, `make test` runs the whole suite.
# Both make their own environment in .venv; nothing outside this folder is touched.

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin

# Where the machine forbids Python to keep what it compiled, every command would compile seven hundred modules anew.
export PYTHONDONTWRITEBYTECODE :=

.PHONY: handbook test check checks-from-outside lint types format mistakes amendments tellings benchmark serve schemas clean

handbook: $(VENV)/runtime
	$(BIN)/benchlore build

test: $(VENV)/development
	$(BIN)/python -m pytest -n auto

check: $(VENV)/runtime
	$(BIN)/benchlore check

serve: $(VENV)/runtime
	NO_MKDOCS_2_WARNING=1 $(BIN)/mkdocs serve

lint: $(VENV)/development
	$(BIN)/ruff check .

types: $(VENV)/development
	$(BIN)/mypy

checks-from-outside: $(VENV)/development
	$(BIN)/python -m tests.outside

mistakes: $(VENV)/development
	$(BIN)/python -m tests.mistakes

tellings: $(VENV)/development
	$(BIN)/python -m tests.tellings $(FOLDER)

amendments: $(VENV)/development
	$(BIN)/python -m tests.amend.law

benchmark: $(VENV)/development
	SIZE=$(SIZE) $(BIN)/python -m tests.benchmark
	SIZE=$(SIZE) $(BIN)/python -m tests.benchmark.growth
	$(BIN)/python -m tests.benchmark.books
	SIZE=$(SIZE) $(BIN)/python -m tests.benchmark.paper
	$(BIN)/python -m tests.benchmark.seasons

schemas: $(VENV)/runtime
	$(BIN)/benchlore schema --into .schemas

$(VENV)/runtime: pyproject.toml
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable '.[season,print]'
	touch $@

$(VENV)/development: pyproject.toml $(VENV)/runtime
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable '.[test]'
	touch $@

clean:
	rm -rf $(VENV) site .cache build *.egg-info
