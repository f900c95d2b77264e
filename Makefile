# Set-up is part of every target: a clean clone needs Python 3.11 or newer and nothing else.
# A stamp file in build/stamps says that a step was done with the files as they are now.

.DELETE_ON_ERROR:
.PHONY: demo test suite lint golden rooms coverage mirror bench fuzz docs figures script fonts lock wheel-smoke wheel-test wheel-pythons ci clean help

VENV   := .venv
BIN    := $(VENV)/bin
STAMPS := build/stamps
# What the tests need beside Python.
PROGRAMS := $(STAMPS)/chromium $(STAMPS)/calc $(STAMPS)/impress $(STAMPS)/film \
	$(STAMPS)/hdl $(STAMPS)/postscript $(STAMPS)/web
PIP    := $(BIN)/python -m pip --disable-pip-version-check install --quiet
SOURCE := $(shell find src -type f -not -name '*.pyc' -not -path '*/__pycache__/*')

# Percent of the lines that the quick tests run, at least. Raise it as it rises.
FLOOR := 94

help:
	@echo 'make demo        build the example lessons into build/demo'
	@echo 'make test        lint, smoke-test the wheel, run all tests'
	@echo 'make suite       the tests alone; PYTEST="-k adder" chooses'
	@echo 'make lint        ruff check, ruff format --check, mypy --strict'
	@echo 'make golden      re-make the golden files; review the diff'
	@echo 'make ci          what continuous integration runs: test, coverage, wheel-pythons'
	@echo 'make coverage    trace the tests that need no browser and no patience; at least $(FLOOR) %'
	@echo 'make mirror      name the test file of each module that has none of its own'
	@echo 'make rooms       re-make the table of rooms in CONTRIBUTING.md'
	@echo 'make fuzz        try 100,000 mutated lessons, pages, circuits, options and cache entries; CASES=1000 for fewer'
	@echo 'make bench       run the benchmarks'
	@echo 'make docs        the documents, a gallery and the API as a site in build/site'
	@echo 'make wheel-test  run all tests on the installed wheel'
	@echo 'make wheel-pythons  quick tests on the wheel, on each Python of pyproject.toml that is here'
	@echo 'make lock        re-make requirements/*.txt from pyproject.toml'
	@echo 'make figures     draw every figure of the catalogue into docs/figures, and measure it'
	@echo 'make script      join the modules of the page into the scripts that are shipped'
	@echo 'make fonts       re-make src/edgewise/fonts'
	@echo 'make clean       remove what was made, .venv too'

