#!/usr/bin/env bash
# What share of each room's lines and branches the tests reach. By hand: counting slows the hot loops down, the whole suite takes a quarter of an hour.
#   bash tests/tools/coverage.sh [FOLDER] [TEST ARGUMENT...]
# FOLDER keeps the report (Cobertura XML); further arguments go to the tests, as in --filter-class '*WavReader*'.
# The counter (coverlet.MTP, MIT) is put into a copy of the tree: the project itself does not depend on it.
set -u
cd "$(dirname "$0")/../.." || exit 1
keep=${1:-}; [ $# -gt 0 ] && shift
[ -z "$keep" ] || { mkdir -p "$keep" && keep=$(cd "$keep" && pwd) || exit 1; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 BRASSVOX_DATA="$work/data"
[ -n "${BRASSVOX_RECORDINGS:-}" ] || { [ -d ../shared/external ] && export BRASSVOX_RECORDINGS="$PWD/../shared/external"; }
mkdir "$work/tree" && git ls-files -z --cached --others --exclude-standard | xargs -0 cp --parents -t "$work/tree" || exit 1
cd "$work/tree" || exit 1
sed -i 's|<PackageReference Include="CsCheck" />|&<PackageReference Include="coverlet.MTP" />|' tests/BrassVox.Tests/BrassVox.Tests.csproj
sed -i 's|<PackageVersion Include="CsCheck"|<PackageVersion Include="coverlet.MTP" Version="10.1.0" />\n    &|' Directory.Packages.props
dotnet build tests/BrassVox.Tests -p:Optimize=true -v q >"$work/log" 2>&1 || { tail -n 20 "$work/log"; exit 1; }
dotnet test --no-build --project tests/BrassVox.Tests -- --results-directory "$work/results" --coverlet --coverlet-output-format cobertura \
  --coverlet-include '[BrassVox.*]*' --coverlet-include '[brassvox]*' --coverlet-exclude '[BrassVox.Tests]*' "$@" >"$work/log" 2>&1
ended=$?
grep -E '^ *(total|failed|succeeded|skipped|duration):' "$work/log" || tail -n 40 "$work/log"
report=$(find "$work/results" -name '*.cobertura.*xml' | head -n 1)
[ -n "$report" ] || { tail -n 40 "$work/log"; echo "coverage.sh: no report was written"; exit 1; }
[ -z "$keep" ] || cp "$report" "$keep/coverage.cobertura.xml"
python3 tests/tools/coverage_report.py "$report"
exit $ended
