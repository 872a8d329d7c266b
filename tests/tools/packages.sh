#!/usr/bin/env bash
# Makes what is handed out and uses it as its taker would: the tool package, and executables that need no .NET.
#   bash tests/tools/packages.sh [--short] [FOLDER]
# --short: the tool package and linux-x64 only (two to three minutes; too long for CI, so by hand). FOLDER keeps what was made. The last line is "N passed, N failed".
# native (compiled as a whole) is made where a C compiler is; executables for other systems are made and looked at, not run.
set -u
cd "$(dirname "$0")/../.." || exit 1
short=0
[ "${1:-}" = --short ] && { short=1; shift; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
made=${1:-$work/made}
mkdir -p "$made" "$work/empty" && made=$(cd "$made" && pwd)
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
passed=0 failed=0

check() { # what, command...
  local what=$1 from=$SECONDS
  shift
  if "$@" >"$work/log" 2>&1 </dev/null; then
    passed=$((passed + 1)); [ $((SECONDS - from)) -lt 10 ] || echo "$what ($((SECONDS - from)) s)"
  else
    failed=$((failed + 1)); echo "FAILED  $what"; tail -n 20 "$work/log" | sed 's/^/        /'
  fi
}

# A taker without .NET: nothing from this environment, and a home that is not there to be written.
bare() { (cd "$work/empty" && env -i PATH="$path" HOME=/nonexistent LC_ALL=C.UTF-8 BRASSVOX_DATA="$work/data" "$@"); }

no_dotnet() { ! bare sh -c 'command -v dotnet'; }

says() { # text, command...
  local text=$1 said
  shift
  said=$(bare "$@" 2>&1) || { echo "exit $?: $said"; return 1; }
  grep -qF -- "$text" <<<"$said" || { echo "no \"$text\" in: $said"; return 1; }
}

completes() { # program: resultants --tu is completed
  bare bash -c 'set -e; PATH="$(dirname "$1"):$PATH"; source <(brassvox completion bash)
    COMP_WORDS=(brassvox resultants --tu) COMP_CWORD=2 COMP_LINE="brassvox resultants --tu"; COMP_POINT=${#COMP_LINE}
    _brassvox; echo "${COMPREPLY[*]}"; [ "${COMPREPLY[*]}" = --tuning ]' - "$1"
}

refuses_without_presets() { # program
  mkdir -p "$work/alone" && cp "$1" "$work/alone/brassvox" || return 1
  local said
  said=$(bare "$work/alone/brassvox" exercise list 2>&1) && { echo "exit 0: $said"; return 1; }
  [[ $said == "brassvox: its presets are not beside it"* ]] || { echo "$said"; return 1; }
}

used() { # name, program: a tone system, the log, a sound file, a picture, a measurement; every native library is needed
  check "$1: resultants" says "Bb1 played (58.270 Hz), F2 sung (87.307 Hz)" "$2" resultants Bb1 F2
  check "$1: exercises" says "find-the-added-tone" "$2" exercise list
  check "$1: the log" says "SIMULATED: nobody played these" "$2" demo
  check "$1: renders" says "" "$2" render Bb2 F3 --seconds 3 --output "$work/pair.wav"
  check "$1: measures" says "Bb2" "$2" measure "$work/pair.wav" --played Bb2 --sung F3
  check "$1: draws" says "" "$2" picture interval Bb1 F2 --output "$work/pair.png"
  check "$1: the picture is one" grep -q PNG "$work/pair.png"
  check "$1: completion" completes "$2"
  rm -rf "$work/data" "$work/pair.wav" "$work/pair.png"
}

# A system of its own that holds nothing but the executable's folder and the C and C++ libraries it asks for.
rooted() { # program, arguments...
  local root=$work/root program=$1 library
  shift
  if [ ! -d "$root" ]; then
    mkdir -p "$root"/{bin,tmp,proc,dev,data} && cp -r "$(dirname "$program")" "$root/brassvox" || return 1
    for library in $(ldd "$program" | grep -oE "/[^ ]+\.so[^ ]*" | sort -u); do
      mkdir -p "$root$(dirname "$library")" && cp -L "$library" "$root$library" || return 1
    done
  fi
  unshare -rm bash -c 'root=$1; shift; mount --rbind /proc "$root/proc" && mount --rbind /dev "$root/dev" &&
    exec env -i HOME=/ LC_ALL=C.UTF-8 BRASSVOX_DATA=/data /usr/sbin/chroot "$root" /brassvox/brassvox "$@"' - "$root" "$@"
}

publish() { # system, profile
  dotnet publish src/BrassVox.App -r "$1" -p:PublishProfile="$2" --artifacts-path "$work/artifacts" -o "$made/$1-$2" -v q "${@:3}"
}

licences() { python3 tests/tools/third_party.py "$1"; }

# Each library of the system it is for, and a folder that is neither half empty nor twice as large as known.
natives() { # system, folder
  local library megabytes least=120 most=260
  case $1 in
    linux-*) set -- "$@" libSkiaSharp.so libHarfBuzzSharp.so libe_sqlite3.so libonigwrap.so ;;
    win-*) set -- "$@" libSkiaSharp.dll libHarfBuzzSharp.dll e_sqlite3.dll libonigwrap.dll ;;
    osx-*) set -- "$@" libSkiaSharp.dylib libHarfBuzzSharp.dylib libe_sqlite3.dylib libonigwrap.dylib ;;
  esac
  for library in "${@:3}"; do [ -s "$2/$library" ] || { echo "$library is missing"; return 1; }; done
  megabytes=$(du -sm "$2" | cut -f1)
  [ "$megabytes" -ge $least ] && [ "$megabytes" -le $most ] || { echo "$megabytes MB"; return 1; }
}

