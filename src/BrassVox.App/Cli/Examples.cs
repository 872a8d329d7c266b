namespace BrassVox.App.Cli;

/// <summary>One or two command lines for every command, shown by its help and in the manual page. Tests read each of them as the program would.</summary>
internal static class Examples
{
    // What follows "brassvox "; the words before the first note, name or option are the command.
    private static readonly Dictionary<string, string[]> Lines = new(StringComparer.Ordinal)
    {
        [""] = ["", "--demo", "--plain"],
        ["resultants"] = ["resultants Bb1 F2 --order 3", "resultants Bb1 F2 --tuning just --a4 442"],
        ["render"] = ["render Bb1 F2 --coupling 0.6 --output pair.wav", "render Bb2 A2 --living --instrument trombone --glide-sung B2 --seconds 12 --output caught.wav"],
        ["measure"] = ["measure take.wav --played Bb2 --sung F3", "measure take.wav --json"],
        ["picture interval"] = ["picture interval Bb1 F2 --output interval.svg"],
        ["picture beats"] = ["picture beats Bb1 F2 --output beats.png"],
        ["picture take"] = ["picture take take.wav --played Bb2 --sung F3 --output take.png"],
        ["picture spectrum"] = ["picture spectrum take.wav --played Bb2 --sung F3 --output spectrum.png"],
        ["notation"] = ["notation open-home-pair --instrument horn --output pair.musicxml", "notation two-breaths-one-pipe --output passage.mid"],
        ["exercise list"] = ["exercise list"],
        ["exercise show"] = ["exercise show 14 --instrument trombone --voice low"],
        ["exercise run"] = ["exercise run 14 --instrument trombone --voice low", "exercise run open-home-pair --input take.wav --aim III"],
        ["exercise schema"] = ["exercise schema"],
        ["scene list"] = ["scene list"],
        ["scene check"] = ["scene check my-scene.json"],
        ["scene schema"] = ["scene schema"],
        ["passage show"] = ["passage show two-breaths-one-pipe --instrument trombone --voice low"],
        ["passage text"] = ["passage text two-breaths-one-pipe"],
        ["passage run"] = ["passage run two-breaths-one-pipe --from 1 --to 4 --tempo 80 --help-left cue"],
        ["passage render"] = ["passage render two-breaths-one-pipe --to 4 --output passage.wav"],
        ["section"] = ["section Bb2 D3 F3", "section Bb2 F3+6 D4-14 --output section.wav"],
        ["tracks"] = ["tracks 14 --format opus --output practice-tracks"],
        ["handout"] = ["handout 14 18 --player Horn-4 --output handout.html"],
        ["class"] = ["class 14 --output class-handouts"],
        ["devices"] = ["devices"],
        ["delay"] = ["delay --level -26"],
        ["takes list"] = ["takes list --exercise open-home-pair"],
        ["takes map"] = ["takes map --demo --player Horn-4"],
        ["takes note"] = ["takes note throat --take last"],
        ["takes copy"] = ["takes copy 20261019T170321Z-open-home-pair-1 for-my-teacher"],
        ["takes delete"] = ["takes delete 20261019T170321Z-open-home-pair-1"],
        ["takes export"] = ["takes export log.csv"],
        ["takes import"] = ["takes import log.csv"],
        ["plan"] = ["plan --minutes 20"],
        ["profile list"] = ["profile list"],
        ["profile show"] = ["profile show Horn-4"],
        ["profile set"] = ["profile set Horn-4 --instrument horn --voice high --note-names german"],
        ["profile use"] = ["profile use Horn-4"],
        ["profile remove"] = ["profile remove Horn-4"],
        ["demo"] = ["demo"],
        ["completion bash"] = ["completion bash"],
        ["manual"] = ["manual"],
    };

    /// <summary>Paths of all commands that have examples.</summary>
    public static IEnumerable<string> Paths => Lines.Keys;

    /// <summary>Examples of a command, without the program's name.</summary>
    /// <param name="path">Names of the command and of those above it, without the program's, as in <c>takes list</c>.</param>
    public static IReadOnlyList<string> Of(string path) => Lines.GetValueOrDefault(path, []);
}
