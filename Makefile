# Loomwright. `make demo` and `make test` are all that a newcomer needs.
GO ?= go
BIN := bin/loomwright

.PHONY: all build page tsc types demo test check lint docs soak bench fmt clean oracles

all: build

build: page
	$(GO) build -o $(BIN) ./cmd/loomwright

# The main job on real input: prove and draw the examples, then open the page.
demo: build
	./demo.sh $(BIN)

# What CI runs. Installs the outside programs that tests check against (Debian).
test: oracles check

oracles:
	./tools/oracles.sh

check: lint page tsc
	$(GO) build ./...
	$(GO) test ./...

lint:
	@test -z "$$(gofmt -l . | tee /dev/stderr)" || (echo 'run make fmt' && false)
	$(GO) vet ./...
	$(GO) build -C tools -o ../bin/golangci-lint github.com/golangci/golangci-lint/v2/cmd/golangci-lint
	bin/golangci-lint run ./...

# The page: the core as WebAssembly, TypeScript bundled, all of it packed; with
# Go alone. web/dist is then a whole site for any static host.
page:
	$(GO) build -C tools -o ../bin/page ./page
	bin/page web

# The types of the page's own code; where there is no tsc it says so.
tsc:
	@if command -v tsc >/dev/null; then tsc -p web; else echo 'tsc is not installed: the types of the page were not checked'; test -z "$(CI)"; fi

# The page's types, written from the Go types that the core answers with.
types:
	$(GO) test ./web -run TestTypes -update

docs:
	$(GO) run ./cmd/loomdocs out/man

soak:
	$(GO) test -tags soak -timeout 60m ./...

bench:
	$(GO) test -run '^$$' -bench . -benchmem ./...

fmt:
	gofmt -w .

clean:
	rm -rf bin out
