# The only two commands a newcomer needs: `make demo` and `make test`.
PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin
PIP    := $(BIN)/python -m pip install --quiet --disable-pip-version-check

.PHONY: demo test lint bench evidence docs clean

$(VENV)/.made:
	$(PYTHON) -m venv $(VENV)
	@touch $@

$(VENV)/.run: $(VENV)/.made pyproject.toml
	$(PIP) -e .
	@touch $@

$(VENV)/.test: $(VENV)/.run
	$(PIP) -e '.[test]'
	@touch $@

$(VENV)/.lint: $(VENV)/.test
	$(PIP) -e '.[test,lint]'
	@touch $@

$(VENV)/.docs: $(VENV)/.run
	$(PIP) -e '.[docs]'
	@touch $@

demo: $(VENV)/.run  ## the main job on the example beams, with pictures
	$(BIN)/soffit life examples/bench-[bp]*.toml --picture build/demo
	$(BIN)/soffit compare examples/bench-[bp]*.toml --picture build/demo/compare
	$(BIN)/soffit age examples/alder-weir-deck-unit.toml --picture build/demo --quiet
	$(BIN)/soffit report examples/alder-weir-ramp.toml -o build/demo/alder-weir-ramp.pdf
	@echo "Pictures and a calculation are in build/demo (one sheet a beam, compare.svg, a deck unit's years, a PDF)."

test: $(VENV)/.test  ## every test that takes seconds
	$(BIN)/python -m pytest -m "not long"

lint: $(VENV)/.lint  ## style, types, floors of the house
	$(BIN)/ruff check src tests benchmarks docs evidence
	$(BIN)/ruff format --check src tests benchmarks docs evidence
	$(BIN)/mypy
	$(BIN)/lint-imports

bench: $(VENV)/.test  ## speed, as ratios to plain SciPy and to the machine's limit
	$(BIN)/python -m pytest benchmarks -c benchmarks/pytest.ini
	$(BIN)/python benchmarks/ratios.py

evidence: $(VENV)/.run  ## predictions against measured beams; writes docs/evidence.md
	$(BIN)/python -m evidence

docs: $(VENV)/.docs
	$(BIN)/python -m sphinx -W -q docs build/docs
	@echo "Open build/docs/index.html"

clean:
	rm -rf build $(VENV)