demo: $(STAMPS)/run
	$(BIN)/edgewise build examples/*.md --out build/demo

# In this order; pytest has the last word.
test: lint wheel-smoke suite

suite: $(STAMPS)/dev $(PROGRAMS)
	$(BIN)/python -m pytest $(PYTEST)

lint: $(STAMPS)/dev
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy

golden: $(STAMPS)/dev $(PROGRAMS)
	$(BIN)/python -m pytest --update-golden $(PYTEST)
	@git status --short tests/golden

# Up to Python 3.11 tracing doubles the processor time of a test (20 s to 43 s for 532 of them); from
# 3.12 on, where the interpreter itself tells of lines, it costs nothing that can be measured. It is
# no part of `make test`, and of the tests only those are traced that are quick. Whether they hold is
# said by `make test`: limits of time do not hold under a tracer, so that exit code 1 is passed over.
QUICK := not slow and not browser
CORE = $$($(BIN)/python -c 'import sys; print("sysmon" if sys.version_info >= (3, 12) else "ctrace")')
define trace
	rm -f build/coverage build/coverage.*
	COVERAGE_CORE=$(1) $(BIN)/python -m coverage run -m pytest $(2) -m '$(QUICK)' $(PYTEST) || [ $$? -eq 1 ]
	$(BIN)/python -m coverage combine --quiet
endef

coverage: $(STAMPS)/dev $(PROGRAMS)
	$(call trace,$(CORE))
	$(BIN)/python -m coverage report --fail-under=$(FLOOR)

# Only the tracer in C can tell which test runs a line.
mirror: $(STAMPS)/dev $(PROGRAMS)
	$(call trace,ctrace,-p scripts.traced)
	PYTHONPATH=. $(BIN)/python scripts/make_mirror.py

ci: test coverage wheel-pythons

rooms: $(STAMPS)/dev
	PYTHONPATH=. $(BIN)/python scripts/make_rooms.py

bench: $(STAMPS)/dev
	$(BIN)/python -m benchmarks

CASES ?= 100000
fuzz: $(STAMPS)/dev
	$(BIN)/python scripts/fuzz.py --cases $(CASES)

docs: $(STAMPS)/dev
	PYTHONPATH=. $(BIN)/python scripts/make_site.py
	$(BIN)/python -m sphinx -q -W --keep-going -b html -c docs/site build/site-source build/site
	@echo build/site/index.html

script: $(STAMPS)/dev $(STAMPS)/web
	$(BIN)/python scripts/make_script.py

fonts: $(STAMPS)/dev
	$(BIN)/python scripts/make_fonts.py

figures: $(STAMPS)/dev $(STAMPS)/chromium
	PYTHONPATH=. $(BIN)/python scripts/contact_sheet.py
	PYTHONPATH=. $(BIN)/python scripts/figure_table.py
	PYTHONPATH=. $(BIN)/python scripts/column_table.py
	$(BIN)/python scripts/stage_picture.py
	$(BIN)/python scripts/slides_picture.py
	$(BIN)/python scripts/film_picture.py

# Only pyproject.toml names requirements. Run this on Python 3.11, the oldest one. LOCK=--upgrade
# takes the newest releases; without it, only what pyproject.toml changed is resolved anew.
COMPILE := CUSTOM_COMPILE_COMMAND='make lock' $(BIN)/pip-compile --quiet --generate-hashes \
	--strip-extras --allow-unsafe --no-emit-index-url --no-emit-find-links \
	--no-emit-trusted-host --no-emit-options $(LOCK)
lock: $(STAMPS)/dev
	$(COMPILE) --output-file requirements/run.txt pyproject.toml
	$(COMPILE) --build-deps-for editable --only-build-deps --output-file requirements/build.txt \
		pyproject.toml
	$(COMPILE) --extra dev --constraint requirements/run.txt \
		--constraint requirements/build.txt --output-file requirements/dev.txt pyproject.toml

wheel-smoke: $(STAMPS)/wheel-smoke
$(STAMPS)/wheel-smoke: scripts/check_wheel.py pyproject.toml $(SOURCE) $(STAMPS)/dev
	$(BIN)/python scripts/check_wheel.py
	@touch $@

# The whole suite on the wheel in an environment of its own.
wheel-test: $(STAMPS)/wheel-smoke $(STAMPS)/wheel-env $(PROGRAMS)
	.venv-wheel/bin/python -m pip --disable-pip-version-check install --quiet --no-deps \
		--force-reinstall build/dist/*.whl
	.venv-wheel/bin/python -m pytest $(PYTEST)
$(STAMPS)/wheel-env: requirements/dev.txt $(STAMPS)/dev
	$(BIN)/python -m venv --clear .venv-wheel
	.venv-wheel/bin/python -m pip --disable-pip-version-check install --quiet \
		--require-hashes --requirement requirements/dev.txt
	@touch $@

# The quick tests on the wheel with each Python that the classifiers name, as far as it is here.
wheel-pythons: $(STAMPS)/wheel-smoke $(PROGRAMS)
	$(BIN)/python scripts/check_pythons.py

# Set-up.
$(STAMPS)/venv:
	@mkdir -p $(STAMPS)
	bash scripts/make_venv.sh $(VENV)
	@touch $@

$(STAMPS)/run: requirements/run.txt requirements/build.txt pyproject.toml | $(STAMPS)/venv
	$(PIP) --require-hashes --requirement requirements/run.txt --requirement requirements/build.txt
	$(PIP) --no-build-isolation --no-deps --editable .
	@touch $@

$(STAMPS)/dev: requirements/dev.txt $(STAMPS)/run
	$(PIP) --require-hashes --requirement requirements/dev.txt
	@touch $@

$(STAMPS)/chromium: | $(STAMPS)/venv
	bash scripts/need_package.sh chromium 'the browser tests' chromium chromium-browser
	@touch $@

$(STAMPS)/calc: | $(STAMPS)/venv
	bash scripts/need_package.sh libreoffice-calc-nogui 'the tests of spreadsheets' soffice
	@touch $@

# Calc brings soffice, which can then not tell whether Impress is there: its library does.
$(STAMPS)/impress: $(STAMPS)/calc | $(STAMPS)/venv
	ls /usr/lib/libreoffice/program/libsdlo.so >/dev/null 2>&1 || \
		bash scripts/need_package.sh libreoffice-impress-nogui 'the tests of slides'
	@touch $@

$(STAMPS)/film: | $(STAMPS)/venv
	bash scripts/need_package.sh ffmpeg 'the tests of the film' ffprobe
	bash scripts/need_package.sh espeak-ng 'the tests of a draft voice' espeak-ng
	@touch $@

$(STAMPS)/hdl: | $(STAMPS)/venv
	bash scripts/need_package.sh iverilog 'the tests of SystemVerilog' iverilog
	bash scripts/need_package.sh verilator 'the tests of SystemVerilog' verilator
	bash scripts/need_package.sh ghdl 'the tests of VHDL' ghdl
	@touch $@

$(STAMPS)/postscript: | $(STAMPS)/venv
	bash scripts/need_package.sh ghostscript 'the tests of PostScript' gs
	@touch $@

$(STAMPS)/web: tests/web/package-lock.json | $(STAMPS)/venv
	bash scripts/need_web_tools.sh
	@touch $@

clean:
	rm -rf build .venv .venv-wheel tests/web/node_modules .mypy_cache .pytest_cache .ruff_cache .hypothesis
