#!/bin/bash
# Plays {plan} in {shards} parts as a job array of Slurm. The program, the plan and the folder {out}
# must be seen by all nodes. Keep this file as shards.sbatch, then:
#
#   mkdir -p logs
#   job=$(sbatch --parsable shards.sbatch)
#   sbatch --dependency=afterany:$job --output=logs/merge.log --wrap 'ruleshift merge {out}'
#
# If a part is missing, the merge says so and refuses. What is missing, and nothing else, is played by
#
#   sbatch --array="$(ruleshift missing {out} --of {shards} --format slurm)" shards.sbatch
#
# A part that is there and whole is not played twice, so all of this may be done again at any time.
# A node that fails gives its parts back to Slurm. A part that is stopped, or out of room, ends with
# code 75: where slurm.conf says RequeueExit=75, Slurm tries it again by itself.
#SBATCH --job-name=ruleshift
#SBATCH --array=0-{last}
#SBATCH --ntasks=1 --cpus-per-task={threads}
#SBATCH --requeue --open-mode=append
#SBATCH --output=logs/%A_%a.log
exec "${RULESHIFT:-ruleshift}" shard "$SLURM_ARRAY_TASK_ID/{shards}" \
    --plan {plan} --out {out} --threads {threads}
