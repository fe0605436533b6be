# One menu for people and machines. `make help` lists it.
#   PY=...    the Python to build .venv with (3.11 or newer; default: the first that will do)
#   OUT=...   where `make demo` writes
#   UPGRADE=--upgrade   for `make lock`: take new releases, else only what is missing

OUT ?= out
V := .venv
P := $(V)/bin/python
export PY

# Commands of the system that the tests use, with their Debian packages.
SYSTEM := pdftoppm=poppler-utils qpdf=qpdf soffice=libreoffice-calc-nogui initdb=postgresql \
  chromium,chromium-browser,google-chrome=chromium

# Folders may be empty in a young tree.
CODE := src tests $(if $(wildcard bench/*.py),bench)

LOCK = uv pip compile --quiet --universal --python-version 3.11 --fork-strategy fewest \
  --exclude-newer "7 days" --generate-hashes --no-strip-extras --no-header --no-emit-index-url --no-emit-find-links

.PHONY: demo test test-long check bench docs lock clean help system

demo: $(V)/.ok ## plan the demo jobs, paper and all, into out/
	@$(P) -m gaugerod demo --out $(OUT)

test: system check ## check, then every test, with the core covered in full
	@$(P) -m pytest -n auto --dist worksteal --cov --cov-report=
	@$(P) -m coverage report --include='src/gaugerod/core/*' --fail-under=100
	@$(P) -m coverage report --omit='src/gaugerod/core/*'

test-long: export GAUGEROD_LONG = 1
test-long: test ## the same tests, with many more examples

check: $(V)/.ok-dev ## style, types, layers, contracts
	@$(P) -m ruff check .
	@$(P) -m ruff format --check .
	@$(P) -m mypy $(CODE)
	@$(V)/bin/lint-imports --no-logo
	@$(P) -m pytest -q tests/contract

bench: $(V)/.ok-dev ## times and ratios against plain baselines
	@if [ -f bench/__main__.py ]; then $(P) -m bench; \
	else for script in bench/bench_*.py; do $(P) "$$script" || exit 1; done; fi

docs: $(V)/.ok-docs ## the documentation, into build/docs
	@$(P) -m sphinx -n -W --keep-going -q docs build/docs
	@echo "build/docs/index.html"

lock: ## renew the locks (needs uv); releases younger than a week are left out
	@command -v uv >/dev/null || { echo "make lock needs uv on PATH"; exit 2; }
	@$(LOCK) $(UPGRADE) pyproject.toml --group build -o requirements.lock
	@$(LOCK) $(UPGRADE) -c requirements.lock pyproject.toml --group build --group dev \
	  -o requirements-dev.lock
	@$(LOCK) $(UPGRADE) -c requirements-dev.lock pyproject.toml --group build --group docs \
	  -o requirements-docs.lock

clean: ## remove everything that make made
	@rm -rf $(V) $(OUT) build dist .coverage .mypy_cache .pytest_cache .ruff_cache \
	  .import_linter_cache .hypothesis
	@find . -name __pycache__ -type d -prune -exec rm -rf {} +

help: ## this list
	@awk -F ':.*## ' '/^[a-z-]+:.*## / {printf "  make %-10s %s\n", $$1, $$2}' $(MAKEFILE_LIST)

system:
	@tools/system.sh $(SYSTEM)

# --- the environment: remade when a lock, the project file or the recipe changes ---------------

$(V)/.ok: requirements.lock pyproject.toml tools/venv.sh
	@tools/venv.sh $<
	@touch $@

# The dev lock holds the run-time lock, so it stamps both.
$(V)/.ok-dev: requirements-dev.lock pyproject.toml tools/venv.sh
	@tools/venv.sh $<
	@touch $(V)/.ok $@

$(V)/.ok-docs: requirements-docs.lock pyproject.toml tools/venv.sh
	@tools/venv.sh $<
	@touch $@
