# shellcheck shell=bash
# Shared by run-demo and run-tests, which source it: where the tree is, how a step is said, logged and timed, and how
# a build is made. The caller sets `us` (its own name) first.

us=${us:?the caller sets its own name}
root=$(CDPATH='' cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.." && pwd -P)
doing="starting"
log=""
# So that whoever interrupts it is told as well where it stopped.
trap 'echo; exit 130' INT
trap 'echo; exit 143' TERM

say() { printf '%s: %s\n' "$us" "$*"; }

# step LOG WHAT COMMAND...: says WHAT, runs COMMAND with its output in LOG, says how long it took, returns its status.
step() {
  log=$1 doing=$2
  shift 2
  local began=$SECONDS status=0
  mkdir -p -- "${log%/*}"
  printf '%s: %s ... ' "$us" "$doing"
  "$@" >"$log" 2>&1 </dev/null || status=$?
  if ((status == 0)); then
    printf 'done, %d s\n' $((SECONDS - began))
    log=""
  else
    printf 'failed; the end of its output:\n'
    tail -n 25 -- "$log" | sed 's/^/    /'
  fi
  return "$status"
}

# The one sentence a failure ends with.
say_stopped() {
  local where="the reason is above"
  if [[ $log ]]; then where="the log is $log"; fi
  say "stopped while $doing; $where." >&2
}

# How many compilers to run at once: one for a processor, but each must have its share (in MiB) of memory.
jobs_for() {
  local mib_each=$1 processors mib limit
  processors=$(nproc)
  mib=$(awk '/^MemAvailable:/ { print int($2 / 1024) }' /proc/meminfo)
  for limit in /sys/fs/cgroup/memory.max /sys/fs/cgroup/memory/memory.limit_in_bytes; do
    if [[ -r $limit ]] && limit=$(<"$limit") && [[ $limit =~ ^[0-9]{1,15}$ ]] && ((limit / 1048576 < mib)); then
      mib=$((limit / 1048576))
    fi
  done
  local jobs=$((mib / mib_each))
  if ((jobs > processors)); then jobs=$processors; fi
  if ((jobs < 1)); then jobs=1; fi
  echo "$jobs"
}

# configure FOLDER OPTION...: a build folder from another tree or another generator is begun afresh.
configure() {
  local folder=$1 fresh=()
  shift
  if [[ -f $folder/CMakeCache.txt ]] && ! { grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$root" "$folder/CMakeCache.txt" &&
    grep -qxF "CMAKE_GENERATOR:INTERNAL=Ninja" "$folder/CMakeCache.txt"; }; then
    fresh=(--fresh)
    rm -f -- "$folder"/.ninja_{deps,log}
  fi
  # Compiling sources together halves a first build; DULLCAST_TOGETHER=OFF in the environment does without.
  cmake "${fresh[@]}" -DDULLCAST_TOGETHER="${DULLCAST_TOGETHER:-ON}" -S "$root" -B "$folder" -G Ninja \
    -DCMAKE_CXX_COMPILER_LAUNCHER="$(command -v ccache || true)" "$@"
}
