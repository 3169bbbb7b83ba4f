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
# Runs the tankproof that npm ci installed here or at the top of the repository, else the one on the path, never one that would have to
# be fetched; TANKPROOF is another command.
set -u
refused() { echo "review.sh: $1" >&2; exit 2; }
folder=${1:?name the folder of the project files}
base=${2:-origin/main}
[ -d "$folder" ] || refused "$folder is no folder here"
top=$(git rev-parse --show-toplevel) || exit 2
# the folder from the top of the repository, whether it was named from here or from the root
inside=$(git -C "$folder" rev-parse --show-prefix) || exit 2
[ "$(git -C "$folder" rev-parse --show-toplevel)" = "$top" ] || refused "$folder is not in the repository $top"
inside=${inside%/}
if [ -z "${TANKPROOF:-}" ]; then
  found=./node_modules/.bin/tankproof
  [ -x "$found" ] || found=$top/node_modules/.bin/tankproof
  [ -x "$found" ] || found=$(command -v tankproof) || refused "tankproof is neither in node_modules nor on the path; run npm ci first"
fi
tankproof() { if [ -n "${TANKPROOF:-}" ]; then $TANKPROOF "$@"; else "$found" "$@"; fi; }
status=0
worst() { if [ "$1" -gt "$status" ]; then status=$1; fi; }

tankproof check "$folder" -o review.sarif.json -o review.junit.xml || worst $?

# where the change branched off: what others did since then is not its doing
start=$(git merge-base "$base" HEAD) || refused "$base is not here; fetch it, with its history"
if git cat-file -e "$start:$inside" 2>/dev/null; then
  tankproof compare "git:$start:$inside" "$folder" --fail-on "worse:${ALLOWED_LOSS:-5%}" -o comparison.md || worst $?
else
  echo "review.sh: $folder is new, so there is nothing to compare it with"
fi
exit "$status"
