#!/bin/bash
# Plays {plan} in {shards} parts by GNU parallel, and merges them into {out}: on this machine, or on
# others by ssh. Keep this file as shards.sh, then either of
#
#   bash shards.sh
#   HOSTS=hosts bash shards.sh
#
# In the file hosts each line is a number of parts at once and a host, as in 4/anna@laptop; a colon in
# place of a host is this machine. Hosts need ssh, rsync and a processor of the same kind as this
# machine's: the program and the plan are copied to them, and all they leave is removed. House rules and
# scenarios of your own must lie on every host where the plan names them, best by a whole path.
#
# A part that is there and whole is not played twice, so after a failure the same line goes on. A host
# that is lost gives its parts to the others.
set -euo pipefail
plan={plan} out={out} shards={shards} threads={threads}
program=$(command -v "${RULESHIFT:-ruleshift}")
parts=$(mktemp -d parts.XXXXXX)
trap 'rm -rf "$parts"' EXIT
# Where no run has begun, all parts are missing.
missing() { "$program" missing "$out" --plan "$plan" --of "$shards" --format parallel; }
if [ -z "${HOSTS:-}" ]; then
    missing | parallel --will-cite --retries 3 --jobs "$((($(nproc) + threads - 1) / threads))" \
        "$program" shard "{}/$shards" --plan "$plan" --out "$out" --threads "$threads" --quiet
else
    ssh='ssh -o BatchMode=yes -o ConnectTimeout=5 -o ServerAliveInterval=5 -o ServerAliveCountMax=3'
    export RSYNC_RSH=$ssh
    cp "$program" "$parts/ruleshift"
    cp "$plan" "$parts/plan.ron"
    hosts=$(realpath "$HOSTS") here=$PWD
    # Every part comes back in a folder of its own, so that none is seen before it is whole.
    missing | (cd "$parts" && parallel --will-cite --ssh "$ssh" --sshloginfile "$hosts" \
        --retries "$(($(grep -c . "$hosts") + 2))" --workdir ruleshift-work \
        --basefile ruleshift --basefile plan.ron --return 'part-{}' --cleanup \
        "./ruleshift shard {}/$shards --plan plan.ron --out part-{} --threads $threads --quiet") ||
        echo "some parts were not played; what was is kept" >&2
    mkdir -p "$here/$out/shards"
    find "$parts" -mindepth 2 -name plan.ron -exec cp -n {} "$here/$out/plan.ron" \;
    find "$parts" -name 'shard-*' -exec mv -t "$here/$out/shards" {} +
fi
"$program" merge "$out"
