# Sourced by ./run and ./check: sets a bare Debian 12 machine up, quickly when
# nothing is missing. Everything comes from Debian's packages and the npm registry.

# What begins, and after how many seconds.
say() { printf '\033[1m%s\033[0m  (%d s)\n' "$*" "$SECONDS"; }
fail() {
  printf '%s\n' "$*" >&2
  exit 1
}

# What the program needs to be built and run, and what only its checks need.
run_packages=(g++ cmake ninja-build ccache nlohmann-json3-dev libboost-dev libgumbo-dev libutf8proc-dev libpoppler-cpp-dev
  libqrencode-dev libsqlite3-dev libcli11-dev coinor-libcbc-dev pkg-config libpango1.0-dev fonts-dejavu-core ca-certificates)
# The living card's engine is WebAssembly.
card_packages=(clang-19 lld-19 llvm-19 wasi-libc libc++-19-dev-wasm32 libc++abi-19-dev-wasm32
  libclang-rt-19-dev-wasm32)
check_packages=(doctest-dev librapidcheck-dev libbenchmark-dev libsundials-dev units binutils
  clang-19 clang-format-19 clang-tidy-19 lld-19 llvm-19 libclang-rt-19-dev wasi-libc
  libc++-19-dev-wasm32 libc++abi-19-dev-wasm32 libclang-rt-19-dev-wasm32 chromium poppler-utils python3-iapws)

need_packages() {
  local missing=() name
  for name in "$@"; do
    dpkg-query -W -f='${Status}' "$name" 2>/dev/null | grep -q 'install ok installed' || missing+=("$name")
  done
  [ "${#missing[@]}" = 0 ] && return 0
  [ "$(id -u)" = 0 ] || fail "These packages are missing: ${missing[*]}; run this once as root, or install them."
  command -v apt-get >/dev/null || fail "This needs Debian 12's apt-get to install: ${missing[*]}."
  say "Installing ${#missing[@]} packages: ${missing[*]}"
  mkdir -p build
  { apt-get update && DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${missing[@]}"; } \
    >build/packages.log 2>&1 || fail "apt-get could not install the packages; build/packages.log says why."
}

# Node of the machine, else Debian's.
need_node() {
  command -v node >/dev/null && command -v npm >/dev/null && return 0
  need_packages nodejs npm
}

# Runs a step quietly; its output is shown only when it fails.
quietly() {
  local what=$1 log=build/step.log
  shift
  mkdir -p build
  "$@" >"$log" 2>&1 || {
    tail -n 60 "$log" >&2
    fail "$what failed; the lines above say where (all of it in $log)."
  }
}

# The engine inside a living card. Without it maslin does all but write such cards.
build_card_engine() {
  [ -f build/wasm/build.ninja ] || quietly "cmake for WebAssembly" cmake --preset wasm
  say "Building the living card's engine"
  quietly "The card's engine" cmake --build --preset wasm --target maslin_card_engine
}

build_page() {
  [ -f web/package.json ] || return 0
  need_node
  if [ ! -d web/node_modules ] || [ web/package-lock.json -nt web/node_modules/.package-lock.json ]; then
    say "Fetching the page's libraries (npm ci)"
    quietly "npm ci in web/" npm --prefix web ci --no-audit --no-fund
  fi
  if [ ! -f web/dist/index.html ] || [ build/wasm/maslin_card_engine.wasm -nt web/dist_card/card.js ] || [ -n "$(find web/src web/*.mjs web/*.json -newer web/dist/index.html 2>/dev/null | head -1)" ]; then
    say "Building the page"
    quietly "Building the page" npm --prefix web run build
  fi
}

build_program() {
  # Tests need packages that running does not; ./check turns them on.
  [ -f build/release/build.ninja ] ||
    quietly "cmake" cmake --preset release -DMASLIN_TESTS=OFF -DMASLIN_BENCH=OFF
  say "Building maslin (a few minutes the first time)"
  quietly "The build" cmake --build --preset release --target maslin
}
