#!/usr/bin/env bash
# Mutation testing: spoils one room's code in small ways and asks whether that room's tests notice. By hand; a quarter of an hour to some hours.
#   bash tests/tools/mutation.sh theory|judging|analysis [FOLDER] [FILE...]
# FOLDER keeps the report; FILEs (as in Pitch.cs) are spoiled instead of the whole room. The whole suite takes minutes for each of some
# thousand mutants, so a copy of the tree gets a test project that holds the room's own, fast tests only.
# The last lines name the survivors and give the score: killed and timed-out mutants of all that compile, uncovered ones counted as alive.
set -u
cd "$(dirname "$0")/../.." || exit 1
room=${1:-}; keep=${2:-}; shift; [ $# -gt 0 ] && shift
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
mutate=()
case $room in
  theory)
    project=Theory rooms="Theory" packages="xunit.v3.mtp-v2" tests="Theory/*.cs"; set -- "${@:-*.cs}" ;;
  judging)
    project=Practice rooms="Theory Synthesis Analysis Audio Practice" packages="xunit.v3.mtp-v2 CsCheck MathNet.Numerics Microsoft.Data.Sqlite"
    tests="Practice/TakeJudgeTests.cs;Practice/Judging/*.cs;Practice/PredictionTests.cs;Practice/ShippedExercises.cs;Practice/Simulated*.cs;Support/Repository.cs"
    set -- "${@:-Judging/*.cs}" ;;
  analysis)
    project=Analysis rooms="Theory Synthesis Analysis" packages="xunit.v3.mtp-v2 CsCheck MathNet.Numerics"
    tests="Analysis/ReportTests.cs;Analysis/ScoringTests.cs;Analysis/LoudnessTests.cs;Analysis/FourierPlanTests.cs;Analysis/TestTone.cs;Analysis/Mutation/*.cs"
    set -- "${@:-**/*.cs}" ;;
  *) echo "usage: mutation.sh theory|judging|analysis [FOLDER] [FILE...]"; exit 2 ;;
esac
for file; do mutate+=(--mutate "**/$file"); done

mkdir "$work/tree" && git ls-files -z --cached --others --exclude-standard | xargs -0 cp --parents -t "$work/tree" || exit 1
{
  echo '<Project Sdk="Microsoft.NET.Sdk"><PropertyGroup><OutputType>Exe</OutputType><IsPackable>false</IsPackable><Optimize>true</Optimize>'
  echo '<UseMicrosoftTestingPlatformRunner>true</UseMicrosoftTestingPlatformRunner><EnableDefaultCompileItems>false</EnableDefaultCompileItems>'
  echo '<TreatWarningsAsErrors>false</TreatWarningsAsErrors></PropertyGroup><ItemGroup>'
  for package in $packages; do echo "<PackageReference Include=\"$package\" />"; done
  for other in $rooms; do echo "<ProjectReference Include=\"../../src/BrassVox.$other/BrassVox.$other.csproj\" />"; done
  echo "<Content Include=\"../../presets/**/*\" LinkBase=\"presets\" CopyToOutputDirectory=\"PreserveNewest\" /><Compile Include=\"$tests\" /></ItemGroup></Project>"
} >"$work/tree/tests/BrassVox.Tests/BrassVox.Tests.csproj"
echo >"$work/tree/BrassVox.sln" # tests find the presets by it; its projects are not wanted

dotnet tool install dotnet-stryker --version 5.1.0 --tool-path "$work/tool" >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
(cd "$work/tree/tests/BrassVox.Tests" && "$work/tool/dotnet-stryker" --project "BrassVox.$project.csproj" --test-runner mtp \
  "${mutate[@]}" --reporter json --reporter html --reporter dots --output "$work/report" --concurrency 1 --skip-version-check) || exit 1
[ -z "$keep" ] || { mkdir -p "$keep" && cp -r "$work/report/reports/." "$keep/"; }
python3 tests/tools/mutation_report.py "$work"/report/reports/mutation-report.json
