# Everything is run from here. `make help` lists what there is.

GO ?= go
FUZZTIME ?= 60s

.PHONY: help build run test check bench soak fuzz race generate engine

help:
	@echo 'make run       open the demonstration book in a browser (prints the address)'
	@echo 'make build     build bin/gyle'
	@echo 'make test      what continuous integration runs; installs a browser if it may'
	@echo 'make check     the same without looking for a browser'
	@echo 'make race      all tests with the race detector'
	@echo 'make bench     all benchmarks, every page under load, and a summary'
	@echo 'make fuzz      every fuzz target for $(FUZZTIME)'
	@echo 'make soak      200 rounds of kill -9 against a book, then the tests again and again'
	@echo 'make engine    build what published pages compute with (build, run and test do that themselves)'
	@echo 'make generate  write docs/formulas.md and science/catalogue.go anew'

build: engine
	@GO=$(GO) scripts/build bin/gyle

run: engine
	$(GO) run ./cmd/gyle serve --demo

engine:
	@$(GO) run ./internal/engine/make publish/engine

test:
	@scripts/browser
	@$(MAKE) --no-print-directory check

check: engine
	@scripts/check

generate:
	$(GO) generate ./...

race:
	$(GO) test -race ./...

bench:
	@scripts/bench

fuzz:
	@scripts/fuzz $(FUZZTIME)

soak:
	@scripts/soak
