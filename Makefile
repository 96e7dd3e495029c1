# Two commands on a fresh machine: `make site` and `make test`.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/python -m pip --disable-pip-version-check --quiet
SHELL := /bin/sh
.DEFAULT_GOAL := help
.PHONY: help site test test-quick test-full lint lock screenshots clean

help:
	@echo "make site         build the demo site into site/"
	@echo "make test-quick   checks that take under a minute"
	@echo "make test         everything of the usual tier, Chromium included"
	@echo "make test-full    also what takes hours"
	@echo "make lock         work out the lock files again"
	@echo "make screenshots  take the pictures of the pages again"

$(BIN)/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "Python 3.11 or later is needed: PYTHON=/path/to/python3.11 make site"; exit 1; }
	@$(PYTHON) -m venv $(VENV) || { rm -rf $(VENV); \
	  echo "python3 cannot make an environment here. This puts it right: apt-get install python3-venv"; exit 1; }

$(VENV)/run-installed: $(BIN)/python requirements.lock pyproject.toml
	$(PIP) install --require-hashes -r requirements.lock
	$(PIP) install --no-deps --no-build-isolation -e .
	@touch $@

$(VENV)/test-installed: $(VENV)/run-installed requirements-test.lock
	$(PIP) install --require-hashes -r requirements-test.lock
	@touch $@

site: $(VENV)/run-installed
	@start=$$(date +%s); $(BIN)/holdwater build . && echo "site built in $$(( $$(date +%s) - start )) s"

lint: $(VENV)/test-installed
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy

test-quick: lint
	$(BIN)/python -m pytest -n auto -m "not slow and not browser and not full and not timed" -q

test: lint
	@sh tests/tools/browser.sh
	@start=$$(date +%s); \
	$(BIN)/python -m pytest -q -m timed && \
	$(BIN)/python -m pytest -q -n auto -m "not full and not timed" --cov --cov-report=term:skip-covered && \
	echo "tested in $$(( $$(date +%s) - start )) s"

test-full: lint
	@sh tests/tools/browser.sh
	$(BIN)/python -m pytest -q -m timed
	HOLDWATER_ORACLE_CASES=10000 HOLDWATER_MUTATIONS=2000 $(BIN)/python -m pytest -q -n auto -m "not timed"

lock:
	uv pip compile --universal --python-version 3.11 --generate-hashes --no-header --no-annotate \
	  --extra build pyproject.toml -o requirements.lock
	uv pip compile --universal --python-version 3.11 --generate-hashes --no-header --no-annotate \
	  --extra build --extra test pyproject.toml -c requirements.lock -o requirements-test.lock

screenshots: $(VENV)/test-installed site
	$(BIN)/python tests/tools/screenshots.py

clean:
	rm -rf $(VENV) site .pytest_cache .mypy_cache .ruff_cache .coverage
