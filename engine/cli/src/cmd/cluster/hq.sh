#!/bin/bash
# Plays {plan} in {shards} parts as a task array of HyperQueue, and merges them into {out}. A server must
# be up (`hq server start --journal journal.bin`) and workers on all machines that are to play (`hq worker
# start`), which must see the program, the plan and the folder {out}. Keep this file as shards.sh, then:
#
#   bash shards.sh
#
# A worker that is lost gives its parts back. After any other failure the same line goes on with what is
# missing: a part that is there and whole is not played twice.
set -euo pipefail
program=$(command -v "${RULESHIFT:-ruleshift}")
missing=$("$program" missing {out} --plan {plan} --of {shards} --format hq)
mkdir -p logs
if [ -n "$missing" ]; then
    hq submit --wait --array "$missing" --cpus {threads} --crash-limit 5 \
        --stdout none --stderr 'logs/%{TASK_ID}.err' -- \
        bash -c "exec '$program' shard \$HQ_TASK_ID/{shards} --plan {plan} --out {out} --threads {threads}"
fi
"$program" merge {out}
