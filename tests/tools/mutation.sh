#!/usr/bin/env bash
# Mutation testing: spoils one room's code in small ways and asks whether that room's tests notice. By hand; half an hour to an hour.
#   bash tests/tools/mutation.sh theory|judging|analysis [FOLDER] [FILE...|--again REPORT...]
# FOLDER keeps the report; FILEs (as in Pitch.cs, or Reports/*.cs) are spoiled instead of the whole room. The whole suite takes minutes for each
# of some thousand mutants, so a copy of the tree gets a test project that holds the room's own, fast tests only: those on drawn frames and pitches,
# which take milliseconds. A mutant is tried on the tests that reach it. BRASSVOX_MUTATION_TESTS, files under tests/BrassVox.Tests with ; between,
# stands in for the room's tests: a mutant of a transform is tried faster on the transform's tests alone than on all that use it.
# --again tries only what survived or timed out in earlier runs on the same sources, with what tests there are now, and counts all together.
# BRASSVOX_MUTATION_EVERY=4 takes every fourth place of those only: a sample.
# The last lines name the survivors and give the score: killed and timed-out mutants of all that compile, uncovered ones counted as alive.
set -u
cd "$(dirname "$0")/../.." || exit 1
room=${1:-}; keep=${2:-}; shift; [ $# -gt 0 ] && shift
reports=()
if [ "${1:-}" = --again ]; then
  shift; reports=("$@")
  mapfile -t places < <(python3 tests/tools/mutation_report.py --again "${reports[@]}" | awk -v every="${BRASSVOX_MUTATION_EVERY:-1}" 'NR % every == 0')
  [ ${#places[@]} -gt 0 ] || { echo "mutation.sh: the reports hold nothing alive"; exit 2; }
  set -- "${places[@]}"
fi
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
# On a busy machine "dotnet --info" takes longer than the ten seconds that are waited for it: "Could not find build environment".
export DOTNET_INFO_WAIT_TIME=120000
case $room in
  theory)
    project=Theory rooms="Theory" packages="xunit.v3.mtp-v2" tests="Theory/*.cs"; set -- "${@:-*.cs}" ;;
  judging)
    project=Practice rooms="Theory Synthesis Analysis Audio Practice" packages="xunit.v3.mtp-v2 CsCheck MathNet.Numerics Microsoft.Data.Sqlite"
    # Not VerdictTests: whole exercises, too slow in code full of sleeping mutants to be laid to any.
    tests="$(cd tests/BrassVox.Tests && ls Practice/Judging/*.cs | grep -v VerdictTests | tr '\n' ';')Practice/PairBeatsTests.cs;Practice/ShippedExercises.cs;Practice/Simulated*.cs;Practice/Log/LogRig.cs;Support/Repository.cs"
    set -- "${@:-Judging/*.cs}" ;;
  analysis) # CaptureZone, Sensation, Tracking, Bleed and RoundTrip are left out unless named: their mutants take seconds to half a minute each.
    project=Analysis rooms="Theory Synthesis Analysis" packages="xunit.v3.mtp-v2 CsCheck MathNet.Numerics"
    [ $# -gt 0 ] || set -- 'Reports/B*.cs' 'Reports/[G-V]*.cs' 'Scoring/*.cs' 'Loudness/*.cs' 'Transforms/*.cs' 'Bounds/*.cs'
    tests="Analysis/TransformsTests.cs;Analysis/ScoringTests.cs;Analysis/FourierPlanTests.cs;Analysis/CramerRaoTests.cs;Analysis/TestTone.cs;Support/Alloc*.cs"
    case $* in *Reports*) tests+=";Analysis/DrawnReportTests.cs;Analysis/DrawnStillTests.cs" ;; esac
    case $* in *Tracking*) tests="Analysis/DrawnSpectrumTests.cs;Analysis/DrawnEvidenceTests.cs;Analysis/DrawnFitTests.cs;Analysis/DrawnReaderTests.cs;Analysis/TestTone.cs" ;; esac
    case $* in *Loudness*) tests+=";Analysis/LoudnessTests.cs" ;; esac
    case $* in *CaptureZone*) tests+=";Analysis/DrawnGlideTests.cs" ;; esac
    case $* in *Bleed* | *RoundTrip*) tests+=";Analysis/DrawnBleedTests.cs" ;; esac
    case $* in *Sensation*) tests+=";Analysis/DrawnSensationTests.cs" ;; esac ;;
  *) echo "usage: mutation.sh theory|judging|analysis [FOLDER] [FILE...]"; exit 2 ;;
esac

tests=${BRASSVOX_MUTATION_TESTS:-$tests}
mkdir "$work/tree" && git ls-files -z --cached --others --exclude-standard | xargs -0 cp --parents -t "$work/tree" || exit 1
{
  echo '<Project Sdk="Microsoft.NET.Sdk"><PropertyGroup><OutputType>Exe</OutputType><IsPackable>false</IsPackable><Optimize>true</Optimize>'
  echo '<UseMicrosoftTestingPlatformRunner>true</UseMicrosoftTestingPlatformRunner><EnableDefaultCompileItems>false</EnableDefaultCompileItems>'
  echo '<TreatWarningsAsErrors>false</TreatWarningsAsErrors></PropertyGroup><ItemGroup>'
  for package in $packages; do echo "<PackageReference Include=\"$package\" />"; done
  for other in $rooms; do echo "<ProjectReference Include=\"../../src/BrassVox.$other/BrassVox.$other.csproj\" />"; done
  echo "<Content Include=\"../../presets/**/*\" LinkBase=\"presets\" CopyToOutputDirectory=\"PreserveNewest\" /><Compile Include=\"$tests\" /></ItemGroup></Project>"
} >"$work/tree/tests/BrassVox.Tests/BrassVox.Tests.csproj"
# The other files are marked as generated: only what carries no mutants at all runs at its own speed, four times and more that of code with some asleep.
while read -r file; do
  for wanted in "$@"; do case $file in */${wanted%%{*}) continue 2 ;; esac; done
  { printf '// <auto-generated/>\n#nullable enable\n'; sed '1s/^\xef\xbb\xbf//' "$file"; } >"$work/marked" && mv "$work/marked" "$file"
done < <(find "$work/tree/src/BrassVox.$project" -name '*.cs')
echo >"$work/tree/BrassVox.sln" # tests find the presets by it; its projects are not wanted

# Twenty seconds more than the tests take: on a busy machine a slow run would pass for an endless one, and that for a mutant that was noticed.
{
  echo "{\"stryker-config\":{\"project\":\"BrassVox.$project.csproj\",\"test-runner\":\"mtp\",\"reporters\":[\"json\",\"html\",\"dots\"],"
  echo "\"concurrency\":${BRASSVOX_MUTATION_AT_ONCE:-1},\"additional-timeout\":20000,\"mutate\":[$(printf ',"**/%s"' "$@" | cut -c2-)]}}"
} >"$work/tree/tests/BrassVox.Tests/stryker-config.json"

dotnet tool install dotnet-stryker --version 5.1.0 --tool-path "$work/tool" >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
(cd "$work/tree/tests/BrassVox.Tests" && "$work/tool/dotnet-stryker" --output "$work/report" --skip-version-check) || exit 1
[ -z "$keep" ] || { mkdir -p "$keep" && cp -r "$work/report/reports/." "$keep/"; }
python3 tests/tools/mutation_report.py ${reports[@]+"${reports[@]}"} "$work"/report/reports/mutation-report.json
