#!/bin/sh
# Reviews the project files of a change in CI.
#
#   sh review.sh FOLDER [BASE]
#
# FOLDER holds the project files; BASE is the branch that the change goes to (origin/main if left out). Writes
#   review.sarif.json  what warns or fails, at its line, for hosts that show such findings beside the code
#   review.junit.xml   the same as a test report
#   comparison.md      what the change did to every margin, for a comment
# and ends with 1 where a check fails or lost more room than ALLOWED_LOSS (5%), with 2 where something could not run.
# TANKPROOF is the command where it is not the one that npm ci installed.
set -u
folder=${1:?name the folder of the project files}
base=${2:-origin/main}
tankproof=${TANKPROOF:-npx --no-install tankproof}
status=0
worst() { if [ "$1" -gt "$status" ]; then status=$1; fi; }

$tankproof check "$folder" -o review.sarif.json -o review.junit.xml || worst $?

# where the change branched off: what others did since then is not its doing
start=$(git merge-base "$base" HEAD) || { echo "review.sh: $base is not here; fetch it, with its history" >&2; exit 2; }
if git cat-file -e "$start:./$folder" 2>/dev/null; then
  $tankproof compare "git:$start:./$folder" "$folder" --fail-on "worse:${ALLOWED_LOSS:-5%}" -o comparison.md || worst $?
else
  echo "review.sh: $folder is new, so there is nothing to compare it with"
fi
exit "$status"
