#!/bin/sh
# Cold start of the client beside an empty Java program, both in turn on the same machine: median and least wall time of
# each in milliseconds, and the ratios. On a machine that others use the least is the figure to trust.
# Usage: deploy/bench/cold-start.sh [RUNS]   (after mvn package of the module cli)
#
# The client's commands: its version (nothing but a start), the help of a large command, the spool (files only), and a
# list from a service (HTTP and JSON), which a table of canned answers on this machine stands in for.

set -e
runs=${1:-21}
here=$(cd -P "${0%/*}" && pwd)
dist=$here/../../cli/target/dist
if [ ! -x "$dist/bin/panelbook" ]; then
    echo "There is no client in cli/target/dist. Build it first: mvn package -pl cli -am -DskipTests" >&2
    exit 1
fi
if [ -n "$JAVA_HOME" ]; then PATH=$JAVA_HOME/bin:$PATH; fi

work=$(mktemp -d)
trap 'exec 9>&-; rm -rf "$work"' EXIT
mkdir "$work/home"
cat >"$work/Empty.java" <<'JAVA'
final class Empty {
    public static void main(String[] arguments) {}
}
JAVA
javac -d "$work" "$work/Empty.java"
HOME=$work/home
export HOME
unset XDG_CONFIG_HOME XDG_STATE_HOME XDG_CACHE_HOME
"$dist/bin/panelbook-archive"

mkfifo "$work/hold"
java -cp "$dist/lib/panelbook-cli.jar" panelbook.cli.Rehearsal answer <"$work/hold" >"$work/address" &
exec 9>"$work/hold"
tries=0
while [ ! -s "$work/address" ] && [ $tries -lt 100 ]; do
    tries=$((tries + 1))
    sleep 0.1
done
echo token >"$work/token"
"$dist/bin/panelbook" log-in "$(cat "$work/address")" --token-file "$work/token" >/dev/null 2>&1

milliseconds() {
    began=$(date +%s%N)
    "$@" >/dev/null 2>&1 || true
    echo $((($(date +%s%N) - began) / 1000))
}

run=0
while [ $run -lt "$runs" ]; do
    run=$((run + 1))
    milliseconds java -cp "$work" Empty >>"$work/empty"
    milliseconds java -XX:+UseG1GC -XX:ParallelGCThreads=1 -XX:ConcGCThreads=1 -XX:TieredStopAtLevel=1 -cp "$work" Empty >>"$work/empty-tuned"
    milliseconds "$dist/bin/panelbook" --version >>"$work/version"
    milliseconds "$dist/bin/panelbook" run upload --help >>"$work/help"
    milliseconds "$dist/bin/panelbook" spool list >>"$work/spool"
    milliseconds "$dist/bin/panelbook" room list >>"$work/list"
done

nth() {
    sort -n "$1" | sed -n "$2p"
}

middle=$(((runs + 1) / 2))
printf '%-42s %9s %7s %9s %7s\n' "$runs runs each, in turn" "median ms" ratio "least ms" ratio
show() {
    awk -v name="$1" -v median="$(nth "$2" $middle)" -v least="$(nth "$2" 1)" \
        -v empty="$(nth "$work/empty" $middle)" -v emptyleast="$(nth "$work/empty" 1)" \
        'BEGIN { printf "%-42s %9.0f %7.2f %9.0f %7.2f\n", name, median / 1000, median / empty, least / 1000, least / emptyleast }'
}
show "empty program, as it is" "$work/empty"
show "empty program, with the client's options" "$work/empty-tuned"
show "panelbook --version" "$work/version"
show "panelbook run upload --help" "$work/help"
show "panelbook spool list" "$work/spool"
show "panelbook room list (HTTP, JSON)" "$work/list"
