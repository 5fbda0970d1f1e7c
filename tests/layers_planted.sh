#!/usr/bin/env bash
# Plants one fault at a time in a copy of the tree and asks that scripts/layers names it; the copy without a fault must pass.
set -euo pipefail
root=$(cd "${1:-"$(dirname "$0")/.."}" && pwd)
copy=$(mktemp -d)
trap 'rm -rf "$copy"' EXIT
cp -r "$root/models" "$root/sim" "$root/tests" "$copy/"
mkdir "$copy/scripts"
guard="$root/scripts/layers"
failed=0

if ! "$guard" "$copy" >"$copy/.said"; then
  echo "the copy is refused as it stands:"; cat "$copy/.said"; exit 1
fi

# planted FILE LINE EXPECTED: FILE with LINE in it must be refused in words that match EXPECTED.
planted() {
  local file=$1 line=$2 expected=$3
  mkdir -p "$(dirname "$copy/$file")"
  printf '%b\n' "$line" >"$copy/$file"
  if "$guard" "$copy" >"$copy/.said"; then
    echo "not refused: $file with $line"; failed=1
  elif ! grep -qE "$expected" "$copy/.said" || [ "$(wc -l <"$copy/.said")" -ne 1 ]; then
    echo "refused in other words than '$expected': $file"; cat "$copy/.said"; failed=1
  fi
  rm "$copy/$file"
}

planted models/soak/planted.hpp '#include "sim/kernel/time.hpp"' '^models/soak/planted.hpp:1: models/soak must not include sim/kernel/time.hpp$'
planted models/soak/planted.cpp '#include "models/growth/mat.hpp"' 'models/soak must not include models/growth'
planted models/base/planted.hpp '#include "models/soak/uptake.hpp"' 'models/base must not include'
planted models/soak/planted.hpp '\n#include <random>' 'planted.hpp:2: <random> does not belong'
planted models/soak/planted.cpp '#include <fmt/core.h>' '<fmt/core.h> does not belong'
planted models/water/planted.hpp '#include <boost/graph/adjacency_list.hpp>' 'does not belong in models/water headers'
planted sim/kernel/planted.hpp '  #  include "sim/replication/plan.hpp"' 'sim/kernel must not include sim/replication'
planted sim/scenario/planted.cpp '#include "sim/random/purpose.hpp"' 'sim/scenario must not include sim/random'
planted sim/study/planted.cpp '#include "sim/results/file.hpp"' 'sim/study must not include sim/results'
planted sim/report/planted.cpp '#include "sim/replication/replicate.hpp"' 'sim/report must not include sim/replication/replicate'
planted sim/study/planted.cpp '#include <hdf5.h>' '<hdf5.h> does not belong in sim/study'
planted sim/app/planted.cpp '#include "planted.hpp"' 'from the top of the tree'
planted sim/app/planted.cpp '#include "tests/catch.hpp"' 'sim/app must not include tests'
planted sim/newlayer/planted.cpp '#include "models/base/quantity.hpp"' 'sim/newlayer must not include'
planted sim/app/planted.cpp "$(printf '//%.0s\\n' $(seq 401))" 'two things live in one room'
planted tests/unit/soak/planted.cpp 'TEST_CASE("one thing; another") {}' 'planted.cpp:1: the name of a test holds a semicolon'
planted notes.txt 'a new name at the top' '^notes.txt: not a name the top of the tree may hold'
exit $failed
