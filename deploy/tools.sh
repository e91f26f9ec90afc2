# Sourced by the scripts beside it: what they all need first. Says in one sentence what is missing.

root="$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)"

stop_with() {
    echo "$1" >&2
    exit 1
}

# The JDK by JAVA_HOME, else the one on the path, as Maven itself chooses.
need_jdk() {
    if [ -n "${JAVA_HOME:-}" ]; then
        java="$JAVA_HOME/bin/java"
        javac="$JAVA_HOME/bin/javac"
    else
        java="$(command -v java || true)"
        javac="$(command -v javac || true)"
    fi
    [ -x "$java" ] && [ -x "$javac" ] ||
        stop_with "Panelbook needs a JDK, 17 or newer: install one and set JAVA_HOME to its folder."
    local version
    version="$("$javac" -version 2>&1 | sed 's/[^0-9]*\([0-9][0-9]*\).*/\1/')"
    [ "$version" -ge 17 ] ||
        stop_with "Panelbook needs a JDK, 17 or newer; this is $version ($javac): set JAVA_HOME to a newer one."
}

need_maven() {
    command -v mvn >/dev/null || stop_with "Panelbook is built by Maven, 3.8 or newer: install it and put mvn on the path."
}

# A browser for the tests of the board, from the system's packages where they can be installed. Its absence is said, and does
# not stop the rest.
need_browser() {
    if command -v chromium >/dev/null && command -v chromedriver >/dev/null; then
        return
    fi
    if [ "$(id -u)" -eq 0 ] && command -v apt-get >/dev/null; then
        echo "Installing a browser for the tests of the board (chromium, chromium-driver)."
        { apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
            chromium chromium-driver fonts-dejavu-core; } >/dev/null 2>&1 || true
    fi
    command -v chromium >/dev/null && command -v chromedriver >/dev/null ||
        echo "No browser: the tests of the board in one are skipped. Install the packages chromium and chromium-driver to run them."
}