path=/usr/bin:/bin
check "restored" dotnet restore src/BrassVox.App -v q
check "tool package made" dotnet pack src/BrassVox.App --artifacts-path "$work/artifacts" -o "$made" -v q
printf '<configuration><packageSources><clear /><add key="made" value="%s" /></packageSources></configuration>' "$made" >"$work/only-made.config"
check "tool package installed" env NUGET_PACKAGES="$work/nuget" dotnet tool install BrassVox --tool-path "$work/tools" --configfile "$work/only-made.config"
path=$(dirname "$(command -v dotnet)"):/usr/bin:/bin used "tool" "$work/tools/brassvox"
check "tool: the licences of all it holds" licences "$(dirname "$(find "$work/tools/.store" -name brassvox.dll | head -n 1)")"

systems=(linux-x64)
[ $short -eq 1 ] || systems+=(linux-arm64 win-x64 osx-arm64)
# The first 20 bytes: kind of file and, in it, the processor (ELF, PE and Mach-O headers).
declare -A begins=([linux-x64]="^7f454c4602.*3e00$" [linux-arm64]="^7f454c4602.*b700$" [win-x64]="^4d5a" [osx-arm64]="^cffaedfe0c000001")
for system in "${systems[@]}"; do
  check "$system made" publish "$system" ready
  program=$made/$system-ready/brassvox; [ "$system" = win-x64 ] && program=$program.exe
  od -An -v -tx1 -N20 "$program" | tr -d ' \n' >"$work/first"
  check "$system: an executable of that system" grep -qE "${begins[$system]}" "$work/first"
  check "$system: its native libraries, its size" natives "$system" "$made/$system-ready"
  check "$system: the licences of all it holds" licences "$made/$system-ready"
  check "$system: presets beside it" test -s "$made/$system-ready/presets/exercises/32-passage.json"
done
no_sdk=$(mktemp -d -p "$work"); for tool in /usr/bin/* /bin/*; do [ "${tool##*/}" = dotnet ] || ln -sf "$tool" "$no_sdk/"; done
path=$no_sdk
if [ "$(uname -sm)" = "Linux x86_64" ]; then
  check "no dotnet to be found" no_dotnet
  used "linux-x64" "$made/linux-x64-ready/brassvox"
  if unshare -rm true 2>/dev/null; then
    check "linux-x64, nothing else installed: resultants" rooted "$made/linux-x64-ready/brassvox" resultants Bb1 F2
    check "linux-x64, nothing else installed: renders" rooted "$made/linux-x64-ready/brassvox" render Bb2 F3 --seconds 3 --output /tmp/pair.wav
    check "linux-x64, nothing else installed: measures" rooted "$made/linux-x64-ready/brassvox" measure /tmp/pair.wav --played Bb2 --sung F3
  fi
  check "linux-x64: without presets" refuses_without_presets "$made/linux-x64-ready/brassvox"
  # BRASSVOX_ARM64_ROOT: a folder with the C and C++ libraries of that system, and qemu-aarch64-static beside: slow, but it runs.
  if [ $short -eq 0 ] && [ -n "${BRASSVOX_ARM64_ROOT:-}" ] && command -v qemu-aarch64-static >/dev/null; then
    check "linux-arm64, emulated: resultants" says "Bb1 played (58.270 Hz)" qemu-aarch64-static -L "$BRASSVOX_ARM64_ROOT" "$made/linux-arm64-ready/brassvox" resultants Bb1 F2
    check "linux-arm64, emulated: renders" says "1.000 s" qemu-aarch64-static -L "$BRASSVOX_ARM64_ROOT" "$made/linux-arm64-ready/brassvox" render Bb2 F3 --seconds 1 --output "$work/arm64.wav"
  fi
  compiler=$(command -v clang || command -v gcc)
  if [ $short -eq 0 ] && [ -n "$compiler" ]; then
    check "native made" publish linux-x64 native -p:CppCompilerAndLinker="${compiler##*/}"
    used "native" "$made/linux-x64-native/brassvox"
  fi
fi
for thing in "$made"/*; do du -sh "$thing" | sed "s|$made/||"; done
echo "$passed passed, $failed failed"
[ $failed -eq 0 ]
