# Starts the server, waits until the service goes, however it goes, and stops the server.
# The service holds the other end of standard input: its end, by close or by kill, is the end of that input.
# arguments: pg_ctl, data folder, log of the start, stop mode, folder to remove in the end (or empty)
pg_ctl=$1 data=$2 log=$3 mode=$4 remove=$5

# Signals to the terminal's or the unit's whole group are meant for the service, which stops us in its own time.
trap '' INT HUP TERM QUIT PIPE

umask 077
: >"$log"
: >"$log.control"
"$pg_ctl" -D "$data" -l "$log" -w -t 3600 start </dev/null >>"$log.control" 2>&1
started=$?
pid=
if [ $started -eq 0 ]; then
    read -r pid <"$data/postmaster.pid"
fi
echo "$started $pid" 2>/dev/null

cat >/dev/null

# Only our own server: the next service may have started another on the same folder by now.
now=
if [ -n "$pid" ] && [ -f "$data/postmaster.pid" ]; then
    read -r now <"$data/postmaster.pid"
fi
if [ -n "$pid" ] && [ "$now" = "$pid" ]; then
    "$pg_ctl" -D "$data" -m "$mode" -w -t 120 stop </dev/null >>"$log.control" 2>&1 ||
        "$pg_ctl" -D "$data" -m immediate -w -t 60 stop </dev/null >>"$log.control" 2>&1
fi
# after a failed start the service may try again in the same folder, and removes it itself in the end
if [ -n "$remove" ] && [ $started -eq 0 ]; then
    rm -rf "$remove"
fi
